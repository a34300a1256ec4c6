//! `no-such-collet`: no collet grips the stock.

use crate::{Findings, PartView, Rule, Run};
use quillet_plan::PlanProblem;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-collet",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-collet.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoCollet {
            piece,
            stock,
            least,
        } = *problem
        else {
            continue;
        };
        let Some(piece) = view.part.blanks().get(piece) else {
            continue;
        };
        // Stock that is too thin has more to mend first.
        if least > stock {
            continue;
        }
        findings.push(
            RULE.at(
                piece.span,
                text!("no collet on the bench grips this {} stock, nor any size down to the {} that {} needs", stock, least, view.part.name.text),
            )
            .hint(text!("a collet from {} to {} would do", least, stock)),
        );
    }
}
