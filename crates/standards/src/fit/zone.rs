//! `Zone`: a tolerance class of ISO 286 such as H7 or g6.

use std::fmt;
use std::str::FromStr;
use std::sync::LazyLock;

use quillet_geometry::{Length, Limits};
use serde::Deserialize;
use serde::de::Deserializer;

use crate::{Source, table};

/// A tolerance class of a plain hole (`H7`, capital) or shaft (`g6`), IT1 to IT14.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Zone {
    letter: &'static str,
    grade: u8,
}

/// A tolerance class at a size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ZoneLimits {
    /// The class.
    pub zone: Zone,
    /// Lower limit deviation, EI or ei: half micrometres occur.
    pub lower: Length,
    /// Upper limit deviation, ES or es.
    pub upper: Length,
    /// Limits of size.
    pub limits: Limits,
    /// Where they come from.
    pub source: Source,
}

/// A class or size that is not in the tables, or text that is no fit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FitError {
    /// Text that is no tolerance class.
    Class(String),
    /// Text that is no fit.
    Fit(String),
    /// A hole's class where a shaft's was expected, or the other way round.
    Side(Zone),
    /// A size that is none, or beyond 50 mm.
    Size(String),
    /// A class that ISO 286 does not give at this size.
    NotGiven(Zone, Length),
}

impl fmt::Display for FitError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FitError::Class(text) => write!(
                out,
                "`{text}` is no tolerance class; expected a letter from d to s (D to S for a hole, js and JS among them) and a grade from 1 to 14, as in g6 or H7"
            ),
            FitError::Fit(text) => write!(
                out,
                "`{text}` is no fit; expected a hole's and a shaft's class, as in H7/g6, with the size before them, as in 10 H7/g6"
            ),
            FitError::Side(zone) if zone.is_hole() => {
                write!(
                    out,
                    "{zone} is a hole's class; a shaft's was expected, as in g6"
                )
            }
            FitError::Side(zone) => {
                write!(
                    out,
                    "{zone} is a shaft's class; a hole's was expected, as in H7"
                )
            }
            FitError::Size(text) => write!(
                out,
                "`{text}` is no size here; more than 0 and up to 50 mm was expected"
            ),
            FitError::NotGiven(zone, size) => {
                write!(
                    out,
                    "ISO 286 does not give {zone} at {size}; try another letter or grade"
                )
            }
        }
    }
}

impl std::error::Error for FitError {}

impl Zone {
    /// True for a hole's class.
    pub fn is_hole(self) -> bool {
        self.letter
            .starts_with(|first: char| first.is_ascii_uppercase())
    }

    /// The letters of its position.
    pub const fn letter(self) -> &'static str {
        self.letter
    }

    /// Its grade: 7 for IT7.
    pub const fn grade(self) -> u8 {
        self.grade
    }

    /// Limit deviations and limits of size.
    ///
    /// # Errors
    /// When the size is beyond 50 mm, or the standard does not give the class there.
    pub fn at(self, size: Length) -> Result<ZoneLimits, FitError> {
        let tolerance = tolerance(self.grade, size)?;
        let not_given = || FitError::NotGiven(self, size);
        let (lower, upper) = match self.letter {
            "js" | "JS" => (-tolerance.half(), tolerance.half()),
            // Deviations from the line of zero on the near side; the tolerance adds to the far one.
            "d" | "e" | "f" | "g" | "h" => {
                let es = self.deviation(size).ok_or_else(not_given)?;
                (es - tolerance, es)
            }
            "k" | "m" | "n" | "p" | "r" | "s" => {
                let ei = self.deviation(size).ok_or_else(not_given)?;
                (ei, ei + tolerance)
            }
            "D" | "E" | "F" | "G" | "H" => {
                let ei = self.deviation(size).ok_or_else(not_given)?;
                (ei, ei + tolerance)
            }
            _ => {
                let es = self.deviation(size).ok_or_else(not_given)? + self.delta(size);
                (es - tolerance, es)
            }
        };
        Ok(ZoneLimits {
            zone: self,
            lower,
            upper,
            limits: Limits::new(size + lower, size + upper),
            source: table::source(DEVIATION_TABLE),
        })
    }

    fn deviation(self, size: Length) -> Option<Length> {
        DEVIATIONS
            .iter()
            .find(|row| row.letter == self.letter && row.holds(size, self.grade))
            .map(|row| row.value_um)
    }

    /// What ISO 286-1 adds to ES of K, M and N up to IT8, and of P to S up to IT7.
    fn delta(self, size: Length) -> Length {
        let greatest = if matches!(self.letter, "K" | "M" | "N") {
            8
        } else {
            7
        };
        DEVIATIONS
            .iter()
            .filter(|_| self.grade <= greatest)
            .find(|row| row.kind == "delta" && row.holds(size, self.grade))
            .map_or(Length::ZERO, |row| row.value_um)
    }
}

/// The standard tolerance IT of a grade.
fn tolerance(grade: u8, size: Length) -> Result<Length, FitError> {
    GRADES
        .iter()
        .find(|row| row.grade == grade && size > row.over_mm && size <= row.up_to_mm)
        .map(|row| row.tolerance_um)
        .ok_or_else(|| FitError::Size(size.to_string()))
}

/// As on a drawing: `H7`, `js6`.
impl fmt::Display for Zone {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(&format!("{}{}", self.letter, self.grade))
    }
}

const LETTERS: [&str; 24] = [
    "d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "r", "s", "D", "E", "F", "G", "H", "JS",
    "K", "M", "N", "P", "R", "S",
];

impl FromStr for Zone {
    type Err = FitError;

    fn from_str(text: &str) -> Result<Zone, FitError> {
        let text = text.trim();
        let refused = || FitError::Class(text.to_owned());
        let digits = text
            .find(|c: char| c.is_ascii_digit())
            .ok_or_else(refused)?;
        let (letter, grade) = text.split_at(digits);
        let letter = LETTERS
            .into_iter()
            .find(|known| *known == letter)
            .ok_or_else(refused)?;
        match grade.parse() {
            Ok(grade) if (1..=14).contains(&grade) => Ok(Zone { letter, grade }),
            _ => Err(refused()),
        }
    }
}

const GRADE_TABLE: &str = include_str!("../../data/iso286_grades.csv");
const DEVIATION_TABLE: &str = include_str!("../../data/iso286_deviations.csv");

static GRADES: LazyLock<Vec<GradeRow>> = LazyLock::new(|| table::rows(GRADE_TABLE));
static DEVIATIONS: LazyLock<Vec<DeviationRow>> = LazyLock::new(|| table::rows(DEVIATION_TABLE));

#[derive(Deserialize)]
struct GradeRow {
    #[serde(deserialize_with = "table::mm")]
    over_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    up_to_mm: Length,
    grade: u8,
    #[serde(deserialize_with = "micrometres")]
    tolerance_um: Length,
}

#[derive(Deserialize)]
struct DeviationRow {
    kind: String,
    letter: String,
    #[serde(deserialize_with = "table::mm")]
    over_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    up_to_mm: Length,
    grade_low: u8,
    grade_high: u8,
    #[serde(deserialize_with = "micrometres")]
    value_um: Length,
}

impl DeviationRow {
    fn holds(&self, size: Length, grade: u8) -> bool {
        size > self.over_mm
            && size <= self.up_to_mm
            && (self.grade_low..=self.grade_high).contains(&grade)
    }
}

fn micrometres<'de, D: Deserializer<'de>>(cell: D) -> Result<Length, D::Error> {
    f64::deserialize(cell).map(|um| Length::mm(um / 1000.0))
}

#[cfg(test)]
mod tests;
