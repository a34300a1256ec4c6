//! `Amount`: the numbers that quantities are reckoned in.

use quillet_syntax::ast::Number;
use quillet_syntax::exact;

/// A number that quantities are reckoned in: exact, or a float where one of many figures is asked for and
/// the measures in it are no truer.
pub trait Amount: Copy + PartialOrd {
    /// The number nearest to an exact one.
    fn of(exact: Number) -> Self;

    /// Something measured.
    fn measured(amount: f64) -> Self;

    /// `self` + `other`; none where it is out of range, as with the three that follow.
    fn sum(self, other: Self) -> Option<Self>;

    /// `self` - `other`.
    fn difference(self, other: Self) -> Option<Self>;

    /// `self` × `other`.
    fn product(self, other: Self) -> Option<Self>;

    /// `self` ÷ `other`, which is not nothing.
    fn quotient(self, other: Self) -> Option<Self>;

    /// With the sign turned.
    #[must_use]
    fn negated(self) -> Self;
}

impl Amount for Number {
    fn of(exact: Number) -> Self {
        exact
    }

    /// To the millionth of its unit.
    fn measured(amount: f64) -> Self {
        let millionths = (amount * 1e6).round().clamp(-1e30, 1e30);
        exact::ratio(millionths as i128, 1_000_000)
    }

    fn sum(self, other: Self) -> Option<Self> {
        exact::sum(self, other)
    }

    fn difference(self, other: Self) -> Option<Self> {
        exact::difference(self, other)
    }

    fn product(self, other: Self) -> Option<Self> {
        exact::product(self, other)
    }

    fn quotient(self, other: Self) -> Option<Self> {
        exact::quotient(self, other)
    }

    fn negated(self) -> Self {
        -self
    }
}

impl Amount for f64 {
    fn of(exact: Number) -> Self {
        *exact.numer() as f64 / *exact.denom() as f64
    }

    fn measured(amount: f64) -> Self {
        amount
    }

    fn sum(self, other: Self) -> Option<Self> {
        Some(self + other)
    }

    fn difference(self, other: Self) -> Option<Self> {
        Some(self - other)
    }

    fn product(self, other: Self) -> Option<Self> {
        Some(self * other)
    }

    fn quotient(self, other: Self) -> Option<Self> {
        Some(self / other)
    }

    fn negated(self) -> Self {
        -self
    }
}
