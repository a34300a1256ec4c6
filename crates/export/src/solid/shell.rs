//! The boundary of a solid with flats on its outside: faces that share their edges, edges that share
//! their ends.
//!
//! The outline is walked with the solid on its right. Each stretch of it sweeps faces that lie side by side
//! round the axis; where two stretches meet, both end in a ring, and what lies between the rings, square to the
//! axis, is a face too. A face is on the left of its edges seen from outside: the ring that a face comes from
//! runs forwards, clockwise with the flats, and the one it goes to backwards.

mod cut;
mod joint;
mod ring;
mod side;
mod spline;

use super::outline::{Edge, EdgeLoop, on_axis};
use super::stretches::stretches;
use cut::Cut;
use joint::{Joined, join};
use quillet_geometry::Point;
use quillet_geometry::section::Flats;
use ring::Ring;
pub(super) use spline::Spline;

/// Nearer than this two corners of a solid are one, mm: more than a rounding moves the end of a flat that runs
/// out, less than anything that is made.
const SAME_MM: f64 = 1e-5;

/// A closed surface.
#[derive(Clone, Debug, Default)]
pub(super) struct Shell {
    /// Corners, mm.
    pub(super) corners: Vec<[f64; 3]>,
    pub(super) edges: Vec<Rim>,
    pub(super) faces: Vec<Face>,
}

/// An edge of a shell, from one of its corners to another, or round to the same.
#[derive(Clone, Debug)]
pub(super) struct Rim {
    pub(super) ends: [usize; 2],
    pub(super) curve: RimCurve,
}

/// The curve that an edge lies on.
#[derive(Clone, Debug)]
pub(super) enum RimCurve {
    Line,
    /// Round the axis at a station with a radius, with the clock.
    Round(Point),
    /// Where what is turned begins and ends: the outline itself, in a direction, rad.
    Seam(Edge, f64),
    Spline(Spline),
}

/// A face of a shell.
#[derive(Clone, Debug)]
pub(super) struct Face {
    pub(super) surface: FaceSurface,
    /// Its bounds, the outer one first: edges, and whether each is taken from its beginning.
    pub(super) bounds: Vec<Vec<(usize, bool)>>,
}

/// The surface that a face lies on.
#[derive(Clone, Debug)]
pub(super) enum FaceSurface {
    /// As turned, all round, or in part: then with the direction opposite its middle, rad.
    Turned(Edge, Option<f64>),
    /// Square to the axis at a station, the solid before it (true) or behind it.
    Square(f64, bool),
    /// A plane through a place; out of the solid; along it.
    Plane([[f64; 3]; 3]),
    /// A curve moved straight along; the surface's own normal points out of the solid.
    Ruled(Spline, [f64; 3]),
}

/// A piece of the outline, cut alike all along.
#[derive(Clone, Debug)]
struct Swept {
    edge: Edge,
    cut: Cut,
}

impl Swept {
    fn ends(&self) -> Option<[Ring; 2]> {
        let ring = |place: Point| Ring::of(&self.cut, place);
        Some([ring(self.edge.from())?, ring(self.edge.to())?])
    }
}

impl Shell {
    /// Of a run with flats on what is outside; none where it cannot be told what they leave: where one reaches
    /// the axis, or what is inside.
    pub(super) fn of(run: &EdgeLoop, sets: &[Flats]) -> Option<Shell> {
        let (edges, mut swept) = (run.edges.iter(), Vec::new());
        for edge in edges.filter(|it| !it.is_face()) {
            swept.extend(pieces(edge, sets)?);
        }
        let rings: Option<Vec<[Ring; 2]>> = swept.iter().map(Swept::ends).collect();
        let rings = rings?;
        let mut shell = Shell::default();
        let joined = shell.joints(run, &swept, &rings)?;
        let stretches = swept.iter().zip(&rings).zip(joined.windows(2));
        for ((swept, rings), joined) in stretches {
            let [(_, from), (to, _)] = joined else {
                return None;
            };
            shell.stretch(swept, rings, [from, to]);
        }
        shell.is_closed().then_some(shell)
    }

    /// Of each place where stretches meet, how the ring of the one before and of the one behind it are joined;
    /// the first and the last are one where the run closes.
    fn joints(
        &mut self,
        run: &EdgeLoop,
        swept: &[Swept],
        rings: &[[Ring; 2]],
    ) -> Option<Vec<(Joined, Joined)>> {
        let outside = |at: usize| swept[at].edge.outside;
        let last = rings.len().checked_sub(1)?;
        let [first, end] = [&rings[0][0], &rings[last][1]];
        let mut joined = Vec::with_capacity(rings.len() + 1);
        if run.is_loop() {
            joined.push(join(
                self,
                Some(end),
                Some(first),
                outside(0) != outside(last),
            )?);
        } else {
            let face = run.edges.first().is_some_and(Edge::is_face);
            joined.push(self.beginning(first, face, true)?);
        }
        for at in 0..last {
            let [one, other] = [&rings[at][1], &rings[at + 1][0]];
            let closing = outside(at) != outside(at + 1);
            joined.push(join(self, Some(one), Some(other), closing)?);
        }
        if run.is_loop() {
            joined.push(joined[0].clone());
        } else {
            let face = run.edges.last().is_some_and(Edge::is_face);
            joined.push(self.beginning(end, face, false)?);
        }
        Some(joined)
    }

    /// Where the outline leaves the axis, or comes back to it, along a face or not.
    fn beginning(&mut self, ring: &Ring, face: bool, first: bool) -> Option<(Joined, Joined)> {
        if !face {
            let pole = on_axis(ring.place) && ring.is_pole();
            let corner = self.corner([0.0, 0.0, ring.place.z]);
            let joined = Joined::pole(corner, ring);
            return pole.then(|| (joined.clone(), joined));
        }
        let (one, other) = if first {
            (None, Some(ring))
        } else {
            (Some(ring), None)
        };
        join(self, one, other, false)
    }

    fn corner(&mut self, at: [f64; 3]) -> usize {
        self.corners.push(at);
        self.corners.len() - 1
    }

    fn edge(&mut self, ends: [usize; 2], curve: RimCurve) -> usize {
        self.edges.push(Rim { ends, curve });
        self.edges.len() - 1
    }

    /// The faces of a stretch between its two rings, and the edges between them.
    fn stretch(&mut self, swept: &Swept, rings: &[Ring; 2], joined: [&Joined; 2]) {
        let Swept { edge, cut } = swept;
        let count = cut.sides.len();
        let between: Vec<usize> = (0..count)
            .map(|nth| {
                let ends = [0, 1].map(|it| joined[it].corners[rings[it].corner_of[nth]]);
                let mut curve = side::between(edge, cut, nth);
                if let RimCurve::Spline(spline) = &mut curve {
                    // What is beside it ends there, if by a rounding elsewhere than it would.
                    spline.end_at(ends.map(|it| self.corners[it]));
                }
                self.edge(ends, curve)
            })
            .collect();
        for nth in 0..count {
            let last = between[(nth + count - 1) % count];
            let [from, to] = [0, 1].map(|it| {
                let side = rings[it].side_of[nth];
                side.map_or(&[][..], |side| &joined[it].sides[side])
            });
            let mut bound: Vec<(usize, bool)> = from.iter().map(|it| (*it, true)).collect();
            bound.push((between[nth], true));
            bound.extend(to.iter().rev().map(|it| (*it, false)));
            bound.push((last, false));
            self.faces.push(Face {
                surface: side::surface(edge, cut, nth),
                bounds: vec![bound],
            });
        }
    }

    /// Whether each edge is taken once from either end, and each bound ends where it begins.
    pub(super) fn is_closed(&self) -> bool {
        let mut taken = vec![[0_u32; 2]; self.edges.len()];
        let bounds = || self.faces.iter().flat_map(|face| &face.bounds);
        for (edge, forwards) in bounds().flatten() {
            taken[*edge][usize::from(*forwards)] += 1;
        }
        let ends = |&(edge, forwards): &(usize, bool)| {
            let [from, to] = self.edges[edge].ends;
            if forwards { (from, to) } else { (to, from) }
        };
        let chained = |bound: &Vec<(usize, bool)>| {
            let next = bound.iter().cycle().skip(1);
            let mut pairs = bound.iter().zip(next);
            pairs.all(|(one, other)| ends(one).1 == ends(other).0)
        };
        taken.iter().all(|it| *it == [1, 1]) && bounds().all(chained)
    }
}

/// An edge of the outline in pieces that are cut alike all along.
fn pieces(edge: &Edge, sets: &[Flats]) -> Option<Vec<Swept>> {
    let round = |edge: Edge| Swept {
        edge,
        cut: Cut::round(),
    };
    if !edge.outside {
        return Some(vec![round(*edge)]);
    }
    let mut swept: Vec<Swept> = Vec::new();
    let mut since = edge.from().z;
    for stretch in stretches(&edge.curve, sets) {
        for (curve, cut) in cut::cuts(&stretch)? {
            let end = curve.end().z;
            match swept
                .last_mut()
                .filter(|it| it.cut.is_round() && cut.is_round())
            {
                // What no flat reaches is one face.
                Some(last) => last.edge = edge.part(edge.curve.between(since, end)?),
                None => {
                    since = curve.start().z;
                    swept.push(Swept {
                        edge: edge.part(curve),
                        cut,
                    });
                }
            }
        }
    }
    Some(swept)
}

#[cfg(test)]
mod tests;
