//! `rolls-away`: a round pen with nothing to stop it.

use crate::{Findings, PenView, Rule, Run};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "rolls-away",
    severity: Severity::Note,
    limit: None,
    page: include_str!("rolls-away.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let cap = pen.joints.iter().find(|joint| joint.verb == Verb::Close);
    let Some(cap) = cap else { return };
    if pen.parts.iter().any(|part| part.arm().is_some()) {
        return;
    }
    findings.push(
        RULE.at(
            cap.head,
            text!(
                "{} has neither clip nor roll stop; on a desk it rolls",
                pen.name.text
            ),
        )
        .hint("add a clip or a stop (a bought part with an arm), or accept it"),
    );
}
