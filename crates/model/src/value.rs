//! Quantities: exact numbers with a dimension.

mod dimension;
mod exact;

use crate::Units;
pub use dimension::Dimension;
use dimension::product;
use num_rational::Ratio;
use num_traits::{CheckedMul, Zero};
use quillet_geometry::{Angle, Length};
use quillet_syntax::ast::{Number, Operator, Unit};
use quillet_syntax::{SizedText, ToText};

/// An exact quantity: millimetres, grams, degrees, or powers of them; a bare number as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// The number, in the dimension's own unit (mm, g, deg, mm³).
    pub amount: Number,
    /// What it measures.
    pub dimension: Dimension,
}

/// What a `let` names.
#[derive(Clone, Debug)]
pub enum Value {
    /// A size, angle, mass or number.
    Quantity(Quantity),
    /// A material.
    Material(std::sync::Arc<crate::Material>),
}

/// Why two quantities do not go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DimensionMismatch {
    /// Different dimensions stand on either side of `+`, `-` or a comparison.
    Dimensions(Dimension, Dimension),
    /// A division by nothing.
    ByZero,
    /// The result is out of all range.
    TooLarge,
}

impl Quantity {
    /// A written number with the unit that touches it, or bare.
    ///
    /// None when the number is out of range.
    pub fn written(value: Number, unit: Option<Unit>, bare: Units) -> Option<Quantity> {
        let (amount, dimension) = match unit {
            None => (value, Dimension::Bare(bare)),
            Some(Unit::Mm) => (value, Dimension::LENGTH),
            Some(Unit::In) => (value.checked_mul(&INCH)?, Dimension::LENGTH),
            Some(Unit::G) => (value, Dimension::MASS),
            Some(Unit::Ml) => (value.checked_mul(&Ratio::from(1000))?, Dimension::VOLUME),
            Some(Unit::Deg) => (value, Dimension::Angle),
            Some(Unit::Newton) => (value, Dimension::Force),
        };
        Some(Quantity { amount, dimension })
    }

    /// A length.
    pub fn length(length: Length) -> Quantity {
        let amount = exact::ratio(i128::from(length.nm()), 1_000_000);
        Quantity {
            amount,
            dimension: Dimension::LENGTH,
        }
    }

    /// A measured number of a dimension, taken to the millionth of its unit.
    pub fn measured(amount: f64, dimension: Dimension) -> Quantity {
        let millionths = (amount * 1e6).round().clamp(-1e30, 1e30);
        Quantity {
            amount: exact::ratio(millionths as i128, 1_000_000),
            dimension,
        }
    }

    /// The number as a float, in mm, g, deg, mm³ or bare.
    pub fn to_f64(self) -> f64 {
        *self.amount.numer() as f64 / *self.amount.denom() as f64
    }

    /// As a length, a bare number counting in its file's unit.
    ///
    /// None when it is something else or out of range.
    pub fn as_length(self) -> Option<Length> {
        // Whole numbers of nanometres in its unit; no fraction need be reduced on the way.
        let unit_nm = match self.dimension {
            Dimension::LENGTH | Dimension::Bare(Units::Millimetres) => 1_000_000,
            Dimension::Bare(Units::Inches) => 25_400_000,
            _ => return None,
        };
        let (count, parts) = (*self.amount.numer(), *self.amount.denom());
        let twice = i128::checked_mul(count.abs(), 2 * unit_nm)?;
        let nm = i128::checked_add(twice, parts)? / i128::checked_mul(parts, 2)?;
        i64::try_from(nm * count.signum()).ok().map(Length::from_nm)
    }

    /// As an angle, a bare number counting in degrees.
    pub fn as_angle(self) -> Option<Angle> {
        matches!(self.dimension, Dimension::Angle | Dimension::Bare(_))
            .then(|| Angle::deg(self.to_f64()))
    }

    /// As grams, a bare number counting in grams.
    pub fn as_grams(self) -> Option<f64> {
        matches!(self.dimension, Dimension::MASS | Dimension::Bare(_)).then(|| self.to_f64())
    }

    /// As millilitres, a bare number counting in millilitres.
    pub fn as_ml(self) -> Option<f64> {
        match self.dimension {
            Dimension::VOLUME => Some(self.to_f64() / 1000.0),
            Dimension::Bare(_) => Some(self.to_f64()),
            _ => None,
        }
    }

    /// As newtons, a bare number counting in newtons.
    pub fn as_newtons(self) -> Option<f64> {
        matches!(self.dimension, Dimension::Force | Dimension::Bare(_)).then(|| self.to_f64())
    }

    /// As a plain number: bare, or a ratio.
    pub fn as_number(self) -> Option<f64> {
        matches!(self.dimension, Dimension::RATIO | Dimension::Bare(_)).then(|| self.to_f64())
    }

    /// Less than nothing.
    pub fn is_negative(self) -> bool {
        self.amount < Ratio::zero()
    }

    /// Nothing at all.
    pub fn is_zero(self) -> bool {
        self.amount.is_zero()
    }

    /// The same with the sign turned.
    #[must_use]
    pub fn negated(self) -> Quantity {
        Quantity {
            amount: -self.amount,
            ..self
        }
    }

    /// Brings two quantities to one dimension: a bare number counts in the other's unit.
    ///
    /// # Errors
    /// When they measure different things.
    pub fn matched(self, other: Quantity) -> Result<(Quantity, Quantity), DimensionMismatch> {
        use Dimension::Bare;
        const LENGTH: Dimension = Dimension::LENGTH;
        let as_length = |bare: Quantity| {
            let unit = match bare.dimension {
                Bare(Units::Inches) => INCH,
                _ => Ratio::from(1),
            };
            let amount = bare
                .amount
                .checked_mul(&unit)
                .ok_or(DimensionMismatch::TooLarge)?;
            Ok(Quantity {
                amount,
                dimension: LENGTH,
            })
        };
        Ok(match (self.dimension, other.dimension) {
            (a, b) if a == b => (self, other),
            (Bare(_), Bare(_)) => (as_length(self)?, as_length(other)?),
            (Bare(_), LENGTH) => (as_length(self)?, other),
            (LENGTH, Bare(_)) => (self, as_length(other)?),
            (Bare(_), dimension) => (counted_in(self, dimension), other),
            (dimension, Bare(_)) => (self, counted_in(other, dimension)),
            (a, b) => return Err(DimensionMismatch::Dimensions(a, b)),
        })
    }

    /// The sum, difference, product or quotient.
    ///
    /// # Errors
    /// When the dimensions do not go together, on a division by nothing, or out of range.
    pub fn combine(
        self,
        operator: Operator,
        other: Quantity,
    ) -> Result<Quantity, DimensionMismatch> {
        match operator {
            Operator::Add | Operator::Subtract => {
                let (a, b) = self.matched(other)?;
                let amount = match operator {
                    Operator::Add => exact::sum(a.amount, b.amount),
                    _ => exact::difference(a.amount, b.amount),
                };
                let amount = amount.ok_or(DimensionMismatch::TooLarge)?;
                Ok(Quantity {
                    amount,
                    dimension: a.dimension,
                })
            }
            Operator::Multiply => {
                let amount =
                    exact::product(self.amount, other.amount).ok_or(DimensionMismatch::TooLarge)?;
                Ok(Quantity {
                    amount,
                    dimension: product(self.dimension, other.dimension, 1)?,
                })
            }
            Operator::Divide => {
                if other.amount.is_zero() {
                    return Err(DimensionMismatch::ByZero);
                }
                if matches!(
                    (self.dimension, other.dimension),
                    (Dimension::Angle, Dimension::Angle) | (Dimension::Force, Dimension::Force)
                ) {
                    let amount = exact::quotient(self.amount, other.amount)
                        .ok_or(DimensionMismatch::TooLarge)?;
                    return Ok(Quantity {
                        amount,
                        dimension: Dimension::RATIO,
                    });
                }
                let amount = exact::quotient(self.amount, other.amount)
                    .ok_or(DimensionMismatch::TooLarge)?;
                Ok(Quantity {
                    amount,
                    dimension: product(self.dimension, other.dimension, -1)?,
                })
            }
        }
    }
}

/// A length stays one, to be shown in the unit of the file; a ratio or a mass reads as it is.
impl ToText for Quantity {
    fn to_text(&self) -> SizedText {
        match self.dimension {
            Dimension::LENGTH => match self.as_length() {
                Some(length) => length.into(),
                None => self.to_string().into(),
            },
            _ => self.to_string().into(),
        }
    }
}

impl std::fmt::Display for Quantity {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let places = f.precision().unwrap_or(3);
        let (amount, unit) = match self.dimension {
            Dimension::LENGTH => (self.to_f64(), " mm"),
            Dimension::MASS => (self.to_f64(), " g"),
            Dimension::VOLUME => (self.to_f64() / 1000.0, " ml"),
            Dimension::Angle => (self.to_f64(), "°"),
            Dimension::Force => (self.to_f64(), " N"),
            _ => (self.to_f64(), ""),
        };
        write!(f, "{}{unit}", quillet_geometry::number(amount, places))
    }
}

const INCH: Number = Ratio::new_raw(127, 5);

fn counted_in(bare: Quantity, dimension: Dimension) -> Quantity {
    let amount = match dimension {
        Dimension::VOLUME => bare
            .amount
            .checked_mul(&Ratio::from(1000))
            .unwrap_or(bare.amount),
        _ => bare.amount,
    };
    Quantity { amount, dimension }
}

#[cfg(test)]
mod tests;
