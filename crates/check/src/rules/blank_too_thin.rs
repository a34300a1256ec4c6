//! `blank-too-thin`: the stock does not hold the part.

use crate::{Findings, PartView, Rule, Run, propose, words};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "blank-too-thin",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("blank-too-thin.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::BlankTooThin {
            piece,
            stock,
            fattest,
            margin,
        } = *problem
        else {
            continue;
        };
        let Some(piece) = view.part.blanks().get(piece) else {
            continue;
        };
        // An outside that is not said is the stock itself, which is told of as such.
        if view
            .part
            .profiles
            .as_ref()
            .is_some_and(|it| it.leaves_stock())
        {
            continue;
        }
        let wanted = fattest + margin * 2;
        let units = view.design.units_at(piece.span);
        let mut finding = RULE
            .at(
                piece.stock.span,
                text!(
                    "{} of stock for a part of {}; {} a side to turn off is wanted",
                    stock,
                    words::dia(fattest),
                    margin
                ),
            )
            .hint(text!("take stock of {} or more", units.up(wanted)));
        if stock < fattest {
            finding.severity = Severity::Error;
        }
        let stock = propose::thicker(view.design, piece, units.up(wanted));
        findings.push(propose::with(finding, stock));
    }
}
