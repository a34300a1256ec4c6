//! Measures for people: the pen first, one idea a line.

pub(super) mod figures;
mod joints;
mod walls;

use super::Measures;
use super::parts::PartMeasures;
use super::pens::{ConfigurationMeasures, PenMeasures};
use super::wants::WantMeasures;
use crate::report::sized::SizedWords;
use crate::report::table::{Cell, table};
use figures::{UNKNOWN, between, figure, length, lengths_between};
use joints::joints;
use quillet_model::{Part, Units};
use std::collections::BTreeSet;
use std::sync::Arc;
use walls::{all_walls, flats, least_walls};

/// The pens, then the parts that are in none; `full` with every wall and clearance.
pub(super) fn of(measures: &Measures, full: bool, units: Units) -> String {
    let mut reported = ReportedParts::default();
    let mut sections: Vec<String> = Vec::new();
    for pen in &measures.pens {
        sections.push(of_pen(pen, &mut reported, full, units));
    }
    let in_pens: BTreeSet<&str> = measures
        .pens
        .iter()
        .flat_map(|pen| pen.parts.iter().map(|it| &*it.part.name))
        .collect();
    let alone: Vec<&PartMeasures> = measures
        .parts
        .iter()
        .filter(|part| !in_pens.contains(&&*part.name))
        .collect();
    if !alone.is_empty() {
        let head = match measures.pens.is_empty() {
            true => String::new(),
            false => "in no joint\n".to_owned(),
        };
        let wants = wants(alone.iter().flat_map(|part| &part.wants), units);
        let both = wants.into_iter().chain(of_parts(&alone, full, units));
        sections.push(head + &both.collect::<Vec<_>>().join("\n"));
    }
    if let Some(unstated) = measures.unstated.as_ref().filter(|_| full) {
        sections.push(format!("at worst, since nobody wrote it:\n  {unstated}\n"));
    }
    sections.join("\n\n")
}

/// Parts that were told of, each with the pen it was told under.
#[derive(Default)]
struct ReportedParts<'m>(Vec<(&'m Arc<Part>, &'m str)>);

impl<'m> ReportedParts<'m> {
    /// The pen that a part was told under, alike.
    fn under(&self, part: &PartMeasures) -> Option<&'m str> {
        let same = self.0.iter().find(|(it, _)| Arc::ptr_eq(it, &part.same));
        same.map(|(_, pen)| *pen)
    }
}

fn of_pen<'m>(
    pen: &'m PenMeasures,
    reported: &mut ReportedParts<'m>,
    full: bool,
    units: Units,
) -> String {
    let title = pen.title.as_ref();
    let title = title.map_or(String::new(), |title| format!(" \"{title}\""));
    let mut sections = vec![format!("pen {}{title}\n", pen.name)];
    sections.extend(states(pen, units));
    sections.extend(holdings(pen, units));
    sections.extend(wants(pen.wants.iter(), units));
    let (new, known): (Vec<_>, Vec<_>) = pen
        .parts
        .iter()
        .map(|it| &it.part)
        .partition(|part| reported.under(part).is_none());
    sections.extend(of_parts(&new, full, units));
    let mut pens: Vec<&str> = known
        .iter()
        .filter_map(|part| reported.under(part))
        .collect();
    pens.dedup();
    for under in pens {
        let of_pen = known
            .iter()
            .filter(|part| reported.under(part) == Some(under));
        let names: Vec<&str> = of_pen.map(|part| &*part.name).collect();
        sections.push(format!("  {} as in {under}\n", names.join(", ")));
    }
    reported
        .0
        .extend(new.iter().map(|part| (&part.same, &*pen.name)));
    sections.extend(pen.made.as_ref().map(|it| it.text(units)));
    sections.extend(joints(pen, full, units));
    sections.join("\n")
}

/// The pen in each state, and why a figure is not known.
fn states(pen: &PenMeasures, units: Units) -> Option<String> {
    let states = [
        ("capped", &pen.configurations.capped),
        ("uncapped", &pen.configurations.uncapped),
        ("posted", &pen.configurations.posted),
        ("retracted", &pen.configurations.retracted),
        ("resting", &pen.configurations.resting),
    ];
    let rows: Vec<Vec<Cell>> = states
        .into_iter()
        .filter_map(|(word, it)| Some(state(word, it.as_ref()?, units)))
        .collect();
    let missing = pen.missing.iter();
    let missing: String = missing.map(|it| format!("  missing: {it}\n")).collect();
    if rows.is_empty() && missing.is_empty() {
        return None;
    }
    let head = ["", "length", "mass", "", "balance", "", "", "dry"];
    let states = match rows.is_empty() {
        true => String::new(),
        false => table(2, &head, &rows),
    };
    Some(states + &missing)
}

fn state(word: &str, it: &ConfigurationMeasures, units: Units) -> Vec<Cell> {
    let share = it
        .balance_share
        .map(|share| format!("{:.1} %", 100.0 * share));
    vec![
        Cell::left(word),
        length(it.length_mm, units),
        figure(it.mass_g, "g"),
        between(it.mass_range_g),
        length(it.balance_mm, units),
        lengths_between(it.balance_range_mm, units),
        Cell::right(share.unwrap_or_default()),
        figure(it.dry_mass_g, "g"),
    ]
}

/// Ink, air, rings, and what hangs together with nothing.
fn holdings(pen: &PenMeasures, units: Units) -> Option<String> {
    let ink = pen.ink.iter().map(|ink| {
        format!(
            "  ink   {:.2} ml in {}, {:.2} g\n",
            ink.ml,
            ink.stands(),
            ink.mass_g
        )
    });
    let air = pen.air.iter().map(|air| {
        let sealed = air.sealed_by.as_ref().map_or("not sealed".into(), |touch| {
            format!(
                "sealed where {} meets {}",
                touch.male.in_units(units),
                touch.female.in_units(units)
            )
        });
        let ml = air.volume_mm3 / 1000.0;
        format!("  air   {ml:.2} ml round the nib, {sealed}\n")
    });
    let rings = pen.rings.iter().map(|ring| {
        let percent = |share: Option<f64>| {
            share.map_or(UNKNOWN.to_owned(), |share| {
                format!("{:.1} %", 100.0 * share)
            })
        };
        format!(
            "  ring  {} in {}: squeezed {}, stretched {}, fills {}\n",
            ring.ring,
            ring.part,
            percent(ring.squeeze),
            percent(ring.stretch),
            percent(ring.fill)
        )
    });
    let loose = pen.loose.iter().map(|part| format!("  loose {part}\n"));
    let lines: String = ink.chain(air).chain(rings).chain(loose).collect();
    (!lines.is_empty()).then_some(lines)
}

fn wants<'m>(wants: impl Iterator<Item = &'m WantMeasures>, units: Units) -> Option<String> {
    let reported = |it: &Option<SizedWords>| it.as_ref().map(|it| it.in_units(units));
    let rows: Vec<Vec<Cell>> = wants
        .map(|want| {
            let of_part = want.part.as_ref().map(|part| format!("{part}: "));
            vec![
                Cell::left(of_part.unwrap_or_default() + &want.want),
                Cell::right(reported(&want.value).unwrap_or(UNKNOWN.into())),
                Cell::left(reported(&want.range).unwrap_or_default()),
                Cell::left(want.wanted.in_units(units)),
                Cell::left(&want.judged),
            ]
        })
        .collect();
    let head = ["wanted", "is", "", "is to be", ""];
    (!rows.is_empty()).then(|| table(2, &head, &rows))
}

/// What parts weigh, and their least walls; or each wall.
fn of_parts(parts: &[&PartMeasures], full: bool, units: Units) -> Option<String> {
    let rows = parts.iter().map(|part| {
        let bought = if part.bought { "bought" } else { "" };
        vec![
            Cell::left(&part.name),
            length(part.length_mm, units),
            figure(part.mass_g, "g"),
            between(part.mass_range_g),
            length(part.balance_mm, units),
            figure(part.volume_mm3.map(|it| it / 1000.0), "cm³"),
            Cell::left(part.missing.unwrap_or(bought)),
        ]
    });
    let head = ["part", "length", "mass", "", "balances at", "volume", ""];
    let weights = table(2, &head, &rows.collect::<Vec<_>>());
    if parts.is_empty() {
        return None;
    }
    let walls = match full {
        true => all_walls(parts, units),
        false => least_walls(parts, units),
    };
    Some(
        [Some(weights), flats(parts, units), walls]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join("\n"),
    )
}
