//! A size as it is shown.

use quillet_geometry::Length;
use quillet_standards::Units;

/// A size in a text, and how it is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// With its unit, in as few figures as it has: `12.2 mm`, `0.48 in`.
    Short(Length),
    /// With its unit, to at most a hundredth of a millimetre or a ten-thousandth of an inch: `12 mm`,
    /// `12.34 mm`, `0.4803 in`.
    Plain(Length),
    /// With its unit, to so many decimals of a millimetre, and two more of an inch: `1.5 mm`; to
    /// more where it would read as nothing.
    Rounded(Length, usize),
    /// With its unit, finer where it would look equal to the limit it is held against: `0.50 mm`,
    /// `0.0197 in`.
    Against {
        /// The size.
        length: Length,
        /// What it is held against.
        limit: Length,
    },
    /// A limit with its unit, as short as it is, but as fine as what is held against it.
    Limit {
        /// The limit.
        limit: Length,
        /// What is held against it.
        held: Length,
    },
    /// A diameter: `⌀11.02`, `⌀0.4339`.
    Diameter(Length),
    /// A diameter, finer where it would look equal to the one it is held against: `⌀0.31496`.
    DiameterAgainst {
        /// The diameter.
        dia: Length,
        /// What it is held against.
        limit: Length,
    },
    /// A hole, by the name of its drill where it has one in inches: `⌀6.75`, `17/64`.
    Hole(Length),
    /// As a source says it: `11.2`, `7/16`.
    Written(Length),
    /// As a source says it, to at most so many decimals of a millimetre, and two more of an inch.
    Near(Length, usize),
    /// As a source says a drill: `6.75`, `17/64`, `letter F`.
    Drill(Length),
}

impl Size {
    /// What it reads as in the units of a file.
    pub(super) fn in_units(self, units: Units) -> String {
        match self {
            Size::Short(length) => match units {
                Units::Millimetres => length.to_string(),
                Units::Inches => units.short(length),
            },
            Size::Plain(length) => units.short(length),
            Size::Rounded(length, places) => match units {
                Units::Millimetres => format!("{} mm", telling(length.to_mm(), places)),
                Units::Inches => format!("{} in", telling(length.to_inches(), places + 2)),
            },
            Size::Against { length, limit } => units.against(length, limit),
            Size::Limit { limit, held } => units.limit(limit, held),
            Size::Diameter(dia) => units.dia(dia),
            Size::DiameterAgainst { dia, limit } => units.dia_against(dia, limit),
            Size::Hole(dia) => units.hole(dia),
            Size::Written(length) => units.written(length),
            Size::Near(length, places) => match units {
                Units::Millimetres => length.mm_text(places),
                Units::Inches => length.inch_text(places + 2),
            },
            Size::Drill(dia) => units.drill(dia),
        }
    }
}

impl Size {
    /// The length that is told as a figure; none of a name, or of what a text is to read.
    pub(super) fn figure(self) -> Option<Length> {
        match self {
            Size::Short(length) | Size::Plain(length) | Size::Rounded(length, _) => Some(length),
            Size::Against { length, .. } => Some(length),
            Size::Limit { limit, .. } => Some(limit),
            Size::Diameter(dia) | Size::DiameterAgainst { dia, .. } => Some(dia),
            Size::Hole(_) | Size::Written(_) | Size::Near(..) | Size::Drill(_) => None,
        }
    }

    /// The same to so many decimals more than is usual; none where it is told by a name.
    pub(super) fn finer(self, units: Units, by: usize) -> Option<String> {
        let number = units.finer(self.figure()?, by);
        Some(match self {
            Size::Diameter(_) | Size::DiameterAgainst { .. } => format!("⌀{number}"),
            _ => format!("{number} {}", units.suffix()),
        })
    }
}

/// No length is told to more decimals: a nanometre shows.
const MOST_PLACES: usize = 8;

/// A number to so many decimals, or to as many as it takes to be told from nothing.
fn telling(number: f64, places: usize) -> String {
    let shows = |places: &usize| number.abs() >= 0.5 * 0.1_f64.powi(*places as i32);
    let places = match number {
        0.0 => places,
        _ => (places..=MOST_PLACES).find(shows).unwrap_or(MOST_PLACES),
    };
    format!("{number:.places$}")
}
