//! A part of an old design under the same of a new one, with what that does to it.

use crate::draw;
use crate::scene::Scene;
use quillet_check::PartView;
use quillet_model::{Design, Part, Units};
use quillet_pen::Analysis;
use quillet_syntax::Finding;
use std::collections::BTreeMap;
use std::sync::Arc;

/// A part as one file has it.
#[derive(Clone, Copy)]
pub struct PartOf<'a> {
    /// The file, with what it was found to have.
    pub analysis: &'a Analysis,
    /// The part.
    pub part: &'a Arc<Part>,
}

/// The new over the old; none where either shape is not known.
pub fn overlay(old: PartOf, new: PartOf, units: Units) -> Option<Scene> {
    let mut lines = vec![measures(old, new, units)];
    let found = |it: PartOf| findings(it, units);
    let (before, after) = (found(old), found(new));
    let only = |these: &BTreeMap<&'static str, String>, those: &BTreeMap<&'static str, String>| {
        let new = these.iter().filter(|it| !those.contains_key(it.0));
        new.map(|(rule, says)| format!("{rule}: {says}"))
            .collect::<Vec<_>>()
    };
    lines.extend(
        only(&after, &before)
            .into_iter()
            .map(|it| format!("comes: {it}")),
    );
    lines.extend(
        only(&before, &after)
            .into_iter()
            .map(|it| format!("goes: {it}")),
    );
    draw::overlay(old.part, new.part, &lines, units, 1.0)
}

/// `weighs 1.19 → 1.14 g · least wall 1 → 0.82`
fn measures(old: PartOf, new: PartOf, units: Units) -> String {
    let mass = |it: PartOf| {
        it.part
            .weigh()
            .map_or("–".to_owned(), |it| format!("{:.2}", it.mass_g))
    };
    let wall = |it: PartOf| {
        let design: &Design = &it.analysis.design;
        let view = PartView::new(design, None, it.part);
        let least = view.reported_walls().iter().map(|it| it.least).min();
        least.map(|it| units.plain(it))
    };
    let weighs = format!("weighs {} → {} g", mass(old), mass(new));
    match (wall(old), wall(new)) {
        (Some(was), Some(is)) => format!("{weighs} · least wall {was} → {is}"),
        _ => weighs,
    }
}

/// What is found within a part's own lines, the first of each rule.
fn findings(it: PartOf, units: Units) -> BTreeMap<&'static str, String> {
    let span = it.part.span;
    let own = |finding: &&Finding| {
        finding.span.file == span.file && span.touches(finding.span.range().start)
    };
    let all = it.analysis.examined().findings.iter().filter(own);
    let mut found = BTreeMap::new();
    for finding in all {
        let says = || finding.message.clone().in_units(units).to_string();
        found.entry(finding.rule.code()).or_insert_with(says);
    }
    found
}
