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
    let mut text = format!("{value:.places$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { "0".into() } else { text }
}

/// `count` in units of `unit` counts, to at most `places` decimals, trailing zeros dropped.
pub(crate) fn format(count: i64, unit: i64, places: usize) -> String {
    let scale = 10_i128.pow(places.min(18) as u32);
    let scaled =
        (i128::from(count.unsigned_abs()) * scale + i128::from(unit / 2)) / i128::from(unit);
    let (whole, part) = (scaled / scale, scaled % scale);
    let sign = if count < 0 && scaled > 0 { "-" } else { "" };
    if part == 0 {
        return format!("{sign}{whole}");
    }
    let part = format!("{part:0width$}", width = places.min(18));
    format!("{sign}{whole}.{}", part.trim_end_matches('0'))
}
