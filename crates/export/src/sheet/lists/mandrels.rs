//! The list of mandrels.

use super::super::content::Table;
use super::super::words::{self, letter};
use quillet_model::Units;
use quillet_plan::{Fitted, Mandrel, MandrelId, Plan};

/// Mandrels and plugs to make.
pub(crate) fn mandrels(plan: &Plan, units: Units) -> Table {
    let head = [
        "",
        "kind",
        "thread",
        "shoulder Ø",
        "spigots and bore",
        "shank",
        "serves",
    ];
    let mut table = Table::new(&head);
    let rows = plan.mandrels.with_ids();
    table
        .rows
        .extend(rows.map(|(at, it)| mandrel(plan, (at, it), units)));
    table
}

/// A mandrel's row.
fn mandrel(plan: &Plan, (at, it): (MandrelId, &Mandrel), units: Units) -> Vec<String> {
    let fitted = |what: &str, it: &Option<Fitted>| {
        it.map(|it| {
            format!(
                "{what} Ø{} × {}",
                units.plain(it.dia),
                units.plain(it.length)
            )
        })
    };
    let thread = it
        .thread
        .as_ref()
        .map(|thread| format!("{} for {}", thread.thread, units.plain(it.thread_length)));
    let fits: Vec<String> = [
        fitted("at the shoulder", &it.root_spigot),
        fitted("in front", &it.front_spigot),
        fitted("bore", &it.bore),
    ]
    .into_iter()
    .flatten()
    .collect();
    let serves: Vec<String> = it
        .serves
        .iter()
        .map(|(part, end)| {
            let route = plan
                .routes
                .iter()
                .find(|route| route.part.name.text == *part);
            let end = route.map_or("", |route| route.part.end_name(*end));
            format!("{part} {end}")
        })
        .collect();
    vec![
        letter(at),
        words::mandrel_kind(it).into(),
        thread.unwrap_or_default(),
        if it.shoulder.is_positive() {
            units.plain(it.shoulder)
        } else {
            String::new()
        },
        fits.join("; "),
        format!(
            "Ø{} × {}, from Ø{}",
            units.plain(it.shank),
            units.plain(it.shank_length),
            units.plain(it.stock)
        ),
        serves.join(", "),
    ]
}
