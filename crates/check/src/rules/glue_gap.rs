//! `glue-gap`: a spigot of a glued stack that leaves the glue too little or too much room.

use crate::{Findings, PartView, Rule, Run, Threshold};
use quillet_geometry::Length;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "glue-gap",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("glue-gap.md"),
    run: Run::Part(run),
};

/// On diameter: less squeezes the glue out, more and the glue itself carries the joint. Common
/// practice, no published source.
const LEAST: Length = Length::from_nm(20_000);
const MOST: Length = Length::from_nm(300_000);
/// What is proposed: 0.1 mm, or 4 thousandths of an inch.
const USUAL_MM: Length = Length::from_nm(100_000);
const USUAL_INCH: Length = Length::from_nm(101_600);

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let most = view.length_limit(&RULE, MOST);
    for piece in view.part.blanks() {
        let Some(spigot) = &piece.spigot else {
            continue;
        };
        let units = view.design.units_at(spigot.span);
        let room = match () {
            () if spigot.gap < LEAST => "no room for the glue",
            () if spigot.gap > most => "more than glue fills soundly",
            () => continue,
        };
        let usual = match units {
            quillet_model::Units::Millimetres => USUAL_MM,
            quillet_model::Units::Inches => USUAL_INCH,
        };
        let usual = units.written(usual.min(most));
        let message = format!(
            "a gap of {} round the spigot of {} is {room}; {} to {} on diameter holds",
            units.short(spigot.gap),
            piece.stock.material.name,
            units.number(LEAST),
            units.short(most),
        );
        let (span, text) = match spigot.gap_span {
            Some(span) => (span, usual.clone()),
            None => (spigot.span.after(), format!(" gap {usual}")),
        };
        let finding = RULE
            .at(spigot.gap_span.unwrap_or(spigot.span), message)
            .hint(format!(
                "say gap {usual}: the socket is bored that much wider"
            ))
            .fix(format!("gap {usual}"), span, text);
        findings.push_at(finding, piece.from - spigot.length, piece.from);
    }
}
