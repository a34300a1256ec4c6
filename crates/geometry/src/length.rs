//! `Length`: an exact count of nanometres.

use std::fmt;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use crate::decimal;

/// A length, held as an integer count of nanometres.
///
/// One inch is 25 400 000 nm and 1/64 in is 396 875 nm exactly (the international inch of
/// 25.4 mm, 1959), so equality, order and hashing are exact. The range is ±9.2 million km;
/// arithmetic saturates there and never panics.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

const NM_PER_MM: i64 = 1_000_000;
const NM_PER_INCH: i64 = 25_400_000;

impl Length {
    /// No length.
    pub const ZERO: Length = Length(0);
    /// The longest length that can be held.
    pub const MAX: Length = Length(i64::MAX);

    /// So many millimetres, rounded to the nearest nanometre.
    pub fn mm(mm: f64) -> Length {
        Length((mm * NM_PER_MM as f64).round() as i64)
    }

    /// So many nanometres.
    pub const fn from_nm(nm: i64) -> Length {
        Length(nm)
    }

    /// So many inches, rounded to the nearest nanometre.
    pub fn inches(inches: f64) -> Length {
        Length((inches * NM_PER_INCH as f64).round() as i64)
    }

    /// `num`/`den` inches, rounded to the nearest nanometre (exact for all 64ths and 128ths).
    ///
    /// None when `den` is zero or the length is out of range.
    pub fn from_inches_ratio(num: i64, den: i64) -> Option<Length> {
        decimal::rounded_quotient(i128::from(num) * i128::from(NM_PER_INCH), i128::from(den))
            .map(Length)
    }

    /// Millimetres written in decimals (`12`, `12.25`, `-0.5`), rounded to the nearest nanometre.
    ///
    /// None when the text is not a plain decimal or is out of range.
    pub fn parse_mm(text: &str) -> Option<Length> {
        decimal::parse(text, NM_PER_MM).map(Length)
    }

    /// Inches written in decimals, rounded to the nearest nanometre; none as for [`Length::parse_mm`].
    pub fn parse_inches(text: &str) -> Option<Length> {
        decimal::parse(text, NM_PER_INCH).map(Length)
    }

    /// The count of nanometres.
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// In millimetres.
    pub fn to_mm(self) -> f64 {
        self.0 as f64 / NM_PER_MM as f64
    }

    /// In inches.
    pub fn to_inches(self) -> f64 {
        self.0 as f64 / NM_PER_INCH as f64
    }

    /// Half of it, as a radius from a diameter; an odd nanometre is dropped.
    pub const fn half(self) -> Length {
        Length(self.0 / 2)
    }

    /// Twice it, as a diameter from a radius.
    pub const fn twice(self) -> Length {
        Length(self.0.saturating_mul(2))
    }

    /// Without its sign.
    pub const fn abs(self) -> Length {
        Length(self.0.saturating_abs())
    }

    /// `self` times a bare number, rounded to the nearest nanometre.
    pub fn scaled(self, factor: f64) -> Length {
        Length((self.0 as f64 * factor).round() as i64)
    }

    /// How many times `other` goes into `self`; not finite where `other` is zero.
    pub fn ratio(self, other: Length) -> f64 {
        self.0 as f64 / other.0 as f64
    }

    /// The sum, or none when it is out of range.
    pub const fn checked_add(self, other: Length) -> Option<Length> {
        match self.0.checked_add(other.0) {
            Some(nm) => Some(Length(nm)),
            None => None,
        }
    }

    /// The difference, or none when it is out of range.
    pub const fn checked_sub(self, other: Length) -> Option<Length> {
        match self.0.checked_sub(other.0) {
            Some(nm) => Some(Length(nm)),
            None => None,
        }
    }

    /// The product with a whole number, or none when it is out of range.
    pub const fn checked_mul(self, times: i64) -> Option<Length> {
        match self.0.checked_mul(times) {
            Some(nm) => Some(Length(nm)),
            None => None,
        }
    }

    /// True above zero.
    pub const fn is_positive(self) -> bool {
        self.0 > 0
    }

    /// True below zero.
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }

    /// True at zero.
    pub const fn is_zero(self) -> bool {
        self.0 == 0
    }

    /// The number of millimetres to at most `places` decimals, trailing zeros dropped: `12.2`.
    pub fn mm_text(self, places: usize) -> String {
        decimal::format(self.0, NM_PER_MM, places)
    }

    /// The number of millimetres with every decimal it has, as it would be written in a source file.
    pub fn exact_mm_text(self) -> String {
        self.mm_text(6)
    }

    /// The number of inches to at most `places` decimals, trailing zeros dropped: `0.4803`.
    pub fn inch_text(self, places: usize) -> String {
        decimal::format(self.0, NM_PER_INCH, places)
    }

    /// The nearest length that is a whole number of 64ths of an inch.
    pub fn nearest_64th(self) -> InchFraction {
        let sixty_fourths =
            decimal::rounded_quotient(i128::from(self.0), i128::from(NM_PER_INCH / 64));
        InchFraction {
            sixty_fourths: sixty_fourths.unwrap_or(0),
        }
    }
}

/// A whole number of 64ths of an inch, shown as a rule or drill index does: `1-5/8in`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct InchFraction {
    /// The count of 64ths.
    pub sixty_fourths: i64,
}

impl InchFraction {
    /// The length, exactly.
    pub const fn length(self) -> Length {
        Length(self.sixty_fourths.saturating_mul(NM_PER_INCH / 64))
    }
}

impl fmt::Display for InchFraction {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.sixty_fourths < 0 { "-" } else { "" };
        let count = self.sixty_fourths.unsigned_abs();
        let (whole, part) = (count / 64, count % 64);
        let shared = 1 << part.trailing_zeros().min(6);
        let (num, den) = (part / shared, 64 / shared);
        match (whole, part) {
            (_, 0) => write!(out, "{sign}{whole}in"),
            (0, _) => write!(out, "{sign}{num}/{den}in"),
            _ => write!(out, "{sign}{whole}-{num}/{den}in"),
        }
    }
}

/// In millimetres with its unit: `12.2 mm`. At most three decimals, or as many as the precision
/// asks (`{:.1}`), trailing zeros dropped.
impl fmt::Display for Length {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad_integral(
            true,
            "",
            &format!("{} mm", self.mm_text(out.precision().unwrap_or(3))),
        )
    }
}

impl Add for Length {
    type Output = Length;
    fn add(self, other: Length) -> Length {
        Length(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Length;
    fn sub(self, other: Length) -> Length {
        Length(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Length;
    fn neg(self) -> Length {
        Length(self.0.saturating_neg())
    }
}

impl AddAssign for Length {
    fn add_assign(&mut self, other: Length) {
        *self = *self + other;
    }
}

impl SubAssign for Length {
    fn sub_assign(&mut self, other: Length) {
        *self = *self - other;
    }
}

impl Mul<i64> for Length {
    type Output = Length;
    fn mul(self, times: i64) -> Length {
        Length(self.0.saturating_mul(times))
    }
}

/// Divided by a whole number, rounded to the nearest nanometre; zero where the divisor is zero.
impl Div<i64> for Length {
    type Output = Length;
    fn div(self, by: i64) -> Length {
        Length(decimal::rounded_quotient(i128::from(self.0), i128::from(by)).unwrap_or(0))
    }
}

impl std::iter::Sum for Length {
    fn sum<I: Iterator<Item = Length>>(lengths: I) -> Length {
        lengths.fold(Length::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests;
