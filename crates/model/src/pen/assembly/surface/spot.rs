//! A place of a surface that something is measured from, and how it moves with the sizes.

use super::{SAME_MM, Surface, ThreadEnd};
use crate::Origin;
use crate::pen::assembly::chain::Drift;
use quillet_geometry::{Length, Point, Segment};

/// A place of a part's surface, on the part's own stations.
#[derive(Clone, Copy)]
pub(crate) struct SurfaceSpot<'p> {
    surface: Surface<'p>,
    /// What made the surface.
    origin: Origin,
    at: Point,
    /// The surface is one of a bore.
    inside: bool,
    lies: Lies,
}

/// How a surface lies at a place.
#[derive(Clone, Copy)]
enum Lies {
    /// Square to the axis.
    Flat,
    /// Its radius grows so much with the station, mm a mm; it goes on both ways.
    Amid(f64),
    /// The same, where it ends.
    End(f64),
}

/// Steeper than this a curve is a face.
const STEEP: f64 = 1e4;
/// A place is kept to the nanometre.
const NEAR_MM: f64 = 2.0 * SAME_MM;

impl<'p> SurfaceSpot<'p> {
    /// The place of a surface by what made it. One that no piece of it comes to, as an end's face,
    /// is flat.
    pub(crate) fn of(surface: Surface<'p>, inside: bool, origin: Origin, at: Point) -> Self {
        let lies = lies(surface, inside, origin, at);
        SurfaceSpot {
            surface,
            origin,
            at,
            inside,
            lies,
        }
    }

    /// How far it moves along a unit vector, by the sizes of its own surface: of a place amid it,
    /// only what the surface moves square to itself counts; of an end, where it ends.
    pub(crate) fn along(self, way: Point) -> Drift {
        let (along, across) = self.moves();
        across.times(way.r).plus(way.z, &along)
    }

    /// How far it moves along the axis and across it; amid a surface, only across.
    pub(crate) fn moves(self) -> (Drift, Drift) {
        match self.lies {
            Lies::Flat => (self.plane(), self.corner()),
            Lies::Amid(slope) => (Drift::default(), self.across(slope)),
            Lies::End(slope) => {
                let plane = self.plane();
                let radius = self.end_radius(slope, &plane);
                (plane, radius)
            }
        }
    }

    /// How its radius moves where another surface's end, of which the plane moves so, lies over it.
    pub(crate) fn radius_at(self, plane: &Drift) -> Drift {
        match self.lies {
            Lies::Flat => self.corner(),
            Lies::Amid(slope) => self.across(slope).plus(slope, plane),
            Lies::End(slope) => self.end_radius(slope, &self.plane()),
        }
    }

    /// How the plane moves in which its surface ends; none where it goes on.
    pub(crate) fn ends(self) -> Option<Drift> {
        (!matches!(self.lies, Lies::Amid(_))).then(|| self.plane())
    }

    fn across(self, slope: f64) -> Drift {
        self.surface.across(self.origin, self.at.z, slope)
    }

    fn corner(self) -> Drift {
        self.surface.corner(self.at.z, self.at.r)
    }

    /// How the radius moves in which a surface ends at a plane.
    fn end_radius(self, slope: f64, plane: &Drift) -> Drift {
        match (self.origin, slope.abs() > STEEP) {
            // A dome comes to its lesser diameter square to the axis.
            (Origin::Outside(index), true) => self.surface.ending(index, self.at.z),
            (_, true) => self.corner(),
            _ => self.across(slope).plus(slope, plane),
        }
    }

    /// How the place moves along the axis, were it the end of its surface.
    fn plane(self) -> Drift {
        // The tip of a drill's point, or of a countersink that is deeper, lies where its cone closes.
        if let (Origin::DrillPoint(_) | Origin::FeatureEdge(_), Lies::End(slope)) =
            (self.origin, self.lies)
            && self.at.r < NEAR_MM
        {
            return self.across(slope).times(-1.0 / slope);
        }
        self.surface.plane(self.inside, Length::mm(self.at.z))
    }
}

fn lies(surface: Surface, inside: bool, origin: Origin, at: Point) -> Lies {
    let Some(profiles) = &surface.part.profiles else {
        return Lies::Flat;
    };
    let solid = match surface.threads {
        ThreadEnd::Crest => &profiles.crest,
        ThreadEnd::Root => &profiles.root,
    };
    let chains = match inside {
        true => solid.inner.as_slice(),
        false => std::slice::from_ref(&solid.outer),
    };
    let own = |it: &&Segment| profiles.origin(it.tag) == origin;
    let near = chains.iter().flat_map(|it| it.near(at.z, NEAR_MM));
    let mut pieces = near.filter(own);
    let mut end = None;
    let amid = pieces.find_map(|it| {
        let curve = &it.curve;
        let (from, to) = (curve.start(), curve.end());
        let corner = from.distance(at) < NEAR_MM || to.distance(at) < NEAR_MM;
        if curve.is_vertical() {
            let (low, high) = (from.r.min(to.r), from.r.max(to.r));
            let on = (at.z - from.z).abs() < NEAR_MM && low < at.r && at.r < high;
            return (on && !corner).then_some(Lies::Flat);
        }
        if corner {
            let slope = curve.slope(if from.distance(at) < NEAR_MM {
                0.0
            } else {
                1.0
            });
            end = end.or(Some(Lies::End(slope)));
            return None;
        }
        let within = from.z < at.z && at.z < to.z;
        let on = within && (curve.radius_at(at.z) - at.r).abs() < NEAR_MM;
        on.then(|| Lies::Amid(curve.slope(curve.param_at_z(at.z))))
    });
    amid.or(end).unwrap_or(Lies::Flat)
}
