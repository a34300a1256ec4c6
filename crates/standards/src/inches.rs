//! Inches as makers write them.

use quillet_geometry::Length;

/// `7/16`, `1-1/8`, `1 1/8`, `0.4375` or `1` inches; none for anything else or for nothing at all.
pub(crate) fn parse(text: &str) -> Option<Length> {
    let Some((front, den)) = text.split_once('/') else {
        return Length::parse_inches(text).filter(|length| length.is_positive());
    };
    let (whole, num) = match front.split_once(['-', ' ']) {
        Some((whole, num)) => (whole.parse::<u16>().ok()?, num),
        None => (0, front),
    };
    let (num, den): (u16, u16) = (num.parse().ok()?, den.parse().ok()?);
    let num = i64::from(whole) * i64::from(den) + i64::from(num);
    Length::from_inches_ratio(num, i64::from(den)).filter(|length| length.is_positive())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_mixed_numbers_and_decimals() {
        assert_eq!(parse("7/16"), Some(Length::mm(11.1125)));
        assert_eq!(parse("1-1/8"), parse("1 1/8"));
        assert_eq!(parse("1.125"), parse("9/8"));
        for text in ["", "7/", "/16", "7/0", "0/4", "a/b", "1-", "-1/2", "1/2/3"] {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
