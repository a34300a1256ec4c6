//! `want-unmet`: a pen that is not what was asked for.

use crate::Rule;
use crate::measure::{self, Measured, Verdict};
use crate::rule::elsewhere;
use quillet_syntax::{Finding, Severity, SizedText, Span, text};

/// Every want is judged in one place, which asks here what is to be told of it.
pub(crate) static RULE: Rule = elsewhere(
    "want-unmet",
    Severity::Warning,
    include_str!("want-unmet.md"),
);

/// What is to be told of a want; nothing where it is met, or rests on what could not be read.
pub(crate) fn finding(at: Span, asked: &str, measured: &Measured) -> Option<Finding> {
    match measured.verdict {
        Verdict::Met => None,
        Verdict::NotMet => Some(unmet(at, asked, measured)),
        Verdict::TooClose => Some(too_close(at, asked, measured)),
        Verdict::Unknown if measured.is_reported => None,
        Verdict::Unknown => Some(unknown(at, asked, measured)),
    }
}

fn unmet(at: Span, asked: &str, measured: &Measured) -> Finding {
    let value = measured.value.map_or("not known".into(), measure::rendered);
    let mut message = text!("{} is {}; {} is wanted", asked, value, measured.wanted);
    if !measured.drivers.is_empty() {
        let drivers = SizedText::joined(measured.drivers.iter().cloned(), ", ");
        message = message.then("; ").then(drivers);
    }
    let hint = "change the parts until it is met, or agree on another figure";
    RULE.at(at, message).hint(hint)
}

fn unknown(at: Span, asked: &str, measured: &Measured) -> Finding {
    let missing = measured.missing.join(", ");
    let message = text!(
        "{} is not known: {}; {} is wanted",
        asked,
        &missing,
        measured.wanted
    );
    RULE.at(at, message)
        .hint("say what is missing, or take the want out: as it stands nobody judges it")
}

/// A note: nothing says that it is missed.
fn too_close(at: Span, asked: &str, measured: &Measured) -> Finding {
    let value = measured.rendered().unwrap_or_default();
    let range = measured.rendered_range();
    let range = range.map_or(SizedText::default(), |range| {
        text!(", and may come to {}", range)
    });
    let message = text!(
        "{} is {}{}; {} is wanted, which is too close to call",
        asked,
        value,
        range,
        measured.wanted
    );
    let hint = "weigh the blank and state its density, or leave more between";
    Finding::new(RULE.code, Severity::Note, at, message).hint(hint)
}
