//! What is told of how a part is held.

use crate::{Findings, PartView, Rule};
use quillet_plan::PlanProblem;
use quillet_syntax::SizedText;

/// Tells at a part's name of the troubles that `told` has words for: what is wrong, and what to do.
pub(super) fn report(
    rule: &Rule,
    view: &PartView<'_>,
    findings: &mut Findings,
    reported: impl Fn(&PlanProblem) -> Option<(SizedText, &'static str)>,
) {
    for (message, hint) in view.problems().filter_map(reported) {
        findings.push(rule.at(view.part.name.span, message).hint(hint));
    }
}
