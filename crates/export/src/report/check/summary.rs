//! What follows the findings: what is assumed, and how many there are.

use super::Checked;
use quillet_check::assumed::Assumed;
use quillet_syntax::{Severity, Span};

/// What nobody wrote and is worked out, a line each.
pub(super) fn assumed(whole: &Checked) -> String {
    match whole.assumed.as_deref() {
        None => String::new(),
        Some([]) => "nothing is assumed: every tap drill and tenon is written, and a bench says what it keeps\n\n".to_owned(),
        Some(all) => {
            let line = |it: &Assumed| format!("  {}{}\n", at(whole, it.span), it.text);
            let lines: String = all.iter().map(line).collect();
            format!("assumed, since nobody wrote it:\n{lines}\n")
        }
    }
}

/// `heron.quillet:12: `
fn at(whole: &Checked, span: Span) -> String {
    let Some(file) = whole.file(span.file) else {
        return String::new();
    };
    let line = file.text[..span.range().start].matches('\n').count() + 1;
    format!("{}:{line}: ", file.path.display())
}

/// `2 files checked: 1 error, 3 warnings, no notes.`
pub(super) fn summary(whole: &Checked) -> String {
    let counted = |count: usize, word: &str| match count {
        1 => format!("1 {word}"),
        _ => format!("{count} {word}s"),
    };
    let found: Vec<String> = [Severity::Error, Severity::Warning, Severity::Note]
        .into_iter()
        .map(|severity| (whole.count_of(severity), severity.word()))
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| counted(count, word))
        .collect();
    if whole.count == 0 {
        return "nothing checked\n".to_owned();
    }
    let files = counted(whole.count, "file");
    let known = whole
        .known
        .map_or_else(String::new, |count| format!("; {count} known"));
    match found.as_slice() {
        [] if whole.known.is_some() => format!("{files} checked, nothing new{known}\n"),
        [] => format!("{files} checked, nothing found\n"),
        _ => format!("{files} checked: {}{known}\n", found.join(", ")),
    }
}
