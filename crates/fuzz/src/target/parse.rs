//! The parser and the formatter: no text is lost, places lie in it, and what is in form stays so.

use super::text_of;
use quillet_syntax::{FileId, Finding, format, parse};

pub(super) fn run(bytes: &[u8]) {
    let text = &*text_of(bytes);
    let parsed = parse(FileId(0), text);
    let mut end = 0;
    for token in &parsed.tokens {
        assert_eq!(
            token.span.range().start,
            end,
            "a token begins where the last one ended"
        );
        end = token.span.range().end;
    }
    assert_eq!(end, text.len(), "the tokens are the text");
    places(text, &parsed.findings);
    // The formatter costs as much again; one text in four shows what it does.
    if bytes.len().is_multiple_of(4) {
        let formatted = format(text);
        assert_eq!(format(&formatted), formatted, "what is in form stays so");
        if parsed.findings.is_empty() {
            let again = parse(FileId(0), &formatted).findings;
            assert!(again.is_empty(), "{again:#?} in {formatted}");
        }
    }
}

/// Panics where a finding or an edit of it is not at a place of the text.
pub(super) fn places(text: &str, findings: &[Finding]) {
    for finding in findings {
        let labels = finding.labels.iter().map(|label| label.span);
        let edits = finding.fixes.iter().flat_map(|fix| &fix.edits);
        let all = labels
            .chain(edits.map(|edit| edit.span))
            .chain([finding.span]);
        for span in all.filter(|span| span.file == FileId(0)) {
            assert!(text.get(span.range()).is_some(), "{span:?} of {finding:?}");
        }
    }
}
