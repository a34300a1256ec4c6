//! What is found, and what can be done about it.

use crate::opened::{Changes, Opened, Stretch, never};
use quillet_ide::ActionKind;
use quillet_syntax::Finding;
use serde::Serialize;

/// One finding.
#[derive(Serialize)]
pub(super) struct FindingAnswer {
    rule: &'static str,
    severity: &'static str,
    message: String,
    hint: Option<String>,
    pens: Vec<String>,
    #[serde(flatten)]
    place: Option<Stretch>,
    labels: Vec<LabelAnswer>,
}

/// Another place that a finding is about.
#[derive(Serialize)]
struct LabelAnswer {
    message: String,
    #[serde(flatten)]
    place: Stretch,
}

/// Something that can be done.
#[derive(Serialize)]
pub(super) struct ActionAnswer {
    title: String,
    kind: &'static str,
    preferred: bool,
    edits: Changes,
}

/// All that is found in a file and in those it uses.
pub(super) fn findings(open: &Opened) -> Vec<FindingAnswer> {
    let found = open.analysis.findings(&never).unwrap_or_default();
    found.iter().map(|it| finding(open, it)).collect()
}

fn finding(open: &Opened, it: &Finding) -> FindingAnswer {
    let labels = it.labels.iter().filter_map(|label| {
        Some(LabelAnswer {
            message: label.text.to_string(),
            place: open.stretch(label.span)?,
        })
    });
    FindingAnswer {
        rule: it.rule.code(),
        severity: it.severity.word(),
        message: it.message.to_string(),
        hint: it.help().map(ToString::to_string),
        pens: it.pens.clone(),
        place: open.stretch(it.span),
        labels: labels.collect(),
    }
}

/// What can be done to some text, the edits each tried; what mends a whole file is asked for by itself.
pub(super) fn actions(open: &Opened, (from, to): (usize, usize)) -> Vec<ActionAnswer> {
    let within = open.within(from, to);
    let found = quillet_ide::actions(&open.snapshot, &open.analysis, within, &never);
    let found = found.into_iter().flatten();
    let own = found.filter(|it| it.kind != ActionKind::Mend);
    let each = own.map(|it| ActionAnswer {
        title: it.title,
        kind: match it.kind {
            ActionKind::Fix => "fix",
            ActionKind::Mend => "mend",
            ActionKind::Rewrite => "rewrite",
            ActionKind::Extract => "extract",
        },
        preferred: it.preferred,
        edits: open.changes(&it.edits),
    });
    each.collect()
}

/// What puts right every slip that cannot change the pen.
pub(super) fn mend(open: &Opened) -> Changes {
    let edits = open.analysis.mended(&open.snapshot, &never);
    open.changes(edits.as_deref().unwrap_or_default())
}
