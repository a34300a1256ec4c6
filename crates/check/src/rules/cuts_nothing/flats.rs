//! Flats that lie outside what is turned.

use super::RULE;
use crate::{Findings, PartView, edits, words};
use quillet_geometry::Length;
use quillet_model::{Profiles, SideCutKind};
use quillet_syntax::text;

/// Tells of sets of flats that are as far across as the outside is wide under them, or further.
pub(super) fn run(view: &PartView<'_>, profiles: &Profiles, findings: &mut Findings) {
    for cut in view.part.sides() {
        let SideCutKind::Across { from_dia, to_dia } = cut.kind else {
            continue;
        };
        let (from, to) = (cut.stretch.from, cut.stretch.to);
        let Some((fattest, _)) = profiles.turned().fattest(from.to_mm(), to.to_mm()) else {
            continue;
        };
        let across = from_dia.min(to_dia);
        let outside = Length::mm(fattest.r).twice();
        if outside > across {
            continue;
        }
        let message = text!(
            "{} across leaves the {} outside as it is",
            across,
            words::dia(outside)
        );
        let hint = text!("make it less than {} across, or take it out", outside);
        let out = edits::take_out(view.design, cut.span);
        let finding = RULE.at(cut.span, message).hint(hint);
        findings.push_at(finding.fix_all("take it out", vec![out]), from, to);
    }
}
