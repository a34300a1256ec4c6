//! Where a surface stands, and by how much it may stand elsewhere.

use super::super::chain::Drift;
use super::super::contact::SurfacePoint;
use super::super::settle::Bodies;
use super::super::surface::Surface;
use crate::Origin;
use crate::outline::OutlinePiece;
use quillet_geometry::Length;

/// A place of a surface, on the part's own stations.
pub(super) struct SurfaceStation<'p> {
    pub(super) surface: Surface<'p>,
    /// How it moves along the part at its radius.
    pub(super) shift: Drift,
    /// dz/dr there.
    pub(super) lean: f64,
    /// 1 where the part's stations run with the axis, else -1.
    pub(super) way: f64,
}

impl<'p> SurfaceStation<'p> {
    pub(super) fn of(
        bodies: &'p Bodies,
        spot: &SurfacePoint,
        piece: &OutlinePiece,
    ) -> SurfaceStation<'p> {
        let surface = bodies.surface(spot.part);
        let inside = piece
            .origin
            .feature()
            .and_then(|index| surface.part.features.get(index))
            .is_some_and(crate::Feature::is_inside);
        let station = Length::mm(spot.station_mm);
        let way = if piece.reversed { -1.0 } else { 1.0 };
        let flat = |station| SurfaceStation {
            surface,
            shift: surface.plane(inside, station),
            lean: 0.0,
            way,
        };
        if piece.curve.is_vertical() {
            return flat(station);
        }
        // The curve lies on the joint's axis; its slope is turned back to the part's.
        let slope = way * piece.curve.slope_at_r(spot.radius_mm);
        if slope == 0.0 {
            return flat(station);
        }
        if slope.abs() > STEEP {
            let pole = match piece.origin {
                Origin::Outside(index) => surface.part.stations.get(index).map(|it| it.at),
                _ => None,
            };
            return flat(pole.unwrap_or(station));
        }
        let across = surface.across(piece.origin, spot.station_mm, slope);
        SurfaceStation {
            surface,
            shift: across.times(-1.0 / slope),
            lean: 1.0 / slope,
            way,
        }
    }
}

/// Steeper than this a curve is a face.
const STEEP: f64 = 1e4;
