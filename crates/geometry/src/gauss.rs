//! Gauss–Legendre sums along a curve.

use crate::{Curve, Point};

/// Nodes above the middle (and on it) with their weights, on -1..1: the roots of the Legendre
/// polynomials, worked to 40 digits; `n` of them are exact for degree `2n - 1`.
type Rule = &'static [(f64, f64)];

const THREE: Rule = &[(0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0)];

const EIGHT: Rule = &[
    (0.960_289_856_497_536_2, 0.101_228_536_290_376_26),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_47),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
];

const SIXTEEN: Rule = &[
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_095),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_89),
    (0.865_631_202_387_831_7, 0.095_158_511_682_492_78),
    (0.755_404_408_355_003, 0.124_628_971_255_533_87),
    (0.617_876_244_402_643_7, 0.149_595_988_816_576_73),
    (0.458_016_777_657_227_4, 0.169_156_519_395_002_54),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_6),
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_5),
];

/// The integral along the curve of `each(place, step)`, where `step` is what the place moves per
/// unit of the variable of integration.
///
/// Exact for polynomials of degree five in a line's parameter and fifteen in a cubic's. An arc is
/// taken by its angle, at most π: sixteen nodes leave less than 1e-16 of the integral of a
/// trigonometric polynomial of degree five.
pub(crate) fn along<const N: usize>(
    curve: &Curve,
    each: impl Fn(Point, Point) -> [f64; N],
) -> [f64; N] {
    let rule = match curve {
        Curve::Line(_) => THREE,
        Curve::Cubic(_) => EIGHT,
        Curve::Arc(_) => SIXTEEN,
    };
    let swept = curve.swept();
    sum(rule, |t| {
        let (place, step) = swept(t);
        each(place, step)
    })
}

/// The same by sixteen nodes on each of as many parts of the curve as agree with their halves to
/// 1e-14 of the whole: for integrands that are not polynomials.
pub(crate) fn along_adaptively<const N: usize>(
    curve: &Curve,
    each: impl Fn(Point, Point) -> [f64; N],
) -> [f64; N] {
    let swept = curve.swept();
    let over = |from: f64, to: f64| {
        sum(SIXTEEN, |part| {
            let (place, step) = swept(from + (to - from) * part);
            each(place, step * (to - from))
        })
    };
    halved(over, |whole| whole.map(|value| 1e-14 * value.abs()))
}

/// The integral of `value` from 0 to 1, which may begin and end as a root does (a half power of
/// the distance to the end) and have kinks between: halved until all agree with their halves to
/// 1e-13 of `scale`.
pub(crate) fn smoothly<const N: usize>(
    scale: [f64; N],
    value: impl Fn(f64) -> [f64; N],
) -> [f64; N] {
    let over = |from: f64, to: f64| {
        sum(SIXTEEN, |part| {
            // Half powers of t are whole ones of u at both ends.
            let u = from + (to - from) * part;
            let rate = 6.0 * u * (1.0 - u) * (to - from);
            value(u * u * (3.0 - 2.0 * u)).map(|value| value * rate)
        })
    };
    halved(over, |_| scale.map(|scale| 1e-13 * scale))
}

/// The integral of `value` from 0 to 1 by sixteen nodes, where it is smooth but for its ends, which may be
/// those of a root.
pub(crate) fn rooted<const N: usize>(value: impl Fn(f64) -> [f64; N]) -> [f64; N] {
    sum(SIXTEEN, |u| {
        value(u * u * (3.0 - 2.0 * u)).map(|value| value * 6.0 * u * (1.0 - u))
    })
}

/// The integral of a function between two places, to about 1e-13 of it; its ends may be those of
/// a root. Not a number where the function is not one.
pub fn integral(from: f64, to: f64, value: impl Fn(f64) -> f64) -> f64 {
    let over = |low: f64, high: f64| {
        sum(SIXTEEN, |part| {
            let u = low + (high - low) * part;
            let rate = 6.0 * u * (1.0 - u) * (high - low) * (to - from);
            [value(from + (to - from) * u * u * (3.0 - 2.0 * u)) * rate]
        })
    };
    let [found] = halved(over, |whole| whole.map(|value| 1e-13 * value.abs()));
    found
}

/// The sum over as many halves of 0..1 as agree with their own halves within what `within` says
/// of the whole.
fn halved<const N: usize>(
    over: impl Fn(f64, f64) -> [f64; N],
    within: impl Fn([f64; N]) -> [f64; N],
) -> [f64; N] {
    let whole = over(0.0, 1.0);
    let most = within(whole);
    let mut total = [0.0; N];
    let mut waiting = vec![(0.0, 1.0, whole)];
    while let Some((from, to, estimate)) = waiting.pop() {
        let middle = (from + to) / 2.0;
        let (left, right) = (over(from, middle), over(middle, to));
        // Written so that what is not a number ends it.
        let differs = (0..N).any(|at| (left[at] + right[at] - estimate[at]).abs() > most[at]);
        if !differs || to - from < 1e-6 {
            (0..N).for_each(|at| total[at] += left[at] + right[at]);
        } else {
            waiting.push((from, middle, left));
            waiting.push((middle, to, right));
        }
    }
    total
}

/// The integral from 0 to 1.
fn sum<const N: usize>(rule: Rule, value: impl Fn(f64) -> [f64; N]) -> [f64; N] {
    let mut total = [0.0; N];
    for &(node, weight) in rule {
        let mirrored = if node == 0.0 { 1 } else { 2 };
        for t in [0.5 + node / 2.0, 0.5 - node / 2.0]
            .into_iter()
            .take(mirrored)
        {
            let value = value(t);
            (0..N).for_each(|at| total[at] += value[at] * weight / 2.0);
        }
    }
    total
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_rule_is_exact_to_its_degree() {
        for (rule, nodes) in [(THREE, 3), (EIGHT, 8), (SIXTEEN, 16)] {
            for power in 0..2 * nodes {
                let [integral] = sum(rule, |t| [t.powi(power)]);
                assert!(
                    (integral * f64::from(power + 1) - 1.0).abs() < 1e-14,
                    "{nodes} nodes, t^{power}: {integral}"
                );
            }
        }
    }

    #[test]
    fn roots_at_both_ends_cost_no_digits() {
        let half_disc = integral(-2.0, 2.0, |y| (4.0 - y * y).sqrt());
        assert!((half_disc / (2.0 * std::f64::consts::PI) - 1.0).abs() < 1e-14);
        let [kinked] = smoothly([1.0], |t| [(t - 0.3).abs().sqrt()]);
        let wanted = (0.3_f64.powf(1.5) + 0.7_f64.powf(1.5)) / 1.5;
        assert!((kinked - wanted).abs() < 1e-9, "{kinked} for {wanted}");
        assert!(integral(0.0, 1.0, |_| f64::NAN).is_nan());
    }
}
