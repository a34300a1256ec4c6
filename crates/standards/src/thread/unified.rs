//! Limits of unified inch threads by the formulas of ASME B1.1.

use quillet_geometry::{Length, Limits};

use super::class::ThreadClass;
use super::form::{InchSeries, ThreadForm, ThreadSize};
use super::limits::{CREST_CLEARANCE, ExternalLimits, InternalLimits, LimitsFrom, ROUND_ROOT};
use crate::Source;

const SOURCE: Source = Source::new("ASME B1.1 formulas, from memory");

/// Limits of an outside thread of class 1A, 2A or 3A.
pub(super) fn external(form: &ThreadForm, class: ThreadClass, grade: u8) -> ExternalLimits {
    let Inches { d, p, .. } = Inches::of(form);
    let td2 = pitch_tolerance(form) * [1.5, 1.0, 0.75][usize::from(grade - 1)];
    // The allowance is that of class 2A; class 3A has none.
    let allowance = ten_thousandths(match grade {
        3 => 0.0,
        _ => 0.3 * pitch_tolerance(form),
    });
    let td = if grade == 1 { 0.09 } else { 0.06 } * p.powf(2.0 / 3.0);
    let major = form.major() - allowance;
    let pitch = ten_thousandths(d - PITCH_DEPTH * p) - allowance;
    let pitch_min = pitch - ten_thousandths(td2);
    ExternalLimits {
        class,
        major: Limits::new(major - ten_thousandths(td), major),
        pitch: Limits::new(pitch_min, pitch),
        minor_max_flat: ten_thousandths(d - MINOR_DEPTH * p) - allowance,
        root_min: ten_thousandths(pitch_min.to_inches() - ROUND_ROOT * p),
        from: LimitsFrom::Formula,
        source: SOURCE,
    }
}

/// Limits of an inside thread of class 1B, 2B or 3B.
pub(super) fn internal(form: &ThreadForm, class: ThreadClass, grade: u8) -> InternalLimits {
    let Inches { d, p, .. } = Inches::of(form);
    let td2 = pitch_tolerance(form) * [1.95, 1.3, 0.975][usize::from(grade - 1)];
    let d1 = d - MINOR_DEPTH * p;
    let pitch = ten_thousandths(d - PITCH_DEPTH * p);
    let pitch_max = pitch + ten_thousandths(td2);
    // Minor diameters are printed to three decimals from #6 up.
    let rounded = |inches: f64| {
        if d < 0.138 {
            ten_thousandths(inches)
        } else {
            Length::inches((inches * 1e3).round() / 1e3)
        }
    };
    InternalLimits {
        class,
        minor: Limits::new(rounded(d1), rounded(d1 + minor_tolerance(d, p, grade))),
        pitch: Limits::new(pitch, pitch_max),
        major_min: form.major(),
        major_max: ten_thousandths(pitch_max.to_inches() + CREST_CLEARANCE * p),
        from: LimitsFrom::Formula,
        source: SOURCE,
    }
}

/// 3H/4 and 5H/4 as shares of the pitch.
const PITCH_DEPTH: f64 = 0.649_519_05;
const MINOR_DEPTH: f64 = 1.082_531_75;

/// The sizes the formulas take, in inches.
struct Inches {
    d: f64,
    p: f64,
    /// The length of engagement the tolerances are for: the diameter in the coarse and fine
    /// series, nine pitches in all others.
    engaged: f64,
}

impl Inches {
    fn of(form: &ThreadForm) -> Inches {
        let (d, p) = (form.major().to_inches(), form.pitch_mm() / 25.4);
        let by_diameter = matches!(
            form.size(),
            ThreadSize::Inch {
                series: InchSeries::Unc | InchSeries::Unf,
                ..
            }
        );
        let engaged = if by_diameter { d } else { 9.0 * p };
        Inches { d, p, engaged }
    }
}

/// Pitch-diameter tolerance of class 2A, kept to six decimals before other classes multiply it.
fn pitch_tolerance(form: &ThreadForm) -> f64 {
    let Inches { d, p, engaged } = Inches::of(form);
    let full = 0.0015 * d.cbrt() + 0.0015 * engaged.sqrt() + 0.015 * p.powf(2.0 / 3.0);
    (full * 1e6).round() / 1e6
}

/// Minor-diameter tolerance of an inside thread.
fn minor_tolerance(d: f64, p: f64, grade: u8) -> f64 {
    let coarse = 0.25 * p - 0.4 * p * p;
    let small = 0.05 * p.powf(2.0 / 3.0) + 0.03 * p / d - 0.002;
    match grade {
        3 if p > 1.0 / 13.0 => 0.12 * p,
        3 => small.clamp(0.23 * p - 1.5 * p * p, 0.394 * p),
        _ if d < 0.25 => small.clamp(coarse, 0.394 * p),
        _ => coarse,
    }
}

/// The standard rounds each basic size, allowance and tolerance to 0.0001 in before it adds them.
fn ten_thousandths(inches: f64) -> Length {
    Length::inches((inches * 1e4).round() / 1e4)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Limits as machinists' handbooks print them for ASME B1.1 (from memory), in inches.
    #[test]
    fn class_2_limits_are_those_of_the_handbooks() {
        for (designation, outside, inside) in [
            (
                "1/4-20UNC",
                [0.2408, 0.2489, 0.2127, 0.2164],
                [0.196, 0.207, 0.2175, 0.2224],
            ),
            (
                "#10-32UNF",
                [0.1831, 0.1891, 0.1658, 0.1688],
                [0.156, 0.164, 0.1697, 0.1736],
            ),
            (
                "1/2-13UNC",
                [0.4876, 0.4985, 0.4435, 0.4485],
                [0.417, 0.434, 0.4500, 0.4565],
            ),
            (
                "3/8-24UNF",
                [0.3667, 0.3739, 0.3430, 0.3468],
                [0.330, 0.340, 0.3479, 0.3528],
            ),
            (
                "7/16-28UNEF",
                [0.4299, 0.4364, 0.4096, 0.4132],
                [0.399, 0.407, 0.4143, 0.4190],
            ),
        ] {
            let form: ThreadForm = designation.parse().unwrap();
            let found = form.external_limits(ThreadClass::INCH_EXTERNAL).unwrap();
            let sizes = [
                found.major.min(),
                found.major.max(),
                found.pitch.min(),
                found.pitch.max(),
            ];
            assert_eq!(sizes, outside.map(Length::inches), "{designation}");
            let found = form.internal_limits(ThreadClass::INCH_INTERNAL).unwrap();
            let sizes = [
                found.minor.min(),
                found.minor.max(),
                found.pitch.min(),
                found.pitch.max(),
            ];
            assert_eq!(sizes, inside.map(Length::inches), "{designation}");
            assert!(found.source.is_from_memory());
        }
    }

    #[test]
    fn class_3_has_no_allowance_and_less_tolerance() {
        let form: ThreadForm = "1/4-20UNC".parse().unwrap();
        let close = form.external_limits("3A".parse().unwrap()).unwrap();
        assert_eq!(close.major.max(), form.major());
        let usual = form.external_limits(ThreadClass::INCH_EXTERNAL).unwrap();
        assert!(close.pitch.width() < usual.pitch.width());
    }
}
