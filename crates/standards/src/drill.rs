//! Twist drills: metric (ISO 235), and inch numbers, letters and fractions (ASME B94.11M).

use std::cmp::Reverse;
use std::fmt;
use std::str::FromStr;
use std::sync::LazyLock;

use quillet_geometry::{Angle, Length};
use serde::Deserialize;

use crate::{Source, table};

/// A drill of a standard series.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drill {
    series: DrillSeries,
    name: String,
    diameter: Length,
    flute: Option<Length>,
    overall: Option<Length>,
}

/// The series that drills are bought in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DrillSeries {
    /// Millimetres.
    Metric,
    /// Inch numbers, #80 to #1.
    Number,
    /// Inch letters, A to Z.
    Letter,
    /// Fractions of an inch.
    Fraction,
}

impl DrillSeries {
    /// All series.
    pub const ALL: [DrillSeries; 4] = [
        DrillSeries::Metric,
        DrillSeries::Number,
        DrillSeries::Letter,
        DrillSeries::Fraction,
    ];

    /// The three inch series.
    pub const INCH: [DrillSeries; 3] = [
        DrillSeries::Number,
        DrillSeries::Letter,
        DrillSeries::Fraction,
    ];

    /// The series in a word.
    pub const fn word(self) -> &'static str {
        match self {
            DrillSeries::Metric => "metric",
            DrillSeries::Number => "number",
            DrillSeries::Letter => "letter",
            DrillSeries::Fraction => "fraction",
        }
    }
}

impl Drill {
    /// The series it belongs to.
    pub const fn series(&self) -> DrillSeries {
        self.series
    }

    /// Its diameter, exact.
    pub const fn diameter(&self) -> Length {
        self.diameter
    }

    /// The length of its flutes, metric drills of the jobber series only. The usable depth is less:
    /// the point and room for chips go off it.
    pub const fn flute(&self) -> Option<Length> {
        self.flute
    }

    /// Its overall length, metric drills of the jobber series only.
    pub const fn overall(&self) -> Option<Length> {
        self.overall
    }

    /// The standard that lists it.
    pub fn source(&self) -> Source {
        table::source(match self.series {
            DrillSeries::Metric => METRIC_TABLE,
            _ => INCH_TABLE,
        })
    }
}

/// As it is called: `11.2 mm`, `#7`, `letter F`, `7/16 in`.
impl fmt::Display for Drill {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(&self.name)
    }
}

/// Every drill, from the smallest up.
pub fn all() -> &'static [Drill] {
    &DRILLS
}

/// The drills either side of a diameter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Neighbours {
    /// The largest drill below.
    pub below: Option<&'static Drill>,
    /// The drills of just this diameter.
    pub exact: Vec<&'static Drill>,
    /// The smallest drill above.
    pub above: Option<&'static Drill>,
}

/// The drills of some series just below, at and just above a diameter.
pub fn neighbours(diameter: Length, series: &[DrillSeries]) -> Neighbours {
    let of_series = |drill: &&'static Drill| series.contains(&drill.series);
    let (below, rest) = all().split_at(all().partition_point(|it| it.diameter < diameter));
    let (exact, above) = rest.split_at(rest.partition_point(|it| it.diameter == diameter));
    Neighbours {
        below: below.iter().rfind(of_series),
        exact: exact.iter().filter(of_series).collect(),
        above: above.iter().find(of_series),
    }
}

/// The drill of some series nearest to a diameter; half way, the larger.
pub fn nearest(diameter: Length, series: &[DrillSeries]) -> Option<&'static Drill> {
    all()
        .iter()
        .filter(|drill| series.contains(&drill.series))
        .min_by_key(|drill| ((drill.diameter - diameter).abs(), Reverse(drill.diameter)))
}

/// How far the point of a drill reaches beyond its full diameter: d/2 over the tangent of half the
/// included angle. A flat bottom (180°) has none.
pub fn point_length(diameter: Length, included: Angle) -> Length {
    if included >= Angle::deg(180.0) || included <= Angle::ZERO {
        return Length::ZERO;
    }
    Length::mm(included.cone_depth_mm(diameter.to_mm() / 2.0))
}

/// The metric jobber drill of this diameter, or the next larger one; none over 20 mm. A drill
/// between the listed sizes is as long as it.
pub fn jobber(diameter: Length) -> Option<&'static Drill> {
    all()
        .iter()
        .find(|drill| drill.flute.is_some() && drill.diameter >= diameter)
}

/// The diameter of a number or letter drill: `#7`, `letter F`.
pub fn gauge(name: &str) -> Option<Length> {
    let (series, name) = match name.trim().strip_prefix('#') {
        Some(number) => (DrillSeries::Number, format!("#{}", number.trim())),
        None => {
            let letter = name
                .trim()
                .strip_prefix("letter")?
                .trim()
                .to_ascii_uppercase();
            (DrillSeries::Letter, format!("letter {letter}"))
        }
    };
    all()
        .iter()
        .find(|drill| drill.series == series && drill.name == name)
        .map(Drill::diameter)
}

/// The size of a hole or drill as a maker writes it: `11.2`, `11.2mm`, `7/16in`, `0.25in`, `#7`,
/// `letter F` or `F`; a decimal comma is read as a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DrillSize(pub Length);

/// Text that is no size of drill.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrillSizeError {
    text: String,
}

impl fmt::Display for DrillSizeError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "`{}` is no drill; expected millimetres (11.2), a fraction (7/16in), a number from #80 to #1 or a letter (letter F)",
            self.text
        )
    }
}

impl std::error::Error for DrillSizeError {}

impl FromStr for DrillSize {
    type Err = DrillSizeError;

    fn from_str(text: &str) -> Result<DrillSize, DrillSizeError> {
        let text = text.trim();
        let plain = text.replace(',', ".");
        let size = if text.starts_with(['#', 'l']) && text.len() > 1 {
            gauge(text)
        } else if text.len() == 1 && text.starts_with(|c: char| c.is_ascii_alphabetic()) {
            gauge(&format!("letter {text}"))
        } else if let Some(inches) = text.strip_suffix("in").or(text.strip_suffix('"')) {
            crate::inches::parse(inches.trim())
        } else if text.contains('/') {
            crate::inches::parse(text)
        } else {
            Length::parse_mm(plain.strip_suffix("mm").unwrap_or(&plain).trim())
        };
        size.filter(|size| size.is_positive() && *size <= WIDEST)
            .map(DrillSize)
            .ok_or_else(|| DrillSizeError {
                text: text.to_owned(),
            })
    }
}

const WIDEST: Length = Length::from_nm(1_000_000_000);
const METRIC_TABLE: &str = include_str!("../data/drills_metric.csv");
const INCH_TABLE: &str = include_str!("../data/drills_inch.csv");

#[derive(Deserialize)]
struct MetricRow {
    #[serde(deserialize_with = "table::mm")]
    diameter_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    overall_mm: Length,
    #[serde(deserialize_with = "table::mm")]
    flute_mm: Length,
}

#[derive(Deserialize)]
struct InchRow {
    series: String,
    name: String,
    inch: String,
}

static DRILLS: LazyLock<Vec<Drill>> = LazyLock::new(|| {
    let metric = table::rows(METRIC_TABLE)
        .into_iter()
        .map(|row: MetricRow| Drill {
            series: DrillSeries::Metric,
            name: format!("{} mm", row.diameter_mm.exact_mm_text()),
            diameter: row.diameter_mm,
            flute: Some(row.flute_mm),
            overall: Some(row.overall_mm),
        });
    let inch = table::rows(INCH_TABLE).into_iter().map(|row: InchRow| {
        let (series, name, size) = match row.series.as_str() {
            "number" => (DrillSeries::Number, format!("#{}", row.name), &row.inch),
            "letter" => (
                DrillSeries::Letter,
                format!("letter {}", row.name),
                &row.inch,
            ),
            _ => (DrillSeries::Fraction, format!("{} in", row.name), &row.name),
        };
        let diameter = crate::inches::parse(size)
            .unwrap_or_else(|| panic!("drill {}: {size:?} is no size in inches", row.name));
        Drill {
            series,
            name,
            diameter,
            flute: None,
            overall: None,
        }
    });
    let mut all: Vec<Drill> = metric.chain(inch).collect();
    all.sort_by_key(|drill| (drill.diameter, drill.series));
    all
});

#[cfg(test)]
mod tests;
