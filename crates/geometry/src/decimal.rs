//! Decimals to integer counts of a small unit and back, without a rounding of their own.

/// The text of a plain decimal (`-12.25`) as a count, where `unit` counts make one; rounded half
/// away from zero. None when the text is not a plain decimal or the count is out of range.
pub(crate) fn parse(text: &str, unit: i64) -> Option<i64> {
    let (negative, digits) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let plain = |digits: &str| digits.bytes().all(|digit| digit.is_ascii_digit());
    if !plain(whole) || !plain(part) || whole.len() + part.len() == 0 {
        return None;
    }
    let whole: i128 = if whole.is_empty() {
        0
    } else {
        whole.parse().ok()?
    };
    // Past 18 decimals nothing can change the rounding to a nanometre but an exact half.
    let part = &part[..part.len().min(18)];
    let scale = 10_i128.pow(part.len() as u32);
    let part: i128 = if part.is_empty() {
        0
    } else {
        part.parse().ok()?
    };
    let count = whole
        .checked_mul(scale)?
        .checked_add(part)?
        .checked_mul(i128::from(unit))?;
    rounded_quotient(if negative { -count } else { count }, scale)
}

/// `num` / `den` rounded half away from zero; none when `den` is zero or it does not fit.
pub(crate) fn rounded_quotient(num: i128, den: i128) -> Option<i64> {
    let quotient = num.checked_div(den)?;
    let rest = num % den;
    let away = if rest.unsigned_abs() * 2 >= den.unsigned_abs() {
        1
    } else {
        0
    };
    let signed = if (num < 0) == (den < 0) { away } else { -away };
    i64::try_from(quotient + signed).ok()
}

/// A number to so many decimals, trailing zeros dropped; never `-0`. What is no number is `—`.
pub fn number(value: f64, places: usize) -> String {
    if !value.is_finite() {
        return "—".to_owned();
    }
    if let Some((count, unit)) = counted(value, places) {
        return format(count, unit, places);
    }
    let mut text = format!("{value:.places$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".into() } else { text }
}

/// How many of the last place make a number, and one. None where that is too large, or so near a half that
/// only all of its digits tell which way it rounds: `{:.3}` writes them all first, and drawings have
/// thousands of numbers.
fn counted(value: f64, places: usize) -> Option<(i64, i64)> {
    const MOST_PLACES: usize = 9;
    let unit = 10_i64.pow(places.min(MOST_PLACES) as u32);
    let scaled = value * unit as f64;
    // Under so much the product is true to a thousandth at the least.
    let is_sure = (scaled - scaled.floor() - 0.5).abs() > 1e-3 && scaled.abs() < 1e12;
    (is_sure && places <= MOST_PLACES).then_some((scaled.round() as i64, unit))
}

/// `count` in units of `unit` counts, to at most `places` decimals, trailing zeros dropped.
pub(crate) fn format(count: i64, unit: i64, places: usize) -> String {
    let scale = 10_i128.pow(places.min(18) as u32);
    let scaled = match scale == i128::from(unit) {
        true => i128::from(count.unsigned_abs()),
        false => {
            (i128::from(count.unsigned_abs()) * scale + i128::from(unit / 2)) / i128::from(unit)
        }
    };
    let sign = if count < 0 && scaled > 0 { "-" } else { "" };
    let (whole, part) = match u64::try_from(scaled) {
        // Numbers of 128 bits are slow to divide.
        Ok(scaled) => (scaled / scale as u64, scaled % scale as u64),
        Err(_) => ((scaled / scale) as u64, (scaled % scale) as u64),
    };
    if part == 0 {
        return format!("{sign}{whole}");
    }
    let mut text = format!("{sign}{whole}.{part:0width$}", width = places.min(18));
    text.truncate(text.trim_end_matches('0').len());
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// As the standard library writes it, every digit worked out.
    fn in_full(value: f64, places: usize) -> String {
        let text = format!("{value:.places$}");
        let text = match text.contains('.') {
            true => text.trim_end_matches('0').trim_end_matches('.'),
            false => &text,
        };
        if text == "-0" { "0" } else { text }.to_owned()
    }

    proptest! {
        #[test]
        fn a_number_is_written_as_with_all_its_digits(
            value in prop_oneof![
                -200.0..200.0_f64,
                prop::num::f64::NORMAL,
                (-4000_i32..4000).prop_map(|it| f64::from(it) / 16.0),
                (-4000_i32..4000).prop_map(|it| f64::from(it) / 2000.0),
            ],
            places in 0_usize..12,
        ) {
            prop_assert_eq!(number(value, places), in_full(value, places));
        }
    }

    #[test]
    fn halves_that_a_product_would_round_the_wrong_way_are_written_true() {
        // 1.005 is a little less than it says, 0.125 is what it says, and -0.0004 is nothing.
        for (value, places, text) in [(1.005, 2, "1"), (0.125, 2, "0.12"), (-0.0004, 3, "0")] {
            assert_eq!(number(value, places), text);
        }
    }
}
