//! What is found and measured at each of a row of values.

use crate::measures::{Measures, Values};
use crate::probe::edits_of;
use crate::{Number, Probe};

/// So many cases are looked at, at most.
pub const MOST_CASES: usize = 10_000;

/// A number, and the values it is given one after the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis<'n> {
    /// The number.
    pub number: &'n Number,
    /// The values, in its own unit.
    pub values: Vec<f64>,
}

impl<'n> Axis<'n> {
    /// The values `from..to step by`, both ends included where the steps meet them.
    ///
    /// # Errors
    ///
    /// A sentence, where there is no step, the range runs backward, or there are more values than are
    /// looked at.
    pub fn of(number: &'n Number, (from, to): (f64, f64), by: f64) -> Result<Self, String> {
        if by.is_nan() || by <= 0.0 {
            return Err(format!(
                "{}: the step is {by}; give one above 0",
                number.name
            ));
        }
        if from > to {
            return Err(format!(
                "{}: {from}..{to} runs backward; write {to}..{from}",
                number.name
            ));
        }
        let count = ((to - from) / by + 1e-9).floor();
        if count >= MOST_CASES as f64 {
            return Err(format!(
                "{}: {} values; {MOST_CASES} at most are looked at, so take a wider step",
                number.name,
                count + 1.0,
            ));
        }
        // Each from the first, so that no error adds up; twelve places are more than are written.
        let value = |nth: f64| ((from + nth * by) * 1e12).round() / 1e12;
        let values = (0..=count as u32)
            .map(|nth| value(f64::from(nth)))
            .collect();
        Ok(Axis { number, values })
    }
}

/// Every case of one number or two, the last moving fastest; none above [`MOST_CASES`].
///
/// # Errors
///
/// A sentence, where there are more.
pub fn cases(axes: &[Axis<'_>]) -> Result<Vec<Vec<f64>>, String> {
    let count: usize = axes.iter().map(|it| it.values.len()).product();
    if count > MOST_CASES {
        return Err(format!(
            "{count} cases; {MOST_CASES} at most are looked at, so take wider steps"
        ));
    }
    let mut cases = vec![Vec::new()];
    for axis in axes {
        let longer = cases.iter().flat_map(|case: &Vec<f64>| {
            axis.values.iter().map(move |value| {
                let mut case = case.clone();
                case.push(*value);
                case
            })
        });
        cases = longer.collect();
    }
    Ok(cases)
}

/// What is found and measured in a case; none where two numbers are one.
pub fn vary(
    probe: &Probe<'_>,
    measures: &Measures,
    axes: &[Axis<'_>],
    case: &[f64],
) -> Option<Values> {
    let numbers = axes.iter().map(|it| it.number);
    let settings: Vec<_> = numbers.zip(case.iter().copied()).collect();
    measures.at(probe, &edits_of(&settings))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Grain;
    use quillet_standards::Units;
    use quillet_syntax::{FileId, Span};

    fn number() -> Number {
        let span = Span::new(FileId(0), 0, 1);
        Number {
            name: "grip".to_owned(),
            span,
            value: 11.4,
            unit: String::new(),
            grain: Grain::of(None, Units::Millimetres, false),
            part: None,
            statement: span,
            role: String::new(),
            is_whole: true,
        }
    }

    #[test]
    fn a_range_holds_both_its_ends() {
        let number = number();
        let axis = Axis::of(&number, (10.0, 12.0), 0.1).unwrap();
        assert_eq!(axis.values.len(), 21);
        assert_eq!(axis.values[1..4], [10.1, 10.2, 10.3]);
        assert_eq!(axis.values[20], 12.0);
        assert_eq!(Axis::of(&number, (10.0, 10.0), 1.0).unwrap().values, [10.0]);
    }

    #[test]
    fn what_cannot_be_a_range_is_refused_in_a_sentence() {
        let number = number();
        for (range, by, wanted) in [
            ((12.0, 10.0), 0.1, "runs backward"),
            ((10.0, 12.0), 0.0, "above 0"),
            ((10.0, 12.0), f64::NAN, "above 0"),
            ((0.0, 10.0), 0.001, "10000 at most"),
        ] {
            let said = Axis::of(&number, range, by).unwrap_err();
            assert!(said.contains(wanted), "{said}");
        }
        let wide = Axis::of(&number, (0.0, 10.0), 0.01).unwrap();
        assert!(
            cases(&[wide.clone(), wide])
                .unwrap_err()
                .contains("1002001 cases")
        );
    }

    #[test]
    fn of_two_numbers_the_last_moves_fastest() {
        let number = number();
        let axis = |to: f64| Axis::of(&number, (0.0, to), 1.0).unwrap();
        assert_eq!(
            cases(&[axis(1.0), axis(1.0)]).unwrap(),
            [[0.0, 0.0], [0.0, 1.0], [1.0, 0.0], [1.0, 1.0]]
        );
    }
}
