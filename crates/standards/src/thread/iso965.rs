//! ISO 965-1: fundamental deviations and tolerances of metric threads, by table, else by formula.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use quillet_geometry::Length;
use serde::Deserialize;

use super::limits::{LimitsError, LimitsFrom};
use super::preferred;
use crate::{Source, table};

/// A deviation or tolerance, and whether the standard prints it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Figure {
    pub(super) size: Length,
    pub(super) from: LimitsFrom,
}

/// The four tolerances.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tolerance {
    /// Major diameter of an external thread, Td.
    Major,
    /// Pitch diameter of an external thread, Td2.
    ExternalPitch,
    /// Minor diameter of an internal thread, TD1.
    Minor,
    /// Pitch diameter of an internal thread, TD2.
    InternalPitch,
}

/// es (lower-case) or EI (upper-case) of a position.
pub(super) fn deviation(position: char, pitch: Length) -> Result<Figure, LimitsError> {
    let symbol = if position.is_uppercase() { "EI" } else { "es" };
    let listed = rows(pitch)
        .iter()
        .find(|row| row.symbol == symbol && row.grade.starts_with(position));
    if let Some(row) = listed {
        return Ok(row.figure());
    }
    let um = deviation_formula_um(position, pitch.to_mm())
        .ok_or(LimitsError::Position { position, pitch })?;
    let size = preferred::nearest_um(um.abs()) * if um < 0.0 { -1 } else { 1 };
    Ok(Figure {
        size: micrometres(size),
        from: LimitsFrom::Formula,
    })
}

/// The tolerance of a grade for a diameter and pitch.
pub(super) fn tolerance(
    which: Tolerance,
    grade: u8,
    major: Length,
    pitch: Length,
) -> Result<Figure, LimitsError> {
    let listed = rows(pitch).iter().find(|row| {
        row.d_over_mm.is_none_or(|over| major > over)
            && row.d_up_to_mm.is_none_or(|up_to| major <= up_to)
            && row.symbol == which.symbol()
            && row.grade.parse() == Ok(grade)
    });
    if let Some(row) = listed {
        return Ok(row.figure());
    }
    let factor = which.factor(grade).ok_or(LimitsError::Grade {
        grade,
        of: which.of(),
    })?;
    let um = which.grade_six_um(pitch.to_mm(), mean_diameter_mm(major)) * factor;
    Ok(Figure {
        size: micrometres(preferred::nearest_um(um)),
        from: LimitsFrom::Formula,
    })
}

/// Where tabulated figures come from.
pub(super) fn source(from: LimitsFrom) -> Source {
    match from {
        LimitsFrom::Table => table::source(TABLE),
        LimitsFrom::Formula => Source::new(
            "ISO 965-1 formulas rounded to R'40, from memory; the standard prints no row for this size",
        ),
    }
}

fn deviation_formula_um(position: char, pitch_mm: f64) -> Option<f64> {
    match position {
        'H' | 'h' => Some(0.0),
        'G' => Some(15.0 + 11.0 * pitch_mm),
        'g' => Some(-(15.0 + 11.0 * pitch_mm)),
        'f' if pitch_mm > 0.3 => Some(-(30.0 + 11.0 * pitch_mm)),
        'e' if pitch_mm > 0.45 => Some(-(50.0 + 11.0 * pitch_mm)),
        _ => None,
    }
}

impl Tolerance {
    const fn symbol(self) -> &'static str {
        match self {
            Tolerance::Major => "Td",
            Tolerance::ExternalPitch => "Td2",
            Tolerance::Minor => "TD1",
            Tolerance::InternalPitch => "TD2",
        }
    }

    const fn of(self) -> &'static str {
        match self {
            Tolerance::Major => "the major diameter of an outside thread (4, 6 and 8)",
            Tolerance::ExternalPitch => "the pitch diameter of an outside thread (3 to 9)",
            Tolerance::Minor => "the minor diameter of an inside thread (4 to 8)",
            Tolerance::InternalPitch => "the pitch diameter of an inside thread (4 to 8)",
        }
    }

    /// The grade as a share of grade 6; of Td2(6) for TD2.
    const fn factor(self, grade: u8) -> Option<f64> {
        use Tolerance::{ExternalPitch, InternalPitch, Major, Minor};
        Some(match (self, grade) {
            (InternalPitch, 4) => 0.85,
            (InternalPitch, 5) => 1.06,
            (InternalPitch, 6) => 1.32,
            (InternalPitch, 7) => 1.7,
            (InternalPitch, 8) => 2.12,
            (InternalPitch, _) => return None,
            (ExternalPitch, 3) => 0.5,
            (ExternalPitch, 9) => 2.0,
            (Major | Minor | ExternalPitch, 4) => 0.63,
            (Minor | ExternalPitch, 5) => 0.8,
            (Major | Minor | ExternalPitch, 6) => 1.0,
            (Minor | ExternalPitch, 7) => 1.25,
            (Major | Minor | ExternalPitch, 8) => 1.6,
            _ => return None,
        })
    }

    fn grade_six_um(self, p: f64, d: f64) -> f64 {
        match self {
            Tolerance::Major => 180.0 * p.powf(2.0 / 3.0) - 3.15 / p.sqrt(),
            Tolerance::Minor if p < 1.0 => 433.0 * p - 190.0 * p.powf(1.22),
            Tolerance::Minor => 230.0 * p.powf(0.7),
            Tolerance::ExternalPitch | Tolerance::InternalPitch => 90.0 * p.powf(0.4) * d.powf(0.1),
        }
    }
}

/// The bounds of the diameter ranges, over / up to and including, in mm.
const RANGES: [f64; 10] = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0];

/// The geometric mean of the range a diameter falls in.
fn mean_diameter_mm(major: Length) -> f64 {
    let above = RANGES
        .iter()
        .position(|&bound| major.to_mm() <= bound)
        .unwrap_or(RANGES.len() - 1)
        .max(1);
    (RANGES[above - 1] * RANGES[above]).sqrt()
}

fn micrometres(um: i64) -> Length {
    Length::from_nm(um * 1000)
}

const TABLE: &str = include_str!("../../data/iso965_tolerances.csv");

/// The rows of a pitch.
fn rows(pitch: Length) -> &'static [ToleranceRow] {
    static BY_PITCH: LazyLock<BTreeMap<Length, Vec<ToleranceRow>>> = LazyLock::new(|| {
        let mut by_pitch = BTreeMap::<_, Vec<ToleranceRow>>::new();
        for row in table::rows::<ToleranceRow>(TABLE) {
            by_pitch.entry(row.pitch_mm).or_default().push(row);
        }
        by_pitch
    });
    BY_PITCH.get(&pitch).map_or(&[], Vec::as_slice)
}

#[derive(Deserialize)]
struct ToleranceRow {
    symbol: String,
    grade: String,
    #[serde(deserialize_with = "table::optional_mm")]
    d_over_mm: Option<Length>,
    #[serde(deserialize_with = "table::optional_mm")]
    d_up_to_mm: Option<Length>,
    #[serde(deserialize_with = "table::mm")]
    pitch_mm: Length,
    value_um: i64,
}

impl ToleranceRow {
    fn figure(&self) -> Figure {
        Figure {
            size: micrometres(self.value_um),
            from: LimitsFrom::Table,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn which(symbol: &str) -> Option<Tolerance> {
        use Tolerance::*;
        [Major, ExternalPitch, Minor, InternalPitch]
            .into_iter()
            .find(|which| which.symbol() == symbol)
    }

    #[test]
    fn every_printed_figure_is_given_as_printed() {
        for row in quillet_reference::rows("iso965_1_tolerances.csv") {
            let pitch = Length::parse_mm(row.text("pitch_mm")).unwrap();
            let grade = row.text("grade_or_position");
            let found = match which(row.text("symbol")) {
                None => deviation(grade.chars().next().unwrap(), pitch).unwrap(),
                Some(which) => {
                    let grade = grade.parse().unwrap();
                    // Both ends of the diameter range must find the row.
                    let up_to = row.optional("d_up_to_mm").unwrap_or(12.0);
                    let over = row.optional("d_over_mm").unwrap_or(11.0) + 0.001;
                    let high = tolerance(which, grade, Length::mm(up_to), pitch).unwrap();
                    let low = tolerance(which, grade, Length::mm(over), pitch).unwrap();
                    assert_eq!(high, low, "{row}");
                    high
                }
            };
            assert_eq!(found.from, LimitsFrom::Table, "{row}");
            assert_eq!(
                found.size.nm(),
                row.number("value_um") as i64 * 1000,
                "{row}"
            );
        }
    }

    /// The formulas and their rounding, against figures computed apart from this code.
    #[test]
    fn formulas_and_rounding_are_those_of_the_standard() {
        for row in quillet_reference::rows("iso965_1_tolerances.csv") {
            let pitch = row.number("pitch_mm");
            let grade = row.text("grade_or_position");
            let um = match which(row.text("symbol")) {
                None => deviation_formula_um(grade.chars().next().unwrap(), pitch).unwrap(),
                Some(which) => {
                    let up_to = row.optional("d_up_to_mm").unwrap_or(10.0);
                    which.grade_six_um(pitch, mean_diameter_mm(Length::mm(up_to)))
                        * which.factor(grade.parse().unwrap()).unwrap()
                }
            };
            assert!(
                (um - row.number("formula_um")).abs() <= 0.0051,
                "{row}: {um}"
            );
            let rounded = preferred::nearest_um(um.abs()) as f64;
            assert_eq!(
                rounded == row.number("value_um").abs(),
                row.text("r40_of_formula_equals_table") == "yes",
                "{row}: {um} rounds to {rounded}"
            );
        }
    }

    #[test]
    fn rows_are_unique() {
        let mut seen = BTreeSet::new();
        for row in table::rows::<ToleranceRow>(TABLE) {
            let reported = format!("{} {} twice", row.symbol, row.grade);
            let key = (row.symbol, row.grade, row.d_over_mm, row.pitch_mm);
            assert!(seen.insert(key), "{reported}");
        }
    }

    #[test]
    fn what_the_standard_does_not_have_is_said() {
        let fine = Length::mm(0.35);
        assert!(deviation('e', fine).is_err());
        assert!(deviation('f', Length::mm(0.25)).is_err());
        let fault = tolerance(Tolerance::Major, 5, Length::mm(10.0), fine).unwrap_err();
        assert!(fault.to_string().contains("(4, 6 and 8)"), "{fault}");
        let odd = tolerance(Tolerance::Minor, 6, Length::mm(5.0), Length::mm(0.9)).unwrap();
        assert_eq!(odd.from, LimitsFrom::Formula);
    }
}
