//! How a thread, a pitch and a size are said, and where they are from.

use quillet_geometry::{Length, Limits};
use quillet_standards::thread::{
    Hand, KnownThread, LimitsFrom, PercentSuitability, Standing, ThreadForm, ThreadSize,
};

pub(super) fn title(form: &ThreadForm) -> String {
    let system = if form.is_inch() {
        "unified inch"
    } else {
        "ISO metric"
    };
    let hand = match form.hand() {
        Hand::Right => "",
        Hand::Left => ", left hand",
    };
    format!("{form}: {system} thread{hand}")
}

pub(super) fn pitch(form: &ThreadForm) -> String {
    match form.size() {
        ThreadSize::Metric { pitch, .. } => pitch.to_string(),
        ThreadSize::Inch { tpi, .. } => {
            format!("{tpi} threads per inch ({})", size(form.pitch(), form))
        }
    }
}

pub(super) fn listed(known: &KnownThread) -> String {
    match known.standing() {
        Standing::Iso261 {
            coarse,
            choice,
            iso262,
        } => {
            let choice = ["first", "second", "third"][usize::from(choice.clamp(&1, &3) - 1)];
            let pitch = if *coarse { "coarse" } else { "fine" };
            let also = if *iso262 { ", and ISO 262" } else { "" };
            format!("ISO 261, {pitch}, {choice} choice{also}")
        }
        Standing::Unified(series) => format!("ASME B1.1, {}", series.letters()),
        Standing::Trade { used_for } => {
            format!("in no series, but usual on pens: {used_for}")
        }
    }
}

pub(super) fn computed(from: LimitsFrom) -> &'static str {
    match from {
        LimitsFrom::Table => "",
        LimitsFrom::Formula => " (limits computed by formula)",
    }
}

pub(super) fn suits(suits: PercentSuitability) -> &'static str {
    match suits {
        PercentSuitability::Well => "good",
        PercentSuitability::Fairly => "fair",
        PercentSuitability::TooShallow => "strips",
        PercentSuitability::TooDeep => "binds",
    }
}

/// In millimetres; of an inch thread in inches, with the millimetres behind.
pub(super) fn size(length: Length, form: &ThreadForm) -> String {
    if form.is_inch() {
        format!("{} in ({length})", length.inch_text(4))
    } else {
        length.to_string()
    }
}

pub(super) fn between(limits: Limits, form: &ThreadForm) -> String {
    if form.is_inch() {
        let (min, max) = (limits.min().inch_text(4), limits.max().inch_text(4));
        format!("{min} to {max} in ({limits})")
    } else {
        limits.to_string()
    }
}
