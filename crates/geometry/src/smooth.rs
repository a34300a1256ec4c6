//! Slopes of a smooth outline that never overshoots its stations.

use crate::Point;

/// dr/dz at each place, for cubics between them that neither overshoot nor wave.
///
/// The monotone cubic interpolation of Fritsch & Carlson (SIAM J. Numer. Anal. 17, 1980,
/// 238-246): three-point differences, zero where the stations rise and fall, and last the limit
/// α² + β² ≤ 9 on the slopes over the secant of each interval. A slope that is asked for at an
/// end stands in for the difference there, before the limit. The places run strictly along `z`.
pub(crate) fn slopes(places: &[Point], first: Option<f64>, last: Option<f64>) -> Vec<f64> {
    let steps: Vec<Point> = places.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let secant = |at: usize| steps[at].r / steps[at].z;
    let count = places.len();
    if count < 2 {
        return vec![0.0; count];
    }
    let mut slopes = vec![0.0; count];
    for at in 1..count - 1 {
        let (before, after) = (secant(at - 1), secant(at));
        if before * after > 0.0 {
            slopes[at] =
                (steps[at].z * before + steps[at - 1].z * after) / (steps[at - 1].z + steps[at].z);
        }
    }
    // The parabola through the three stations at an end; with two, through both and the slope at
    // the other end; the secant where that is free too.
    let end = |near: usize, next: Option<usize>, other: Option<f64>| match next {
        Some(next) => {
            let share = steps[near].z / (steps[near].z + steps[next].z);
            secant(near) + (secant(near) - secant(next)) * share
        }
        None => other.map_or(secant(near), |other| 2.0 * secant(near) - other),
    };
    slopes[0] = first.unwrap_or_else(|| end(0, (count > 2).then_some(1), last));
    slopes[count - 1] = last.unwrap_or_else(|| end(count - 2, count.checked_sub(3), first));
    for at in 0..count - 1 {
        limit(secant(at), &mut slopes[at..at + 2]);
    }
    slopes
}

/// Holds the two slopes of an interval to what keeps its cubic monotone.
fn limit(secant: f64, slopes: &mut [f64]) {
    for slope in slopes.iter_mut() {
        if *slope * secant <= 0.0 {
            *slope = 0.0;
        }
    }
    let size = slopes
        .iter()
        .map(|slope| (slope / secant).powi(2))
        .sum::<f64>();
    if size > 9.0 {
        slopes
            .iter_mut()
            .for_each(|slope| *slope *= 3.0 / size.sqrt());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Cubic, Curve};
    use proptest::prelude::*;

    #[test]
    fn stations_on_a_parabola_give_its_slopes() {
        let places: Vec<Point> = [1.0, 2.0, 4.0, 7.0].map(|z| Point::new(z, z * z)).to_vec();
        let found = slopes(&places, None, None);
        for (place, slope) in places.iter().zip(found) {
            assert!(
                (slope - 2.0 * place.z).abs() < 1e-12,
                "{slope} at {}",
                place.z
            );
        }
    }

    #[test]
    fn a_line_stays_a_line_and_a_level_stays_level() {
        let at = |z: f64, r: f64| Point::new(z, r);
        assert_eq!(
            slopes(&[at(0.0, 5.0), at(2.0, 6.0), at(8.0, 9.0)], None, None),
            [0.5; 3]
        );
        assert_eq!(
            slopes(&[at(0.0, 5.0), at(2.0, 5.0), at(8.0, 9.0)], Some(1.0), None)[..2],
            [0.0, 0.0]
        );
        assert_eq!(slopes(&[at(0.0, 5.0), at(4.0, 6.0)], None, None), [0.25; 2]);
        assert_eq!(
            slopes(&[at(0.0, 5.0), at(4.0, 6.0)], Some(0.0), None),
            [0.0, 0.5]
        );
    }

    proptest! {
        #[test]
        fn no_cubic_leaves_the_band_of_its_two_stations(
            steps in prop::collection::vec((0.01..30.0_f64, 0.0..9.0_f64), 2..8),
            first in prop::option::of(-5.0..5.0_f64), last in prop::option::of(-5.0..5.0_f64), t in 0.0..1.0_f64,
        ) {
            let mut z = 0.0;
            let places: Vec<Point> = steps.iter().map(|(dz, r)| { z += dz; Point::new(z, *r) }).collect();
            let slopes = slopes(&places, first, last);
            for (pair, slope) in places.windows(2).zip(slopes.windows(2)) {
                let cubic = Curve::Cubic(Cubic::with_slopes(pair[0], pair[1], slope[0], slope[1]).unwrap());
                let (low, high) = (pair[0].r.min(pair[1].r), pair[0].r.max(pair[1].r));
                let r = cubic.point(t).r;
                prop_assert!(low - 1e-12 <= r && r <= high + 1e-12, "{r} leaves {low}..{high}");
                prop_assert!(cubic.tangent(t).r * (pair[1].r - pair[0].r) >= -1e-9);
            }
        }
    }
}
