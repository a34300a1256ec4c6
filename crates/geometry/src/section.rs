//! `Section`: a disc with flats on it, square to the axis.

mod chord;
mod flats;

pub use flats::{Apothem, Flats, cut_away, section_at};

use crate::put_in_order;
use crate::side::Strip;
use chord::Chord;
use std::f64::consts::PI;

/// One flat of a section: the part of the disc beyond a straight edge is cut away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flat {
    /// From the axis to the edge, mm.
    pub apothem_mm: f64,
    /// Where its middle faces, degrees clockwise of the mark, looking at the first end.
    pub clock_deg: f64,
}

/// A disc cut by flats: what is left, a convex shape round the axis.
///
/// Exact: the outline is the arcs and chords it is made of. `x` runs through the mark, `y` a
/// quarter turn clockwise from it, looking at the first end.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    radius_mm: f64,
    chords: Vec<Chord>,
}

/// A straight side of a section's outline, which one flat leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatSide {
    /// Which of the flats that were given, from 0.
    pub nth: usize,
    /// From its one end to the other, mm.
    pub length_mm: f64,
    /// The directions of its ends, degrees clockwise of the mark: the first in 0..360, the last after it.
    pub ends_deg: [f64; 2],
}

/// Integrals over a part of a plane section.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Plane {
    /// Area, mm².
    pub area_mm2: f64,
    /// ∫x dA, mm³.
    pub x_mm3: f64,
    /// ∫y dA, mm³.
    pub y_mm3: f64,
    /// ∫x² dA, mm⁴.
    pub xx_mm4: f64,
    /// ∫y² dA, mm⁴.
    pub yy_mm4: f64,
    /// ∫xy dA, mm⁴.
    pub xy_mm4: f64,
}

impl Section {
    /// A disc cut by flats in any number and at any angles. A flat outside the disc, or outside
    /// what other flats leave, cuts nothing.
    ///
    /// None where a size is not a number or a flat does not leave the axis inside.
    pub fn cut(radius_mm: f64, flats: &[Flat]) -> Option<Section> {
        let good = |flat: &Flat| {
            flat.apothem_mm > 0.0 && flat.apothem_mm.is_finite() && flat.clock_deg.is_finite()
        };
        let possible = radius_mm > 0.0 && radius_mm.is_finite() && flats.iter().all(good);
        possible.then(|| {
            let near: Vec<(usize, Flat)> = flats
                .iter()
                .copied()
                .enumerate()
                .filter(|(_, flat)| flat.apothem_mm < radius_mm)
                .collect();
            let chords = Chord::all(radius_mm, &near);
            Section { radius_mm, chords }
        })
    }

    /// A disc cut by `count` flats, evenly spaced from the first one.
    ///
    /// None as for [`Section::cut`].
    pub fn evenly(radius_mm: f64, first: Flat, count: u32) -> Option<Section> {
        let flats: Vec<Flat> = evenly(first, count).collect();
        Section::cut(radius_mm, &flats)
    }

    /// The integrals over what the flats cut away.
    pub fn cut_away(&self) -> Plane {
        self.chords
            .iter()
            .map(|chord| chord.beyond(self.radius_mm))
            .sum()
    }

    /// The integrals over what is left; the centroid is `x_mm3 / area_mm2`, `y_mm3 / area_mm2`.
    pub fn left(&self) -> Plane {
        let square = self.radius_mm * self.radius_mm;
        let cut = self.cut_away();
        Plane {
            area_mm2: PI * square - cut.area_mm2,
            x_mm3: -cut.x_mm3,
            y_mm3: -cut.y_mm3,
            xx_mm4: PI / 4.0 * square * square - cut.xx_mm4,
            yy_mm4: PI / 4.0 * square * square - cut.yy_mm4,
            xy_mm4: -cut.xy_mm4,
        }
    }

    /// The greatest radius of the outline, mm: half of what it measures across corners.
    pub fn high_mm(&self) -> f64 {
        if self.has_arc() {
            return self.radius_mm;
        }
        let corners = self.chords.iter().flat_map(Chord::ends_mm);
        corners.fold(0.0, f64::max).min(self.radius_mm)
    }

    /// The least radius of the outline, mm: half of what it measures across flats.
    pub fn low_mm(&self) -> f64 {
        let nearest = self.chords.iter().map(Chord::nearest_mm);
        nearest.fold(self.radius_mm, f64::min)
    }

    /// The radius of the outline in a direction, degrees clockwise of the mark, mm.
    pub fn radius_at_mm(&self, clock_deg: f64) -> f64 {
        let edges = self
            .chords
            .iter()
            .filter_map(|chord| chord.at_mm(clock_deg));
        edges.fold(self.radius_mm, f64::min)
    }

    /// How far from the axis the outline lies along `x` in the direction `clock_deg`, `y_mm` to
    /// its clockwise side, mm: where a drill beside the middle comes out. Zero beside the disc.
    pub fn reach_mm(&self, clock_deg: f64, y_mm: f64) -> f64 {
        let round = (self.radius_mm * self.radius_mm - y_mm * y_mm)
            .max(0.0)
            .sqrt();
        let edges = self
            .chords
            .iter()
            .filter_map(|it| it.reach_mm(clock_deg, y_mm));
        edges.fold(round, f64::min)
    }

    /// What it is towards a cut from a direction.
    pub(crate) fn towards(&self, clock_deg: f64) -> Strip {
        let mut strip = Strip::round(self.radius_mm);
        for chord in &self.chords {
            chord.bound(clock_deg, &mut strip);
        }
        strip
    }

    /// The directions in which the outline has an edge, degrees in 0..360, in order: the ends of
    /// its chords, where a mesh wants its lines.
    pub fn corners_deg(&self) -> Vec<f64> {
        let mut corners: Vec<f64> = self.chords.iter().flat_map(Chord::directions_deg).collect();
        corners.sort_by(f64::total_cmp);
        corners.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
        if let (Some(first), Some(last)) = (corners.first(), corners.last())
            && corners.len() > 1
            && first + 360.0 - last < 1e-9
        {
            corners.pop();
        }
        corners
    }

    /// The straight sides of the outline in the order in which they lie round the axis.
    pub fn flat_sides(&self) -> Vec<FlatSide> {
        let mut sides: Vec<FlatSide> = self.chords.iter().map(Chord::side).collect();
        put_in_order(&mut sides, |it| it.ends_deg[0]);
        sides
    }

    /// True where some of the disc's own outline is left.
    fn has_arc(&self) -> bool {
        let taken: f64 = self.chords.iter().map(Chord::angle).sum();
        taken < 2.0 * PI - 1e-9
    }
}

/// Flats spaced evenly from the first one.
fn evenly(first: Flat, count: u32) -> impl Iterator<Item = Flat> {
    (0..count).map(move |nth| Flat {
        clock_deg: first.clock_deg + 360.0 * f64::from(nth) / f64::from(count),
        ..first
    })
}

impl std::iter::Sum for Plane {
    fn sum<I: Iterator<Item = Plane>>(parts: I) -> Plane {
        parts.fold(Plane::default(), |sum, part| Plane {
            area_mm2: sum.area_mm2 + part.area_mm2,
            x_mm3: sum.x_mm3 + part.x_mm3,
            y_mm3: sum.y_mm3 + part.y_mm3,
            xx_mm4: sum.xx_mm4 + part.xx_mm4,
            yy_mm4: sum.yy_mm4 + part.yy_mm4,
            xy_mm4: sum.xy_mm4 + part.xy_mm4,
        })
    }
}

#[cfg(test)]
mod tests;
