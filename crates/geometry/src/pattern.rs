//! `Pattern`: a knurl or another pattern cut into a stretch of the outside.

use crate::section::{Apothem, Flats};
use crate::{Chain, Moments, Properties, Tag};

/// A pattern of grooves of one depth: the crests stay where the outside was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pattern {
    /// Where it begins, mm.
    pub from_mm: f64,
    /// Where it ends, after that, mm.
    pub to_mm: f64,
    /// From the crests to the floors, mm.
    pub deep_mm: f64,
    /// How much of the ring between them is cut away, 0 to 1.
    pub share: f64,
}

impl Pattern {
    /// The outside at the floors of the grooves.
    pub fn low(&self, outside: &Chain, tag: Tag) -> Vec<Chain> {
        let below = Flats {
            from_mm: self.from_mm,
            to_mm: self.to_mm,
            apothem: Apothem::Below(self.deep_mm),
            count: 1,
            clock_deg: 0.0,
        };
        below.low(outside, tag)
    }

    /// What it takes from a turned outside: its share of the ring.
    pub fn removed(&self, outside: &[Chain]) -> Moments {
        let low: Vec<Chain> = outside.iter().flat_map(|it| self.low(it, Tag(0))).collect();
        let ring = Properties::of_stretch(outside, &low, self.from_mm, self.to_mm);
        Moments::from(ring) * self.share
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Point;
    use std::f64::consts::PI;

    #[test]
    fn half_of_a_ring_goes_and_the_crests_stay() {
        let rod = [Point::new(0.0, 7.0), Point::new(20.0, 7.0)];
        let rod = Chain::polyline(Tag(0), &rod).unwrap();
        let knurl = Pattern {
            from_mm: 4.0,
            to_mm: 12.0,
            deep_mm: 0.25,
            share: 0.5,
        };
        let taken = knurl.removed(std::slice::from_ref(&rod));
        let ring = PI * (49.0 - 6.75 * 6.75) * 8.0;
        assert!((taken.volume_mm3 / ring - 0.5).abs() < 1e-12);
        assert!((taken.z_mm4 / taken.volume_mm3 - 8.0).abs() < 1e-12);
        let low = knurl.low(&rod, Tag(1));
        assert_eq!(low[0].radii_at(8.0), Some((6.75, 6.75)));
        assert_eq!(low[0].radii_at(15.0), Some((7.0, 7.0)));
    }
}
