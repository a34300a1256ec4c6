//! `odd-thread`: a thread in no standard series and not usual on pens.

use crate::classes::designations;
use crate::{DesignView, Findings, Rule, Run, words};
use quillet_standards::thread::{Hand, ThreadSide};
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "odd-thread",
    severity: Severity::Note,
    limit: None,
    page: include_str!("odd-thread.md"),
    run: Run::Design(run),
};

fn run(view: &DesignView<'_>, findings: &mut Findings) {
    for (at, thread) in designations(view.design) {
        let form = &thread.thread;
        if form.known().is_some() {
            continue;
        }
        let near: Vec<String> = form
            .nearest_known(3)
            .iter()
            .map(|known| known.designation().to_owned())
            .collect();
        let mut finding = RULE
            .at(
                at,
                text!(
                    "{} is in no standard series and not usual on pens; the nearest are {}",
                    thread.designation.text,
                    words::list(&near)
                ),
            )
            .hint("see that a tap and die of this size are at hand, or that it is single-pointed");
        // An edit that would lose what else the designation says is not offered.
        let plain = form.hand() == Hand::Right
            && !thread.designation.text.contains("Ph")
            && form.stated_class(ThreadSide::External).is_none()
            && form.stated_class(ThreadSide::Internal).is_none();
        if let Some(nearest) = near.first().filter(|_| plain) {
            finding = finding.fix(text!("write {}", nearest), at, nearest.clone());
        }
        findings.push(finding);
    }
}
