//! `blank-too-short`: the stock is shorter than what is cut from it.

use crate::{Findings, PartView, Rule, Run, propose};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "blank-too-short",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("blank-too-short.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::BlankTooShort {
            piece,
            stock,
            needed,
        } = *problem
        else {
            continue;
        };
        let Some(piece) = view.part.blanks().get(piece) else {
            continue;
        };
        let net = piece.to - piece.from;
        let mut finding = RULE
            .at(
                piece.stock.span,
                text!(
                    "{} of stock for {} of {}; {} is wanted with what is cut away",
                    stock,
                    net,
                    view.part.name.text,
                    needed
                ),
            )
            .label(view.part.length_span, "the length")
            .hint("take longer stock, or plan to grip the last of it by hand");
        if stock < net {
            finding.severity = Severity::Error;
        }
        let units = view.design.units_at(piece.span);
        let stock = propose::longer(view.design, piece, units.up(needed));
        findings.push(propose::with(finding, stock));
    }
}
