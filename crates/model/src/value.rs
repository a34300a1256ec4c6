//! Quantities: exact numbers with a dimension.

mod amount;
mod dimension;

use crate::Units;
pub use amount::Amount;
pub use dimension::Dimension;
use dimension::product;
use num_rational::Ratio;
use num_traits::{CheckedMul, Zero};
use quillet_geometry::{Angle, Length};
use quillet_syntax::ast::{Number, Operator, Unit};
use quillet_syntax::{SizedText, ToText, exact};

/// A quantity: millimetres, grams, degrees, or powers of them; a bare number as written. Exact, but where
/// many are reckoned that are not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity<N = Number> {
    /// The number, in the dimension's own unit (mm, g, deg, mm³).
    pub amount: N,
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
        Quantity {
            amount: Amount::measured(amount),
            dimension,
        }
    }

    /// The number as a float, in mm, g, deg, mm³ or bare.
    pub fn to_f64(self) -> f64 {
        f64::of(self.amount)
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
}

impl<N: Amount> Quantity<N> {
    /// Less than nothing.
    pub fn is_negative(self) -> bool {
        self.amount < N::of(Ratio::zero())
    }

    /// Nothing at all.
    pub fn is_zero(self) -> bool {
        self.amount == N::of(Ratio::zero())
    }

    /// The same with the sign turned.
    #[must_use]
    pub fn negated(self) -> Self {
        Quantity {
            amount: self.amount.negated(),
            ..self
        }
    }

    /// Brings two quantities to one dimension: a bare number counts in the other's unit.
    ///
    /// # Errors
    /// When they measure different things.
    pub fn matched(self, other: Self) -> Result<(Self, Self), DimensionMismatch> {
        use Dimension::Bare;
        const LENGTH: Dimension = Dimension::LENGTH;
        let as_length = |bare: Self| {
            let amount = match bare.dimension {
                Bare(Units::Inches) => bare.amount.product(N::of(INCH)),
                _ => Some(bare.amount),
            };
            Ok(Quantity {
                amount: amount.ok_or(DimensionMismatch::TooLarge)?,
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
    pub fn combine(self, operator: Operator, other: Self) -> Result<Self, DimensionMismatch> {
        match operator {
            Operator::Add | Operator::Subtract => {
                let (a, b) = self.matched(other)?;
                let amount = match operator {
                    Operator::Add => a.amount.sum(b.amount),
                    _ => a.amount.difference(b.amount),
                };
                let amount = amount.ok_or(DimensionMismatch::TooLarge)?;
                Ok(Quantity {
                    amount,
                    dimension: a.dimension,
                })
            }
            Operator::Multiply => {
                let amount = self.amount.product(other.amount);
                let amount = amount.ok_or(DimensionMismatch::TooLarge)?;
                Ok(Quantity {
                    amount,
                    dimension: product(self.dimension, other.dimension, 1)?,
                })
            }
            Operator::Divide => {
                if other.is_zero() {
                    return Err(DimensionMismatch::ByZero);
                }
                let amount = self.amount.quotient(other.amount);
                let amount = amount.ok_or(DimensionMismatch::TooLarge)?;
                use Dimension::{Angle, Force};
                let dimension = match (self.dimension, other.dimension) {
                    (Angle, Angle) | (Force, Force) => Dimension::RATIO,
                    (one, other) => product(one, other, -1)?,
                };
                Ok(Quantity { amount, dimension })
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

fn counted_in<N: Amount>(bare: Quantity<N>, dimension: Dimension) -> Quantity<N> {
    let amount = match dimension {
        Dimension::VOLUME => bare.amount.product(N::of(Ratio::from(1000))),
        _ => None,
    };
    Quantity {
        amount: amount.unwrap_or(bare.amount),
        dimension,
    }
}

#[cfg(test)]
mod tests;
