//! `off-drawing`: what was made lies outside what the sheet asked.

mod bearing;

use crate::compared::compared;
use crate::{Findings, PenView, Rule, Run};
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "off-drawing",
    severity: Severity::Note,
    limit: None,
    page: include_str!("off-drawing.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let sizes = compared(view.design, view.pen);
    for size in sizes.iter().filter(|it| !it.is_within()) {
        let thin = bearing::thin(view, size);
        let hint = thin.unwrap_or_else(|| {
            "nothing to do for itself: the pen is judged with what was measured".into()
        });
        let finding = RULE.at(size.at, size.told()).hint(hint);
        findings.push_at(finding, size.stretch.0, size.stretch.1);
    }
}
