//! A share of what was counted, and how well it is known.

/// So many of so many.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    /// How many.
    pub count: u32,
    /// Of how many.
    pub of: u32,
}

/// 19 of 20 lie within so many standard deviations of a normal distribution.
const WITHIN: f64 = 1.959_963_984_540_054;

impl Share {
    /// From 0 to 1.
    pub fn value(self) -> f64 {
        f64::from(self.count) / f64::from(self.of.max(1))
    }

    /// Between what the true share lies in 19 of 20 such counts: Wilson's interval (Probable inference, the
    /// law of succession, and statistical inference, 1927). A little wide for a Latin hypercube, whose
    /// counts scatter less.
    pub fn wilson(self) -> (f64, f64) {
        let (n, p, z2) = (f64::from(self.of.max(1)), self.value(), WITHIN * WITHIN);
        let middle = (p + z2 / (2.0 * n)) / (1.0 + z2 / n);
        let half = WITHIN / (1.0 + z2 / n) * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt();
        ((middle - half).max(0.0), (middle + half).min(1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_range_of_a_share_is_wilsons() {
        // Newcombe, Two-sided confidence intervals for the single proportion (1998), table I, method 3.
        for (count, of, low, high) in [
            (81, 263, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            let found = Share { count, of }.wilson();
            let apart = (found.0 - low).abs().max((found.1 - high).abs());
            assert!(apart < 5.1e-5, "{count} of {of}: {found:?}");
        }
    }
}
