//! `no-such-cutter`: a slot that no cutter on the bench is as wide as.

use crate::{Findings, PartView, Rule, Run, propose};
use quillet_geometry::Length;
use quillet_model::SideCutKind;
use quillet_plan::PlanProblem;
use quillet_syntax::{Edit, Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-cutter",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-cutter.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoCutter {
            cut,
            wanted,
            below,
            above,
        } = *problem
        else {
            continue;
        };
        let Some(cut) = view.part.side(cut) else {
            continue;
        };
        let near = match (below, above) {
            (Some(below), Some(above)) => text!("{} and {} are the nearest", below, above),
            (Some(only), None) | (None, Some(only)) => text!("{} is the nearest", only),
            (None, None) => continue,
        };
        let message = text!("no cutter {} wide is on the bench; {}", wanted, near);
        let hint = "make the slot as wide as a cutter, or buy one";
        let finding = RULE.at(cut.size_span, message).hint(hint);
        // A slot as long as it is wide, or longer, is as wide as its cutter.
        let written = matches!(cut.kind, SideCutKind::Slot { width, .. } if width == wanted);
        let widths = [below, above].into_iter().flatten().filter(|_| written);
        let made = |width: Length| {
            let edit = Edit::new(cut.size_span, Size::Written(width));
            (text!("make it {} wide", Size::Written(width)), vec![edit])
        };
        let finding = propose::with(finding, widths.map(made));
        findings.push_at(finding, cut.stretch.from, cut.stretch.to);
    }
}
