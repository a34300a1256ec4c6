//! Any flats, on any curve.

use super::*;
use crate::any_curve::curves;
use proptest::prelude::*;

fn sets() -> impl Strategy<Value = Vec<Flats>> {
    let one = (
        0.0..12.0_f64,
        0.5..15.0_f64,
        1..9_u32,
        0.0..360.0_f64,
        0..3,
        1.0..7.0_f64,
        1.0..7.0_f64,
    );
    let made = one.prop_map(|(from, length, count, clock_deg, kind, a, b)| Flats {
        from_mm: from,
        to_mm: from + length,
        apothem: match kind {
            0 => Apothem::Below(a / 5.0),
            1 if count > 2 => Apothem::Meeting,
            _ => Apothem::Straight {
                from_mm: a,
                to_mm: b,
            },
        },
        count,
        clock_deg,
    });
    prop::collection::vec(made, 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_flats_leave_what_steps_of_the_angle_leave(
        r in 1.0..9.0_f64,
        flats in prop::collection::vec((0.05..1.2_f64, 0.0..360.0_f64), 0..9),
    ) {
        let flats: Vec<Flat> = flats.iter().map(|&(share, clock)| flat(share * r, clock)).collect();
        let section = Section::cut(r, &flats).unwrap();
        let left = section.left();
        let [area, x, y, polar] = by_steps(&section, 12_000);
        prop_assert!((left.area_mm2 - area).abs() < 1e-6 * r.powi(2), "{} {area}", left.area_mm2);
        prop_assert!((left.x_mm3 - x).abs() < 1e-6 * r.powi(3), "{} {x}", left.x_mm3);
        prop_assert!((left.y_mm3 - y).abs() < 1e-6 * r.powi(3), "{} {y}", left.y_mm3);
        let found = left.xx_mm4 + left.yy_mm4;
        prop_assert!((found - polar).abs() < 1e-6 * r.powi(4), "{found} {polar}");
        let sampled = (0..3600).map(|nth| section.radius_at_mm(f64::from(nth) / 10.0));
        let (low, high) = sampled.fold((f64::INFINITY, 0.0_f64), |it, r| (it.0.min(r), it.1.max(r)));
        prop_assert!(section.low_mm() <= low + 1e-12 && low < section.low_mm() + 1e-3 * r);
        prop_assert!(high <= section.high_mm() + 1e-12 && section.high_mm() < high + 0.03 * r);
        for corner in section.corners_deg() {
            prop_assert!((0.0..360.0).contains(&corner));
        }
    }

    /// Against slices between the stations where sets begin and end, so many that more change
    /// nothing in the sixth place.
    #[test]
    fn any_flats_on_any_curve_take_what_slices_take(curve in curves(), sets in sets()) {
        prop_assume!(!curve.is_vertical() && curve.bounds().max.r > 0.01);
        let outside = Chain::single(Tag(0), curve);
        // Where a flat reaches the axis it cuts nothing: slices see that edge roughly.
        let least = curve.bounds().min.r;
        let shallow = |set: &Flats| !matches!(set.apothem, Apothem::Below(deep) if deep >= least);
        let sets: Vec<Flats> = sets.into_iter().filter(shallow).collect();
        let found: Moments = cut_away([&outside], &sets);
        let (from, to) = (curve.start().z, curve.end().z);
        let mut stations: Vec<f64> = sets.iter().flat_map(|it| [it.from_mm, it.to_mm]).collect();
        stations.retain(|z| from < *z && *z < to);
        stations.extend([from, to]);
        stations.sort_by(f64::total_cmp);
        let slices = |pair: &[f64]| {
            // Thinner towards the ends, where a dome stands square to the axis.
            let each = (0..1000).map(|nth| {
                let u = (f64::from(nth) + 0.5) / 1000.0;
                let z = pair[0] + (pair[1] - pair[0]) * u * u * (3.0 - 2.0 * u);
                let step = (pair[1] - pair[0]) * 6.0 * u * (1.0 - u) / 1000.0;
                let place = Point::new(z, curve.radius_at(z));
                let cut = section_at(place, &sets).map_or(0.0, |it| it.cut_away().area_mm2);
                [cut * step, cut * step * z]
            });
            each.fold([0.0, 0.0], |sum, it| [sum[0] + it[0], sum[1] + it[1]])
        };
        let all = stations.windows(2).map(slices);
        let [volume, first] = all.fold([0.0, 0.0], |sum, it| [sum[0] + it[0], sum[1] + it[1]]);
        let scale = PI * curve.bounds().max.r.powi(2) * (to - from);
        prop_assert!((found.volume_mm3 - volume).abs() < 1e-6 * scale, "{} {volume}", found.volume_mm3);
        prop_assert!((found.z_mm4 - first).abs() < 1e-6 * scale * to, "{} {first}", found.z_mm4);
        prop_assert!(found.volume_mm3 > -1e-9 * scale && found.volume_mm3 < scale * (1.0 + 1e-9));
    }

    #[test]
    fn the_low_outline_is_the_least_radius_of_any_section(curve in curves(), sets in sets(), share in 0.01..0.99_f64) {
        prop_assume!(!curve.is_vertical());
        let z = curve.start().z + share * (curve.end().z - curve.start().z);
        let place = Point::new(z, curve.radius_at(z));
        prop_assume!(sets.iter().all(|it| (it.from_mm - z).abs() > 1e-3 && (it.to_mm - z).abs() > 1e-3));
        let outside = Chain::single(Tag(0), curve);
        if let Some(section) = section_at(place, &sets) {
            let lows: Vec<Chain> = sets.iter().flat_map(|it| it.low(&outside, Tag(1))).collect();
            let low = envelope::smallest(&lows).iter().find_map(|it| it.radii_at(z)).unwrap().0;
            // Beside the place where a flat reaches the axis the outline is cut off to a few nanometres.
            let near = if section.low_mm() < 0.01 { 1e-5 } else { 1e-7 };
            prop_assert!((low - section.low_mm()).abs() < near, "{low}, {} wanted", section.low_mm());
        }
    }
}
