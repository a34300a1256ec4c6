//! R'40: the preferred numbers to which ISO 965-1 rounds its formulas.

/// One decade of R'40 (ISO 497), in whole micrometres from 10 to 95.
const DECADE: [f64; 40] = [
    10.0, 10.6, 11.2, 11.8, 12.5, 13.2, 14.0, 15.0, 16.0, 17.0, 18.0, 19.0, 20.0, 21.2, 22.4, 23.6,
    25.0, 26.5, 28.0, 30.0, 31.5, 33.5, 35.5, 37.5, 40.0, 42.5, 45.0, 47.5, 50.0, 53.0, 56.0, 60.0,
    63.0, 67.0, 71.0, 75.0, 80.0, 85.0, 90.0, 95.0,
];

/// The preferred number nearest to `um` micrometres, whole as ISO 965-1 writes them: below 100
/// the series goes 10, 11, 12, 13, 14, 15 … 21, 22, 24, 25, 26 … Half way goes up.
pub(super) fn nearest_um(um: f64) -> i64 {
    if um <= 0.0 {
        return 0;
    }
    let decade = 10f64.powi(um.log10().floor() as i32 - 1);
    DECADE
        .iter()
        .map(|number| number * decade)
        .chain([100.0 * decade])
        .map(f64::round_ties_even)
        .rev()
        .min_by(|a, b| (a - um).abs().total_cmp(&(b - um).abs()))
        .unwrap_or(um) as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The series as `thread_tolerance_formulas.md` of the reference prints it.
    #[test]
    fn whole_numbers_of_the_series_are_kept() {
        for number in [
            20, 21, 22, 24, 25, 26, 28, 30, 32, 34, 36, 38, 40, 42, 45, 48, 50, 53, 56, 60, 63, 67,
            71, 75, 80, 85, 90, 95, 100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190,
            200, 212, 224, 236, 250, 265, 280, 300, 315, 335, 355, 375, 400, 425, 450, 475, 500,
        ] {
            assert_eq!(nearest_um(f64::from(number)), i64::from(number));
        }
        assert_eq!(nearest_um(0.0), 0);
        assert_eq!(nearest_um(20.5), 21);
        assert_eq!(nearest_um(233.3), 236);
        assert_eq!(nearest_um(98.0), 100);
    }
}
