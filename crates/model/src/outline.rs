//! The outline of a part's metal, cut into pieces that other parts can run into.

mod stretches;

use crate::{End, Origin, Profiles, Solid};
use quillet_geometry::{Chain, Curve, Line, Point, Segment, Tag, put_in_order};
use std::sync::{Arc, OnceLock};
use stretches::{ending, short, straight, stretches};

pub(crate) use stretches::Stretch;

/// All of a part's surface that looks along the axis: faces, cones, curves; of cylinders
/// nothing, since what slides past them never meets them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Outline {
    pub(crate) pieces: Vec<OutlinePiece>,
    /// Where it begins and ends along the axis, mm.
    pub(crate) from_z: f64,
    pub(crate) to_z: f64,
    pub(crate) radii: Arc<Radii>,
}

/// A part's radii, on its own stations.
#[derive(Debug, Default)]
pub(crate) struct Radii {
    /// Of the outside.
    pub(crate) outer: Vec<Chain>,
    /// Of the bores.
    pub(crate) inner: Vec<Chain>,
    cut: CutRadii,
}

/// Outside and bores in stretches, each cut when it is first asked for.
#[derive(Debug, Default)]
struct CutRadii {
    straight: [OnceLock<Vec<Stretch>>; 2],
    ends: [OnceLock<[Vec<Stretch>; 2]>; 2],
    short: [OnceLock<Vec<Stretch>>; 2],
}

impl Radii {
    /// The outside, or the bores, in stretches that may slope.
    pub(crate) fn straight(&self, inside: bool) -> &[Stretch] {
        let known = &self.cut.straight[usize::from(inside)];
        known.get_or_init(|| stretches(self.chains(inside), straight))
    }

    /// Of the straight stretches those with which a surface ends, towards larger stations or smaller.
    pub(crate) fn ends(&self, inside: bool, larger: bool) -> &[Stretch] {
        let known = &self.cut.ends[usize::from(inside)];
        let of = |larger| ending(self.straight(inside), larger);
        &known.get_or_init(|| [of(false), of(true)])[usize::from(larger)]
    }

    /// The same in stretches that count as cylinders.
    pub(crate) fn short(&self, inside: bool) -> &[Stretch] {
        let known = &self.cut.short[usize::from(inside)];
        known.get_or_init(|| stretches(self.chains(inside), short))
    }

    fn chains(&self, inside: bool) -> &[Chain] {
        match inside {
            true => &self.inner,
            false => &self.outer,
        }
    }
}

/// A piece of an outline, which only grows or only falls in radius.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OutlinePiece {
    pub(crate) curve: Curve,
    /// What made the metal at it.
    pub(crate) origin: Origin,
    pub(crate) least_r: f64,
    pub(crate) most_r: f64,
    pub(crate) from_z: f64,
    pub(crate) to_z: f64,
    /// It looks towards larger `z`, away from its metal.
    pub(crate) faces_up: bool,
    /// Its part's stations run against the axis.
    pub(crate) reversed: bool,
}

/// A stretch where a thread is looked at by its root.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cored {
    pub(crate) from_mm: f64,
    pub(crate) to_mm: f64,
    pub(crate) inside: bool,
}

/// Within this, mm, two radii are one: sizes that agree pass each other.
const SAME: f64 = 1e-6;

impl Outline {
    /// The outline of a part with its threads at their crests, but those that lie in `cored`, from one
    /// station to another outside or inside, at their roots.
    pub(crate) fn of(profiles: &Profiles, cored: &[Cored]) -> Outline {
        let of_side = |inside: bool| -> Vec<(f64, f64)> {
            let here = cored.iter().filter(|it| it.inside == inside);
            here.map(|it| (it.from_mm, it.to_mm)).collect()
        };
        let outer = pared(
            &profiles.crest.outer,
            [&profiles.root.outer],
            &of_side(false),
        );
        let inner: Vec<Vec<Segment>> = match of_side(true) {
            none if none.is_empty() => profiles.crest.inner.iter().map(plain).collect(),
            some => {
                let root: Vec<&Chain> = profiles.root.inner.iter().collect();
                let crest = profiles.crest.inner.iter();
                crest
                    .map(|chain| pared(chain, root.iter().copied(), &some))
                    .collect()
            }
        };
        let mut outline = Outline::default();
        outline.surface(profiles, &outer, true);
        for bore in &inner {
            outline.surface(profiles, bore, false);
        }
        outline.faces(profiles, &outer, &inner);
        outline.radii = Arc::new(Radii {
            outer: Chain::new(outer).into_iter().collect(),
            inner: inner.into_iter().filter_map(Chain::new).collect(),
            cut: CutRadii::default(),
        });
        outline
    }

    /// With every radius less by so much: what a press squeezes past.
    pub(crate) fn shrunk(&self, by_mm: f64) -> Outline {
        let pieces = self.pieces.iter().filter_map(|piece| {
            Some(OutlinePiece {
                curve: piece.curve.raised(-by_mm)?,
                least_r: piece.least_r - by_mm,
                most_r: piece.most_r - by_mm,
                ..*piece
            })
        });
        Outline {
            pieces: pieces.collect(),
            from_z: self.from_z,
            to_z: self.to_z,
            radii: self.radii.clone(),
        }
    }

    /// The pieces of an unbroken surface, with the faces where its radius jumps; a face belongs to
    /// the side that has metal there.
    fn surface(&mut self, profiles: &Profiles, segments: &[Segment], outside: bool) {
        let mut before: Option<(Point, Tag)> = None;
        for segment in segments {
            let start = segment.curve.start();
            if let Some((end, tag)) = before {
                let after_has_metal = (start.r > end.r) == outside;
                let owner = if after_has_metal { segment.tag } else { tag };
                // A step looks away from the side that has metal.
                let faces_up = !after_has_metal;
                self.face(end.z, (end.r, start.r), faces_up, profiles.origin(owner));
            }
            for curve in segment.curve.monotone_pieces() {
                let faces_up = (curve.end().r < curve.start().r) == outside;
                self.push(curve, faces_up, profiles.origin(segment.tag));
            }
            before = Some((segment.curve.end(), segment.tag));
        }
    }

    /// The flat ends of the metal: the part's two faces and the bottoms of its bores.
    fn faces(&mut self, profiles: &Profiles, outer: &[Segment], inner: &[Vec<Segment>]) {
        let (Some(first), Some(last)) = (outer.first(), outer.last()) else {
            return;
        };
        let (start, end) = (first.curve.start(), last.curve.end());
        (self.from_z, self.to_z) = (start.z, end.z);
        let mut open = [0.0, 0.0];
        for bore in inner {
            let (Some(first), Some(last)) = (bore.first(), bore.last()) else {
                continue;
            };
            let (from, to) = (first.curve.start(), last.curve.end());
            if from.z <= start.z + SAME {
                open[0] = from.r;
            } else {
                self.face(from.z, (0.0, from.r), true, profiles.origin(first.tag));
            }
            if to.z >= end.z - SAME {
                open[1] = to.r;
            } else {
                self.face(to.z, (0.0, to.r), false, profiles.origin(last.tag));
            }
        }
        let ends = [Origin::Face(End::First), Origin::Face(End::Second)];
        self.face(start.z, (open[0], start.r), false, ends[0]);
        self.face(end.z, (open[1], end.r), true, ends[1]);
    }

    fn face(&mut self, z: f64, radii: (f64, f64), faces_up: bool, origin: Origin) {
        let (low, high) = (radii.0.min(radii.1), radii.0.max(radii.1));
        let line = Line {
            start: Point::new(z, low),
            end: Point::new(z, high),
        };
        self.push(Curve::Line(line), faces_up, origin);
    }

    fn push(&mut self, curve: Curve, faces_up: bool, origin: Origin) {
        let (start, end) = (curve.start(), curve.end());
        let (least_r, most_r) = (start.r.min(end.r), start.r.max(end.r));
        if most_r - least_r > SAME {
            let (from_z, to_z) = (start.z, end.z);
            self.pieces.push(OutlinePiece {
                curve,
                origin,
                least_r,
                most_r,
                from_z,
                to_z,
                faces_up,
                reversed: false,
            });
        }
    }
}

/// The pieces of a chain that are no faces.
fn plain(chain: &Chain) -> Vec<Segment> {
    chain
        .segments()
        .iter()
        .filter(|segment| !segment.curve.is_vertical())
        .copied()
        .collect()
}

/// The pieces of a chain, those between the stations of `stretches` taken from `deeper` instead.
fn pared<'a>(
    chain: &Chain,
    deeper: impl IntoIterator<Item = &'a Chain> + Clone,
    stretches: &[(f64, f64)],
) -> Vec<Segment> {
    let mut segments = plain(chain);
    for (from, to) in stretches {
        let apart = |segment: &Segment| {
            let before = segment.curve.between(f64::NEG_INFINITY, *from);
            let after = segment.curve.between(*to, f64::INFINITY);
            let parts = [before, after].into_iter().flatten();
            parts
                .map(|curve| Segment { curve, ..*segment })
                .filter(is_any)
                .collect::<Vec<_>>()
        };
        let (least, most) = (chain.start().z, chain.end().z);
        segments = segments.iter().flat_map(apart).collect();
        for other in deeper.clone() {
            segments.extend(
                other
                    .between(from.max(least), to.min(most))
                    .iter()
                    .flat_map(plain)
                    .filter(is_any),
            );
        }
        put_in_order(&mut segments, |it| it.curve.start().z);
    }
    segments
}

/// Whether a segment is more than what rounding leaves where two sums come to one station.
fn is_any(segment: &Segment) -> bool {
    segment.curve.end().z - segment.curve.start().z > ROUNDING
}

/// Far below a nanometre, mm.
const ROUNDING: f64 = 1e-10;

impl Solid {
    /// The radius of the bore at a station, 0 where it is solid.
    pub fn bore_radius(&self, station_mm: f64) -> f64 {
        let at = |chain: &Chain| chain.greatest_at(station_mm);
        self.inner.iter().filter_map(at).fold(0.0, f64::max)
    }
}
