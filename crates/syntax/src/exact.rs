//! Exact numbers put together: most are small, and go by the machine's own words.

use crate::ast::Number;
use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub};

/// Of a numerator and a denominator that is more than nothing, in lowest terms.
pub fn ratio(numer: i128, denom: i128) -> Number {
    let small = u64::try_from(numer.unsigned_abs()).ok();
    match small.zip(u64::try_from(denom).ok().filter(|it| *it > 0)) {
        Some((above, below)) => {
            let common = common_divisor(above, below);
            let above = i128::from(above / common);
            let numer = if numer < 0 { -above } else { above };
            Ratio::new_raw(numer, i128::from(below / common))
        }
        None => Ratio::new(numer, denom),
    }
}

/// `a` + `b`; none where it is out of range.
pub fn sum(a: Number, b: Number) -> Option<Number> {
    match words(a, b) {
        Some([a, over_a, b, over_b]) if over_a == over_b => Some(ratio(a + b, over_a)),
        Some([a, over_a, b, over_b]) => Some(ratio(a * over_b + b * over_a, over_a * over_b)),
        None => a.checked_add(&b),
    }
}

/// `a` - `b`; none where it is out of range.
pub fn difference(a: Number, b: Number) -> Option<Number> {
    match words(a, b) {
        Some([a, over_a, b, over_b]) if over_a == over_b => Some(ratio(a - b, over_a)),
        Some([a, over_a, b, over_b]) => Some(ratio(a * over_b - b * over_a, over_a * over_b)),
        None => a.checked_sub(&b),
    }
}

/// `a` × `b`; none where it is out of range.
pub fn product(a: Number, b: Number) -> Option<Number> {
    match words(a, b) {
        Some([a, over_a, b, over_b]) => Some(ratio(a * b, over_a * over_b)),
        None => a.checked_mul(&b),
    }
}

/// `a` ÷ `b`; none where it is out of range, or `b` is nothing.
pub fn quotient(a: Number, b: Number) -> Option<Number> {
    match words(a, b) {
        Some([_, _, 0, _]) => None,
        Some([a, over_a, b, over_b]) if over_a == over_b => Some(ratio(a * b.signum(), b.abs())),
        Some([a, over_a, b, over_b]) => Some(ratio(a * over_b * b.signum(), over_a * b.abs())),
        None => a.checked_div(&b),
    }
}

/// Both numerators and denominators, where no product or sum of products of them overflows.
fn words(a: Number, b: Number) -> Option<[i128; 4]> {
    let all = [*a.numer(), *a.denom(), *b.numer(), *b.denom()];
    let small = |it: &i128| it.unsigned_abs() < 1 << 62;
    all.iter().all(small).then_some(all)
}

/// `below` is more than nothing. Of decimals, twos and fives are all that can be in common; of others the
/// rest by halving and subtracting (Stein).
fn common_divisor(above: u64, below: u64) -> u64 {
    if above == 0 {
        return below;
    }
    let mut common = 1 << (above | below).trailing_zeros();
    let (mut a, mut b) = (
        above >> above.trailing_zeros(),
        below >> below.trailing_zeros(),
    );
    while b.is_multiple_of(5) {
        b /= 5;
        if a.is_multiple_of(5) {
            a /= 5;
            common *= 5;
        }
    }
    if b == 1 {
        return common;
    }
    while b != 0 {
        b >>= b.trailing_zeros();
        (a, b) = (a.min(b), a.abs_diff(b));
    }
    a * common
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the general arithmetic, of numbers of every size either side of a word's.
    #[test]
    fn small_numbers_come_out_as_all_others() {
        let mut seed = 7_u64;
        let mut next = |bits: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            i128::from(seed >> (64 - bits.max(1)))
        };
        for round in 0..20_000_u64 {
            let bits = [1 + round % 60, 1 + round * 7 % 64, 1 + round * 13 % 62];
            let mut number = |it: usize| {
                let numer = next(bits[it]) - next(bits[it]);
                let decimal = 10_i128.pow((round % 16) as u32) << (round % 5);
                let denom = [next(bits[2]) + 1, decimal][usize::from(round % 3 == 0)];
                Ratio::new(numer, denom)
            };
            let (a, b) = (number(0), number(1));
            assert_eq!(sum(a, b), a.checked_add(&b), "{a} + {b}");
            assert_eq!(difference(a, b), a.checked_sub(&b), "{a} - {b}");
            assert_eq!(product(a, b), a.checked_mul(&b), "{a} * {b}");
            assert_eq!(quotient(a, b), a.checked_div(&b), "{a} / {b}");
        }
        assert_eq!(ratio(-6, 4), Ratio::new(-3, 2));
        assert_eq!(ratio(0, 1_000_000), Ratio::new(0, 1));
    }
}
