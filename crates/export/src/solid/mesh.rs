//! A solid as a closed mesh of triangles: what was turned, and the flats on it.

mod flats;
mod stitch;

use super::outline::{Body, Edge, EdgeLoop, on_axis};
use flats::Fineness;
use quillet_geometry::{Curve, Point};

/// A closed mesh; triangles run anticlockwise seen from outside.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mesh {
    /// Corners, mm.
    pub places_mm: Vec<[f64; 3]>,
    /// Triangles, as indices into `places_mm`.
    pub triangles: Vec<[u32; 3]>,
}

impl Mesh {
    /// The same turned about its axis. Bodies that touch are turned apart before they go into one file of
    /// bare triangles, so that no edge of one is an edge of another.
    pub fn turned(mut self, by_rad: f64) -> Mesh {
        let (sin, cos) = by_rad.sin_cos();
        for place in &mut self.places_mm {
            let [x, y, z] = *place;
            *place = [x * cos - y * sin, x * sin + y * cos, z];
        }
        self
    }

    /// The volume enclosed, mm³; negative where the triangles face inwards (divergence theorem).
    pub fn volume_mm3(&self) -> f64 {
        let corner = |at: u32| self.places_mm[at as usize];
        let six = self.triangles.iter().map(|triangle| {
            let [[ax, ay, az], [bx, by, bz], [cx, cy, cz]] = triangle.map(corner);
            ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
        });
        six.sum::<f64>() / 6.0
    }
}

/// The rings of a solid's mesh, before it is made: how many triangles it has, and the mesh itself.
#[derive(Clone, Debug)]
pub struct Facets(Kind);

#[derive(Clone, Debug)]
enum Kind {
    /// As it was turned.
    Round {
        /// The outline of each run, and whether it closes.
        outlines: Vec<(Vec<Point>, bool)>,
        around: u32,
    },
    /// With flats on it: how many triangles there are is known when they are.
    Cut(Mesh),
}

/// A mesh whose every face keeps within `tolerance_mm` of the solid's surface.
pub fn mesh(body: &Body, tolerance_mm: f64) -> Mesh {
    Facets::of(body, tolerance_mm).mesh()
}

impl Facets {
    /// Of a mesh whose every face keeps within `tolerance_mm` of the solid's surface.
    ///
    /// Corners lie on the surface. Where the outline is straight throughout, a face strays only around it,
    /// by all of the tolerance; else half of it is spent along the outline and half around it.
    pub fn of(body: &Body, tolerance_mm: f64) -> Facets {
        let edges = || body.runs.iter().flat_map(|run| &run.edges);
        let straight = edges().all(|edge| matches!(edge.curve, Curve::Line(_)));
        let share = tolerance_mm.max(1e-6) / if straight { 1.0 } else { 2.0 };
        let places = edges().map(|edge| edge.from().r.max(edge.to().r));
        let widest = places.fold(share, f64::max);
        // A chord of n in the round strays from a circle of radius r by r (1 - cos(180°/n)).
        let around = (std::f64::consts::PI / (1.0 - share / widest).clamp(-1.0, 1.0).acos()).ceil();
        let around = (around as u32).clamp(12, 4096);
        if !body.flats.is_empty() {
            return Facets(Kind::Cut(cut(body, share, around)));
        }
        let outlines = body.runs.iter();
        let outlines = outlines.map(|run| (outline(run, share), run.is_loop()));
        Facets(Kind::Round {
            outlines: outlines.collect(),
            around,
        })
    }

    /// How many triangles the mesh has.
    pub fn count(&self) -> u64 {
        let (outlines, around) = match &self.0 {
            Kind::Round { outlines, around } => (outlines, *around),
            Kind::Cut(mesh) => return mesh.triangles.len() as u64,
        };
        let bands = outlines.iter().map(|(places, closed)| {
            let ends = places.last().zip(places.first()).filter(|_| *closed);
            let pairs = places.windows(2).map(|it| (&it[0], &it[1])).chain(ends);
            // A band to the axis takes one round of triangles, any other two.
            let rounds = pairs.map(|(a, b)| u64::from(!on_axis(*a)) + u64::from(!on_axis(*b)));
            rounds.sum::<u64>()
        });
        bands.sum::<u64>() * u64::from(around)
    }

    /// The mesh.
    pub fn mesh(&self) -> Mesh {
        let (outlines, around) = match &self.0 {
            Kind::Round { outlines, around } => (outlines, *around),
            Kind::Cut(mesh) => return mesh.clone(),
        };
        let turns = turns(around);
        let mut mesh = Mesh::default();
        for (outline, closed) in outlines {
            mesh.revolve(outline, *closed, &turns);
        }
        mesh
    }
}

/// The cosine and the sine of each of so many steps round the axis.
fn turns(around: u32) -> Vec<(f64, f64)> {
    let turn = |step: u32| std::f64::consts::TAU * f64::from(step) / f64::from(around);
    (0..around)
        .map(|step| (turn(step).cos(), turn(step).sin()))
        .collect()
}

/// A mesh of a solid with flats on it.
fn cut(body: &Body, share_mm: f64, around: u32) -> Mesh {
    // Half a step, for where an edge runs across a step is left out.
    let fine = Fineness {
        share_mm,
        step: std::f64::consts::PI / f64::from(around),
    };
    let mut mesh = Mesh::default();
    for run in &body.runs {
        let rings = flats::rings(run, &body.flats, fine);
        stitch::stitch(&mut mesh, &rings, run.is_loop(), fine);
    }
    mesh
}

fn outline(run: &EdgeLoop, tolerance: f64) -> Vec<Point> {
    let edges = run.edges.iter();
    let mut places: Vec<Point> = edges.flat_map(|edge| places(edge, tolerance)).collect();
    if !run.is_loop() {
        places.extend(run.edges.last().map(|edge| edge.to()));
    }
    places
}

/// The places of an edge but its last, near enough to it.
fn places(edge: &Edge, tolerance: f64) -> impl Iterator<Item = Point> {
    let pieces = match edge.curve {
        Curve::Line(_) => 1,
        _ => pieces(edge, tolerance),
    };
    (0..pieces).map(move |piece| edge.point(f64::from(piece) / f64::from(pieces)))
}

/// Equal steps of the parameter, doubled until every chord's middle is near enough.
fn pieces(edge: &Edge, tolerance: f64) -> u32 {
    let strays = |pieces: u32| {
        (0..pieces).any(|piece| {
            let at = |part: f64| edge.point((f64::from(piece) + part) / f64::from(pieces));
            let (from, to) = (at(0.0), at(1.0));
            let way = to - from;
            let length = way.z.hypot(way.r).max(f64::MIN_POSITIVE);
            // A quarter, the middle and three quarters: a cubic may cross its chord in the middle.
            [0.25, 0.5, 0.75].iter().any(|part| {
                let off = at(*part) - from;
                (off.z * way.r - off.r * way.z).abs() / length > tolerance
            })
        })
    };
    let mut pieces = 2;
    while pieces < 1024 && strays(pieces) {
        pieces *= 2;
    }
    pieces
}

impl Mesh {
    fn revolve(&mut self, outline: &[Point], closed: bool, turns: &[(f64, f64)]) {
        let around = turns.len() as u32;
        self.places_mm.reserve(outline.len() * turns.len());
        self.triangles.reserve(2 * outline.len() * turns.len());
        let rings: Vec<Ring> = outline
            .iter()
            .map(|place| self.ring(*place, turns))
            .collect();
        let pairs = rings.windows(2).map(|pair| (pair[0], pair[1]));
        let last = closed
            .then(|| Some((*rings.last()?, *rings.first()?)))
            .flatten();
        for (from, to) in pairs.chain(last) {
            for step in 0..around {
                let next = (step + 1) % around;
                // Round first, then along: that order faces outwards with the solid on the right.
                match (from, to) {
                    (Ring::Pole(pole), Ring::Round(to)) => {
                        self.triangles.push([pole, to + next, to + step]);
                    }
                    (Ring::Round(from), Ring::Pole(pole)) => {
                        self.triangles.push([from + step, from + next, pole]);
                    }
                    (Ring::Round(from), Ring::Round(to)) => {
                        self.triangles.push([from + step, from + next, to + next]);
                        self.triangles.push([from + step, to + next, to + step]);
                    }
                    (Ring::Pole(_), Ring::Pole(_)) => {}
                }
            }
        }
    }

    fn ring(&mut self, place: Point, turns: &[(f64, f64)]) -> Ring {
        let first = self.places_mm.len() as u32;
        if on_axis(place) {
            self.places_mm.push([0.0, 0.0, place.z]);
            return Ring::Pole(first);
        }
        let round = turns.iter();
        self.places_mm
            .extend(round.map(|(cos, sin)| [place.r * cos, place.r * sin, place.z]));
        Ring::Round(first)
    }
}

#[derive(Clone, Copy)]
enum Ring {
    Pole(u32),
    Round(u32),
}

#[cfg(test)]
mod tests;
