//! What a quantity measures.

use super::DimensionMismatch;
use crate::Units;

/// What a quantity measures, as powers of length and mass; a plain angle apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// A number whose place will say what it measures. The unit is the one its
    /// file's bare lengths are in.
    Bare(Units),
    /// An angle, in degrees.
    Angle,
    /// A force, in newtons.
    Force,
    /// Powers of millimetres and of grams; both zero is a pure ratio.
    Physical {
        /// The power of length.
        length: i8,
        /// The power of mass.
        mass: i8,
    },
}

impl Dimension {
    /// A ratio of two like quantities.
    pub const RATIO: Dimension = Dimension::Physical { length: 0, mass: 0 };
    /// A length.
    pub const LENGTH: Dimension = Dimension::Physical { length: 1, mass: 0 };
    /// A mass.
    pub const MASS: Dimension = Dimension::Physical { length: 0, mass: 1 };
    /// A volume.
    pub const VOLUME: Dimension = Dimension::Physical { length: 3, mass: 0 };

    /// What a maker calls it, with its article.
    pub fn called(self) -> &'static str {
        match self {
            Dimension::Bare(_) => "a bare number",
            Dimension::Angle => "an angle",
            Dimension::Force => "a force",
            Dimension::RATIO => "a ratio",
            Dimension::LENGTH => "a length",
            Dimension::MASS => "a mass",
            Dimension::VOLUME => "a volume",
            Dimension::Physical { length: 2, mass: 0 } => "an area",
            Dimension::Physical { .. } => "a mixed quantity",
        }
    }

    /// The unit that an amount of it is counted in; empty where it has none of its own.
    pub fn unit(self) -> &'static str {
        match self {
            Dimension::LENGTH => "mm",
            Dimension::MASS => "g",
            Dimension::VOLUME => "mm³",
            Dimension::Angle => "°",
            Dimension::Force => "N",
            _ => "",
        }
    }
}

/// The dimension of a product (`sign` 1) or quotient (`sign` -1).
pub(super) fn product(
    a: Dimension,
    b: Dimension,
    sign: i8,
) -> Result<Dimension, DimensionMismatch> {
    use Dimension::{Angle, Bare, Force, Physical};
    Ok(match (a, b) {
        (Bare(Units::Inches), Bare(_)) | (Bare(_), Bare(Units::Inches)) => Bare(Units::Inches),
        (Bare(a), Bare(_)) => Bare(a),
        (Bare(_), Physical { length, mass }) => Physical {
            length: length * sign,
            mass: mass * sign,
        },
        (Physical { .. } | Angle | Force, Bare(_)) => a,
        (Bare(_) | Dimension::RATIO, Angle | Force) if sign > 0 => b,
        (Angle | Force, Dimension::RATIO) => a,
        (
            Physical {
                length: la,
                mass: ma,
            },
            Physical {
                length: lb,
                mass: mb,
            },
        ) => {
            let power = |a: i8, b: i8| a.checked_add(b * sign).filter(|p| p.abs() <= 9);
            match (power(la, lb), power(ma, mb)) {
                (Some(length), Some(mass)) => Physical { length, mass },
                _ => return Err(DimensionMismatch::TooLarge),
            }
        }
        _ => return Err(DimensionMismatch::Dimensions(a, b)),
    })
}
