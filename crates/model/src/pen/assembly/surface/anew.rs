//! The pieces of a surface drawn anew, each as a whole, with the sizes of the part off.

use super::spot::SurfaceSpot;
use super::{Surface, ThreadEnd};
use crate::pen::assembly::chain::Drift;
use crate::{Cut, Origin, StationId};
use quillet_geometry::{Chain, Curve, Point, Segment};

/// A piece of a surface as it is drawn, to be drawn anew.
pub(crate) enum Piece<'p> {
    /// A straight one that moves with its ends.
    Straight([End; 2]),
    /// What other cuts leave of a taper.
    Taper([End; 2], Left),
    /// What other cuts and broken corners leave of the outside that comes to a station.
    Outside(Surface<'p>, StationId, Left),
}

/// An end of a straight line, and how it moves along the axis and across it.
pub(crate) type End = (Point, (Drift, Drift));
/// Where a piece begins and ends along the axis, mm, and how that moves.
pub(crate) type Left = [(f64, Drift); 2];

impl Piece<'_> {
    /// The piece with its sizes off: `off` is by how much something moves, mm.
    pub(crate) fn drawn(&self, off: &dyn Fn(&Drift) -> f64) -> Vec<Curve> {
        let line = |ends: &[End; 2]| {
            let [start, end] = ends
                .each_ref()
                .map(|(at, (along, across))| *at + Point::new(off(along), off(across)));
            Curve::line(start, end)
        };
        let left = |curve: &Curve, ends: &Left| {
            let [from, to] = ends.each_ref().map(|(z, along)| z + off(along));
            curve.between(from, to)
        };
        match self {
            Piece::Straight(ends) => vec![line(ends)],
            Piece::Taper(whole, ends) => left(&line(whole), ends).into_iter().collect(),
            Piece::Outside(surface, index, ends) => {
                let whole = surface.redrawn(*index, off);
                let sloping = whole.iter().filter(|it| !it.is_vertical());
                sloping.filter_map(|it| left(it, ends)).collect()
            }
        }
    }
}

impl<'p> Surface<'p> {
    /// The pieces of a surface, by what made it, on which a place lies; of an outside, with all others
    /// of it that lie as they do, along the axis or square to it.
    pub(crate) fn pieces_at(self, inside: bool, origin: Origin, at: Point) -> Vec<Piece<'p>> {
        let Some(profiles) = &self.part.profiles else {
            return Vec::new();
        };
        let solid = match self.threads {
            ThreadEnd::Crest => &profiles.crest,
            ThreadEnd::Root => &profiles.root,
        };
        let chains = match inside {
            true => solid.inner.as_slice(),
            false => std::slice::from_ref(&solid.outer),
        };
        let pieces = chains.iter().flat_map(Chain::segments);
        let own: Vec<&Segment> = pieces
            .filter(|it| profiles.origin(it.tag) == origin)
            .collect();
        let here = |it: &Segment| it.curve.nearest(at).distance(at) < 2.0 * super::SAME_MM;
        let any = |flat| {
            own.iter()
                .any(|it| it.curve.is_vertical() == flat && here(it))
        };
        let (flat, sloping) = (any(true), any(false));
        let counts = |it: &&&Segment| match (origin, it.curve.is_vertical()) {
            (Origin::Outside(_), true) => flat,
            (Origin::Outside(_), false) => sloping,
            _ => here(it),
        };
        let counted = own.iter().filter(counts);
        counted.map(|it| self.piece(inside, origin, it)).collect()
    }

    fn piece(self, inside: bool, origin: Origin, segment: &Segment) -> Piece<'p> {
        let moves = |place| SurfaceSpot::of(self, inside, origin, place).moves();
        let ends = [segment.curve.start(), segment.curve.end()];
        let straight = || Piece::Straight(ends.map(|place| (place, moves(place))));
        let left = || ends.map(|place| (place.z, moves(place).0));
        if segment.curve.is_vertical() {
            return straight();
        }
        if let Origin::Outside(index) = origin {
            return Piece::Outside(self, index, left());
        }
        let cut = origin.feature().and_then(|it| self.part.features.get(it));
        match (origin, cut) {
            (Origin::Feature(_), Some(cut)) => match cut.cut {
                Cut::Taper { from_dia, to_dia } => {
                    let end = |inward, dia, second| {
                        let at = self.part.station(cut.end, inward);
                        let moves = (self.plane(true, at), self.radius(origin, second));
                        (Point::turned(at, dia), moves)
                    };
                    let whole = [end(cut.from, from_dia, false), end(cut.to, to_dia, true)];
                    Piece::Taper(whole, left())
                }
                _ => straight(),
            },
            _ => straight(),
        }
    }
}
