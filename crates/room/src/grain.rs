//! In what steps a number is moved, and how it is written.

use quillet_standards::Units;
use quillet_syntax::ast::Unit;

/// The steps of a number and its written form, in the unit that it is written in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grain {
    /// How many millimetres one of what is written is, where it is a length: 25.4 of inches, else 1.
    unit_mm: f64,
    /// The places that its edges are told to, one in so many: 100 for 0.01 mm.
    pub parts: f64,
    /// The same as places after the point.
    pub places: usize,
}

impl Grain {
    /// That of a number with a unit, or bare in a file of these units; an angle's where it is one.
    pub fn of(unit: Option<Unit>, bare: Units, is_angle: bool) -> Self {
        let inches = match unit {
            Some(unit) => unit == Unit::In,
            None => bare == Units::Inches && !is_angle,
        };
        let (unit_mm, parts, places) = match (inches, is_angle || unit == Some(Unit::Deg)) {
            (true, _) => (25.4, 2000.0, 4),
            (_, true) => (1.0, 10.0, 1),
            _ => (1.0, 100.0, 2),
        };
        Grain {
            unit_mm,
            parts,
            places,
        }
    }

    /// How far from where it is drawn it is looked at, outward: tenths to 1, quarters to 4, then
    /// doubling, to `most` and with it, all in the number's own unit.
    pub fn steps(&self, most: f64) -> Vec<f64> {
        let tenths = (1..=10).map(|nth| f64::from(nth) * 0.1);
        let quarters = (5..=16).map(|nth| f64::from(nth) * 0.25);
        let doubling = (3..).map(|power| 2f64.powi(power));
        let all = tenths.chain(quarters).chain(doubling);
        let mut steps: Vec<f64> = all
            .map(|step| step / self.unit_mm)
            .take_while(|step| *step < most)
            .collect();
        steps.extend((most > 0.0).then_some(most));
        steps
    }

    /// What it is told in: `mm`, `in`, `°`.
    pub fn unit(&self) -> &'static str {
        match (self.unit_mm == 1.0, self.places) {
            (false, _) => "in",
            (true, 1) => "°",
            _ => "mm",
        }
    }

    /// Millimetres to one of what is written, where it is a length.
    pub(crate) fn unit_mm(&self) -> f64 {
        self.unit_mm
    }

    /// The least that is looked at either way.
    pub fn least(&self) -> f64 {
        1.0 / self.unit_mm
    }

    /// Written with no more places than it is told to.
    pub fn written(&self, value: f64) -> String {
        trimmed(value, self.places)
    }
}

/// A number with at most so many places after the point, as a maker writes it.
pub(crate) fn trimmed(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let text = match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.'),
        false => &text,
    };
    match text {
        "-0" => "0".to_owned(),
        text => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_moved_in_tenths_then_quarters_then_twice_as_far_each_time() {
        let mm = Grain::of(None, Units::Millimetres, false);
        let steps = mm.steps(27.0);
        assert_eq!(steps.len(), 10 + 12 + 2 + 1);
        assert_eq!(&steps[20..], [3.75, 4.0, 8.0, 16.0, 27.0]);
        let inches = Grain::of(None, Units::Inches, false);
        assert!((inches.steps(1.0)[0] * 25.4 - 0.1).abs() < 1e-12);
    }

    #[test]
    fn a_number_is_written_without_needless_places() {
        assert_eq!(trimmed(12.2, 2), "12.2");
        assert_eq!(trimmed(54.0, 2), "54");
        assert_eq!(trimmed(100.0, 0), "100");
        assert_eq!(trimmed(-0.001, 2), "0");
        assert_eq!(
            Grain::of(Some(Unit::In), Units::Millimetres, false).written(0.48),
            "0.48"
        );
    }
}
