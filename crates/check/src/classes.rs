//! Whether the standard has every class of fit that a thread names.

use crate::Findings;
use quillet_model::{Design, ThreadDef};
use quillet_standards::thread::ThreadSide;
use quillet_syntax::{Finding, Severity, Span};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Looks at every designation of a design once.
pub(crate) fn check(design: &Design, findings: &mut Findings) {
    for (at, thread) in designations(design) {
        let form = &thread.thread;
        let outside = form
            .stated_class(ThreadSide::External)
            .map(|it| form.external_limits(it).err());
        let inside = form
            .stated_class(ThreadSide::Internal)
            .map(|it| form.internal_limits(it).err());
        for error in [outside, inside].into_iter().flatten().flatten() {
            let finding = Finding::new("bad-designation", Severity::Error, at, error.to_string());
            findings.push(finding.hint("leave the class out, or write one that the standard has"));
        }
    }
}

/// Every thread of a design by where its designation stands: named, cut in place, on a bench.
pub(crate) fn designations(design: &Design) -> BTreeMap<Span, &Arc<ThreadDef>> {
    let cuts = design.parts.iter().flat_map(|part| &part.features);
    let cut = cuts.filter_map(|it| it.thread().map(|(thread, _)| thread));
    let named = design.threads.iter();
    named
        .chain(cut)
        .map(|thread| (thread.designation.span, thread))
        .collect()
}
