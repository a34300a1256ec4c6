//! `lettered-out-of-line`: clips and stops that are to line up, left to chance.

use crate::{Findings, JointView, Rule, Run};
use quillet_model::TEN_DEGREES;
use quillet_syntax::Severity;
use quillet_syntax::ast::Verb;

pub(crate) static RULE: Rule = Rule {
    code: "lettered-out-of-line",
    severity: Severity::Note,
    limit: None,
    page: include_str!("lettered-out-of-line.md"),
    run: Run::Joint(run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|_| view.joint.verb == Verb::Close) else {
        return;
    };
    let Some(threads) = rest.engagements.first() else {
        return;
    };
    let parts = &view.pen.pen.parts;
    let armed = |members: &[(usize, quillet_model::Place)]| {
        members
            .iter()
            .map(|(part, _)| &parts[*part])
            .find(|part| part.arm.is_some())
    };
    let (Some(one), Some(other)) = (armed(&rest.males), armed(&rest.females)) else {
        return;
    };
    let ten = TEN_DEGREES;
    let message = format!(
        "{} and {} come to rest in one of {} ways round, wherever the starts are cut",
        one.name.text,
        other.name.text,
        threads.clock_positions(),
    );
    findings.push(
        RULE.at(view.joint.head, message)
            .label(one.name.span, "stands out here")
            .label(other.name.span, "and here")
            .hint(format!(
                "try the cap before the last facing: {:.3} mm off the shoulder turns it {ten}",
                threads.shoulder_cut(ten).to_mm()
            )),
    );
}
