//! What is seen of a part in a work.

use crate::Placement;
use quillet_geometry::Chain;

/// A chain of a part as it lies along the work.
pub(super) fn laid(chain: &Chain, place: Placement) -> Chain {
    match place.reversed {
        false => chain.moved(place.offset_mm),
        true => chain.reversed(place.offset_mm),
    }
}

/// Whether a surface of this radius at a place of the work is its outside.
pub(super) fn shows(turned: &Chain, at_mm: f64, radius_mm: f64) -> bool {
    let most = turned.least_at(at_mm).unwrap_or(0.0);
    radius_mm >= most - SAME_MM
}

/// Radii nearer than this are one, mm.
pub(super) const SAME_MM: f64 = 1e-6;
