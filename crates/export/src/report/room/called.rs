//! A finding by its name and line, where no more has room.

use quillet_model::Design;
use quillet_syntax::{Encoding, LineIndex, RuleId, Span};

/// The line of a place in the file asked for; none of one in another file.
pub(super) fn line(design: &Design, span: Span, lines: &LineIndex) -> Option<u32> {
    let own = design.root()?.id == span.file;
    own.then(|| lines.position(span.range().start, Encoding::Utf32).line + 1)
}

/// `thin-wall (line 12)`.
pub(super) fn rule(design: &Design, rule: RuleId, span: Span, lines: &LineIndex) -> String {
    match line(design, span, lines) {
        Some(line) => format!("{} (line {line})", rule.code()),
        None => rule.code().to_owned(),
    }
}
