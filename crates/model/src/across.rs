//! What a set of flats measures: across flats, across corners, and as calipers read it.

use crate::{Profiles, SideId};
use quillet_geometry::Point;
use quillet_geometry::section::Flats;

/// A set of flats as it is measured, at both ends of its stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AcrossFlats {
    /// The statement.
    pub side: SideId,
    /// How many flats.
    pub count: u32,
    /// Where they begin and end, stations, mm.
    pub stretch_mm: [f64; 2],
    /// Twice the distance of a flat from the axis, mm.
    pub across_mm: [f64; 2],
    /// Twice the greatest radius, mm.
    pub corners_mm: [f64; 2],
}

impl AcrossFlats {
    /// What calipers read with one jaw on a flat, mm: across two flats where their number is even,
    /// else from a flat to the corner or the round that lies opposite.
    pub fn calipers_mm(&self) -> [f64; 2] {
        match self.count % 2 {
            0 => self.across_mm,
            _ => [0, 1].map(|at| (self.across_mm[at] + self.corners_mm[at]) / 2.0),
        }
    }
}

impl Profiles {
    /// What each set of flats measures, those left out that cut nothing.
    pub fn across_flats(&self) -> Vec<AcrossFlats> {
        let sets = self.not_round.flats.iter();
        sets.filter_map(|(side, set)| self.across(*side, set))
            .collect()
    }

    fn across(&self, side: SideId, set: &Flats) -> Option<AcrossFlats> {
        // Just inside, past a step at either end.
        let inside = |end: f64, other: f64| end + (other - end) * 1e-6;
        let measured = |z: f64| {
            let (round, _) = self.metal.outer.radii_at(z)?;
            let apothem = set.apothem_mm(Point::new(z, round)).min(round);
            let corner = apothem / (std::f64::consts::PI / f64::from(set.count)).cos();
            let high = if set.count > 2 {
                corner.min(round)
            } else {
                round
            };
            Some([2.0 * apothem, 2.0 * high])
        };
        let from = measured(inside(set.from_mm, set.to_mm))?;
        let to = measured(inside(set.to_mm, set.from_mm))?;
        let cuts = from[0] < from[1] || to[0] < to[1];
        cuts.then_some(AcrossFlats {
            side,
            count: set.count,
            stretch_mm: [set.from_mm, set.to_mm],
            across_mm: [from[0], to[0]],
            corners_mm: [from[1], to[1]],
        })
    }

    /// Twice the least radius round the turn at a station, mm: what the part measures there across
    /// its flats, or its diameter.
    pub fn across_at_mm(&self, z_mm: f64) -> Option<f64> {
        let low = self.root.outer.segment_at(z_mm)?;
        let of = match self.origin(low.tag) {
            crate::Origin::Side(_) => low.curve.radius_at(z_mm),
            _ => self.crest.outer.radii_at(z_mm)?.1,
        };
        Some(2.0 * of)
    }
}
