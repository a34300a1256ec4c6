//! What was found, a line each.

use super::Checked;
use quillet_model::SourceFile;
use quillet_syntax::{Encoding, FileId, Finding, LineIndex};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// `heron.quillet:41:5 error [broken-through] message`, the gravest of each file first; then how
/// many there are.
pub(super) fn text(whole: &Checked) -> String {
    let path = |finding: &Finding| whole.file(finding.span.file).map(|file| &file.path);
    let mut findings: Vec<&Finding> = whole.findings.iter().collect();
    // They stand in the order of the text already.
    findings.sort_by_key(|it| (path(it), Reverse(it.severity)));
    let mut lines: BTreeMap<FileId, LineIndex> = BTreeMap::new();
    let reported: String = findings
        .into_iter()
        .map(|it| line(it, whole.file(it.span.file), &mut lines))
        .collect();
    reported + &whole.rest()
}

fn line(
    finding: &Finding,
    file: Option<&SourceFile>,
    lines: &mut BTreeMap<FileId, LineIndex>,
) -> String {
    let place = file.map_or_else(String::new, |file| {
        let index = lines.entry(file.id);
        let index = index.or_insert_with(|| LineIndex::new(file.text.clone()));
        let at = index.position(finding.span.range().start, Encoding::Utf32);
        let path = file.path.display();
        format!("{path}:{}:{} ", at.line + 1, at.column + 1)
    });
    let words: Vec<&str> = finding.message.split_whitespace().collect();
    let (severity, message) = (finding.severity.word(), words.join(" "));
    format!("{place}{severity} [{}] {message}\n", finding.rule)
}
