//! Inch sizes of unified threads: numbers, fractions, decimals.

use quillet_geometry::Length;

use crate::inches;

/// The diameter of a number size: 0.060 in and 0.013 in a number (ASME B1.1).
pub(super) fn numbered(number: i64) -> Option<Length> {
    matches!(number, 0..=6 | 8 | 10 | 12)
        .then(|| Length::from_inches_ratio(60 + 13 * number, 1000))
        .flatten()
}

/// The diameter that the table of series writes `#10`, `7/16` or `1-1/8`.
pub(super) fn read(size: &str) -> Option<Length> {
    match size.strip_prefix('#') {
        Some(number) => numbered(number.parse().ok()?),
        None => inches::parse(size),
    }
}

/// `#10`, `7/16`, `1-1/8`, or decimals where the size is none of these.
pub(super) fn text(major: Length) -> String {
    if let Some(number) = (0..=12).find(|&number| numbered(number) == Some(major)) {
        return format!("#{number}");
    }
    let fraction = major.nearest_64th();
    if fraction.length() == major {
        fraction.to_string().trim_end_matches("in").to_owned()
    } else {
        major.inch_text(6)
    }
}
