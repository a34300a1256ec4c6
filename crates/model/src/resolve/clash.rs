//! Findings for sums that come to nothing sensible.

use crate::DimensionMismatch;
use quillet_syntax::{Finding, Severity, Span};

pub(super) fn mismatch(at: Span, message: impl Into<quillet_syntax::SizedText>) -> Finding {
    Finding::new("unit-mismatch", Severity::Error, at, message)
}

pub(super) fn out_of_range(at: Span, message: impl Into<quillet_syntax::SizedText>) -> Finding {
    Finding::new("out-of-range", Severity::Error, at, message)
}

pub(super) fn too_large(at: Span) -> Finding {
    out_of_range(at, "this size is beyond anything that can be turned")
        .hint("see whether a decimal point or a unit is missing")
}

pub(super) fn clashed(clash: DimensionMismatch, whole: Span, a: Span, b: Span) -> Finding {
    match clash {
        DimensionMismatch::Dimensions(left, right) => mismatch(
            whole,
            format!(
                "{} and {} do not go together here",
                left.called(),
                right.called()
            ),
        )
        .label(a, left.called())
        .label(b, right.called()),
        DimensionMismatch::ByZero => {
            out_of_range(b, "this comes to nothing, and nothing can be divided by it")
        }
        DimensionMismatch::TooLarge => too_large(whole),
    }
}
