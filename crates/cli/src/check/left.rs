//! Of one that was made: how far each cut that is left and would cure a finding can go.

use quillet_check::left_to_cut;
use quillet_export::report::RoomInWords;
use quillet_model::Pen;
use quillet_pen::Analysis;
use quillet_room::{Numbers, Probe, Room};
use quillet_syntax::{Finding, Severity, text};

/// The findings, those that say what would cure them with how far that can go.
pub(super) fn with_rooms(analysis: &Analysis, findings: Vec<Finding>) -> Vec<Finding> {
    if findings.iter().all(|it| left_to_cut(it).next().is_none()) {
        return findings;
    }
    let numbers = Numbers::of(&analysis.design);
    let told = findings.into_iter().map(|it| told(analysis, &numbers, it));
    told.collect()
}

fn told(analysis: &Analysis, numbers: &Numbers, finding: Finding) -> Finding {
    let design = &analysis.design;
    let mut pens = finding.pens.iter().filter_map(|name| design.pen(name));
    let Some(pen) = pens.find(|it| it.made.is_some()) else {
        return finding;
    };
    let rooms = rooms(analysis, numbers, pen, &finding);
    match (&finding.hint, rooms.is_empty()) {
        (Some(hint), false) => {
            let hint = text!("{}: {}", hint.clone(), rooms.join("; "));
            finding.hint(hint)
        }
        _ => finding,
    }
}

/// `section.tip.bore.to 1.02 .. 1.60`, in the order of the cuts that are left.
fn rooms(analysis: &Analysis, numbers: &Numbers, pen: &Pen, finding: &Finding) -> Vec<String> {
    let state = (&analysis.design, analysis.examined());
    let name = Some(&*pen.name.text);
    let probe = Probe::of(analysis.loaded(), state, name, Severity::Warning);
    let number = |at: quillet_syntax::Span| numbers.all().iter().find(|it| at.contains(it.span));
    let numbers_left = left_to_cut(finding).filter_map(number);
    let rooms = numbers_left.map(|number| {
        let room = Room::of(&probe, numbers, number);
        let may_be = RoomInWords::of(&room, &analysis.design).may_be;
        format!("{} {may_be}", number.name)
    });
    rooms.collect()
}
