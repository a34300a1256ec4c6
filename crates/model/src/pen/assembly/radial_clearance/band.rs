//! A stretch of a surface between two stations.

use super::super::place::Placement;
use super::{ClearanceSide, Reach};
use crate::outline::Stretch;
use quillet_geometry::Tag;

/// A short stretch of a surface, as straight as makes no difference.
#[derive(Clone, Copy)]
pub(super) struct SurfaceBand {
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
    pub(super) from_r: f64,
    pub(super) to_r: f64,
    pub(super) tag: Tag,
    place: Placement,
}

impl SurfaceBand {
    pub(super) fn within(&self, reach: Reach) -> bool {
        self.from_mm >= reach.0 - 1e-6 && self.to_mm <= reach.1 + 1e-6
    }

    pub(super) fn radius_at(&self, z_mm: f64) -> f64 {
        if z_mm <= self.from_mm {
            return self.from_r;
        } else if z_mm >= self.to_mm {
            return self.to_r;
        }
        let share = (z_mm - self.from_mm) / (self.to_mm - self.from_mm);
        self.from_r + (self.to_r - self.from_r) * share
    }

    pub(super) fn least_r(&self) -> f64 {
        self.from_r.min(self.to_r)
    }

    pub(super) fn most_r(&self) -> f64 {
        self.from_r.max(self.to_r)
    }

    pub(super) fn is_level(&self) -> bool {
        self.from_r == self.to_r
    }

    pub(super) fn side(&self, z_mm: f64) -> ClearanceSide {
        ClearanceSide {
            station_mm: self.place.station(z_mm),
            radius_mm: self.radius_at(z_mm),
            tag: self.tag,
            beyond: false,
        }
    }

    /// Its fattest end.
    pub(super) fn fattest(&self) -> ClearanceSide {
        self.side(if self.to_r > self.from_r {
            self.to_mm
        } else {
            self.from_mm
        })
    }

    /// Its narrowest end.
    pub(super) fn narrowest(&self) -> ClearanceSide {
        self.side(if self.to_r < self.from_r {
            self.to_mm
        } else {
            self.from_mm
        })
    }
}

/// The bands parted at places, so that a hole left wider than its thread's crest is told from the
/// rest of that hole.
pub(super) fn parted(
    bands: Vec<SurfaceBand>,
    places: impl Iterator<Item = f64>,
) -> Vec<SurfaceBand> {
    places.fold(bands, |mut bands, z_mm| {
        for at in (0..bands.len()).rev() {
            let band = bands[at];
            if z_mm <= band.from_mm + 1e-6 || z_mm >= band.to_mm - 1e-6 {
                continue;
            }
            let (before, mut after) = (&mut bands[at], band);
            (before.to_mm, before.to_r) = (z_mm, band.radius_at(z_mm));
            (after.from_mm, after.from_r) = (z_mm, before.to_r);
            bands.insert(at + 1, after);
        }
        bands
    })
}

/// Stretches of a surface where they lie.
pub(super) fn bands(stretches: &[Stretch], place: Placement) -> Vec<SurfaceBand> {
    let laid = stretches.iter().map(|it| {
        let (from, to) = match place.reversed {
            true => (it.end, it.start),
            false => (it.start, it.end),
        };
        SurfaceBand {
            from_mm: place.of(from.z),
            to_mm: place.of(to.z),
            from_r: from.r,
            to_r: to.r,
            tag: it.tag,
            place,
        }
    });
    laid.collect()
}
