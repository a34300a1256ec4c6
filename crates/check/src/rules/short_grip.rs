//! `short-grip`: the part is held by too little.

use crate::{Findings, PartView, Rule, Run};
use quillet_plan::Trouble;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "short-grip",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("short-grip.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for trouble in view.troubles() {
        let Trouble::ShortGrip {
            end,
            length,
            wanted,
        } = *trouble
        else {
            continue;
        };
        let end = view.part.end_name(end);
        findings.push(
            RULE.at(
                view.part.name.span,
                format!(
                    "{length} to hold {} by at its {end}; {wanted} is wanted",
                    view.part.name.text
                ),
            )
            .hint("lengthen what holds it, or leave stock to grip and part it off last"),
        );
    }
}
