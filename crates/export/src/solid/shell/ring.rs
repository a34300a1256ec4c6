//! `Ring`: the outline of the solid in a plane square to its axis, at the end of a stretch.

use super::SAME_MM;
use super::cut::Cut;
use quillet_geometry::Point;
use std::f64::consts::TAU;

/// The corners and sides of a section at the end of a stretch; a side that ends there is a corner.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    /// The place of the turned outline.
    pub(super) place: Point,
    pub(super) corners: Vec<RingCorner>,
    /// The sides, each behind the corner of its number; none on the axis.
    pub(super) sides: Vec<RingSide>,
    /// Of each side of the stretch, the corner behind it.
    pub(super) corner_of: Vec<usize>,
    /// Of each side of the stretch, the side here; none where it ends in a corner.
    pub(super) side_of: Vec<Option<usize>>,
}

/// A corner of a ring.
#[derive(Clone, Copy, Debug)]
pub(super) struct RingCorner {
    /// `x` and `y`, mm.
    pub(super) at_mm: [f64; 2],
}

/// A side of a ring.
#[derive(Clone, Copy, Debug)]
pub(super) enum RingSide {
    /// Round the axis with a radius, mm.
    Round(f64),
    /// Straight, so far from the axis, mm, in a direction, rad.
    Straight(f64, f64),
}

impl RingCorner {
    /// Its direction, rad, in 0..2π.
    pub(super) fn angle(&self) -> f64 {
        let [x, y] = self.at_mm;
        y.atan2(x).rem_euclid(TAU)
    }

    /// From the axis, mm.
    pub(super) fn radius_mm(&self) -> f64 {
        let [x, y] = self.at_mm;
        x.hypot(y)
    }
}

impl RingSide {
    /// From the axis to it in a direction, mm.
    pub(super) fn radius_mm(&self, angle: f64) -> f64 {
        match self {
            RingSide::Round(radius) => *radius,
            RingSide::Straight(apothem, clock) => apothem / (angle - clock).cos(),
        }
    }
}

impl Ring {
    /// Of a cut at a place of the outside. None where all of its sides end in one corner, and that is not on the
    /// axis.
    pub(super) fn of(cut: &Cut, place: Point) -> Option<Ring> {
        let count = cut.sides.len();
        let at: Vec<[f64; 2]> = (0..count).map(|nth| cut.corner_mm(nth, place)).collect();
        let long = |nth: &usize| cut.length_mm(*nth, place) > SAME_MM;
        let kept: Vec<usize> = (0..count).filter(long).collect();
        let side = |nth: usize| match cut.facet(cut.sides[nth]) {
            None => RingSide::Round(place.r),
            Some(it) => RingSide::Straight(it.apothem_mm(place), it.clock),
        };
        if kept.is_empty() {
            return (place.r < SAME_MM).then(|| Ring {
                place,
                corners: vec![RingCorner { at_mm: [0.0; 2] }],
                sides: Vec::new(),
                corner_of: vec![0; count],
                side_of: vec![None; count],
            });
        }
        if !cut.is_parted(place) {
            return None;
        }
        // The corner of a number is behind the side that is kept under that number.
        let last = kept.len() - 1;
        let before = |nth: usize| kept.partition_point(|it| *it <= nth);
        let corner_of = (0..count).map(|nth| before(nth).checked_sub(1).unwrap_or(last));
        let side_of = (0..count).map(|nth| {
            let here = kept.binary_search(&nth).ok()?;
            Some(here.checked_sub(1).unwrap_or(last))
        });
        let sides = (0..kept.len()).map(|at| side(kept[(at + 1) % kept.len()]));
        let corners = kept.iter().map(|nth| RingCorner { at_mm: at[*nth] });
        Some(Ring {
            place,
            corners: corners.collect(),
            sides: sides.collect(),
            corner_of: corner_of.collect(),
            side_of: side_of.collect(),
        })
    }

    /// True where it is a place of the axis.
    pub(super) fn is_pole(&self) -> bool {
        self.sides.is_empty()
    }
}
