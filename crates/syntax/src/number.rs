//! The exact value of a number as written.

use crate::ast::{Number, Unit};
use crate::exact;

/// What keeps a number from having a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NumberFault {
    /// More digits than a pen has use for.
    TooManyDigits,
    /// A fraction over nothing, `1/0in`.
    OverZero,
    /// Its unit stands apart from it, `5 mm`; it is read as if it did not.
    PartedUnit,
}

/// No length, mass or count of a pen needs more digits before the point, or after it.
pub(crate) const MOST_DIGITS: usize = 12;

/// The value and unit of a quantity token: `12`, `0.25in`, `7/16in`, `1-5/8`.
pub(crate) fn quantity(text: &str) -> Result<(Number, Option<Unit>), NumberFault> {
    let digits = text.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let unit = unit(&text[digits.len()..]);
    let value = match digits.split_once('/') {
        None => decimal(digits)?,
        Some((top, bottom)) => {
            let (whole, top) = top.split_once('-').unwrap_or(("0", top));
            let bottom = integer(bottom)?;
            if bottom == 0 {
                return Err(NumberFault::OverZero);
            }
            exact::ratio(integer(whole)? * bottom + integer(top)?, bottom)
        }
    };
    Ok((value, unit))
}

/// The number of a gauge token, `#7`.
pub(crate) fn gauge(text: &str) -> Result<u32, NumberFault> {
    let number = integer(text.trim_start_matches('#'))?;
    u32::try_from(number).map_err(|_| NumberFault::TooManyDigits)
}

/// The unit of this name.
pub(crate) fn unit(text: &str) -> Option<Unit> {
    Some(match text {
        "mm" => Unit::Mm,
        "in" => Unit::In,
        "g" => Unit::G,
        "ml" => Unit::Ml,
        "deg" => Unit::Deg,
        "N" => Unit::Newton,
        _ => return None,
    })
}

fn decimal(text: &str) -> Result<Number, NumberFault> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let part = part.trim_end_matches('0');
    if part.is_empty() {
        return Ok(Number::from(integer(whole)?));
    }
    if part.len() > MOST_DIGITS {
        return Err(NumberFault::TooManyDigits);
    }
    let scale = 10_i128.pow(part.len() as u32);
    Ok(exact::ratio(
        integer(whole)? * scale + integer(part)?,
        scale,
    ))
}

fn integer(text: &str) -> Result<i128, NumberFault> {
    let text = text.trim_start_matches('0');
    if text.len() > MOST_DIGITS {
        return Err(NumberFault::TooManyDigits);
    }
    Ok(text
        .bytes()
        .fold(0, |value, digit| value * 10 + i128::from(digit - b'0')))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_has_the_value_that_is_written() {
        for (text, top, bottom, unit) in [
            ("12", 12, 1, None),
            ("12.20", 61, 5, None),
            ("0.8mm", 4, 5, Some(Unit::Mm)),
            ("0.001", 1, 1000, None),
            ("007.50", 15, 2, None),
            ("7/16in", 7, 16, Some(Unit::In)),
            ("1-5/8", 13, 8, None),
            ("1-5/8in", 13, 8, Some(Unit::In)),
            ("0.000000000001g", 1, 1_000_000_000_000, Some(Unit::G)),
            ("118deg", 118, 1, Some(Unit::Deg)),
            ("9.5N", 19, 2, Some(Unit::Newton)),
            ("999999999999ml", 999_999_999_999, 1, Some(Unit::Ml)),
        ] {
            assert_eq!(
                quantity(text),
                Ok((Number::new(top, bottom), unit)),
                "{text}"
            );
        }
        assert_eq!(gauge("#60"), Ok(60));
    }

    #[test]
    fn a_number_without_a_value_is_refused() {
        let many = NumberFault::TooManyDigits;
        assert_eq!(quantity("1000000000000"), Err(many));
        assert_eq!(quantity("0.0000000000001"), Err(many));
        assert_eq!(quantity("1/1000000000000in"), Err(many));
        assert_eq!(quantity("1/0in"), Err(NumberFault::OverZero));
        assert_eq!(quantity("2-1/00"), Err(NumberFault::OverZero));
        assert_eq!(gauge("#99999999999"), Err(many));
    }
}
