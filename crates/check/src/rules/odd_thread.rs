//! `odd-thread`: a thread in no standard series and not usual on pens.

use crate::{DesignView, Findings, Rule, Run, words};
use quillet_model::ThreadDef;
use quillet_standards::thread::{Hand, Side};
use quillet_syntax::{Severity, Span};
use std::collections::BTreeMap;
use std::sync::Arc;

pub(crate) static RULE: Rule = Rule {
    code: "odd-thread",
    severity: Severity::Note,
    limit: None,
    page: include_str!("odd-thread.md"),
    run: Run::Design(run),
};

fn run(view: &DesignView<'_>, findings: &mut Findings) {
    let named = view.design.threads.iter();
    let features = view.design.parts.iter().flat_map(|part| &part.features);
    let cut = features.filter_map(|feature| feature.thread().map(|(thread, _)| thread));
    let threads: BTreeMap<Span, &Arc<ThreadDef>> = named
        .chain(cut)
        .map(|thread| (thread.designation.span, thread))
        .collect();
    for (at, thread) in threads {
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
                format!(
                    "{} is in no standard series and not usual on pens; the nearest are {}",
                    thread.designation.text,
                    words::list(&near),
                ),
            )
            .hint("see that a tap and die of this size are at hand, or that it is single-pointed");
        let plain = form.hand() == Hand::Right
            && form.said_class(Side::External).is_none()
            && form.said_class(Side::Internal).is_none();
        if let Some(nearest) = near
            .first()
            .filter(|_| plain && form.starts() == 1 || near.len() > 1)
        {
            finding = finding.fix(format!("write {nearest}"), at, nearest.clone());
        }
        findings.push(finding);
    }
}
