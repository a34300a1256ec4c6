//! Rings that have corners of their own, stitched to a closed mesh.

use super::Mesh;
use super::flats::{Direction, Fineness, Ring, angle, direction, matched};
use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::{PI, TAU};

/// Corners of two rings in one face nearer than this are one, mm: more than a direction's step moves a corner,
/// less than the finest mesh shows.
const SAME_MM: f64 = 1e-5;

/// The corners of a ring in the mesh, by their direction; one alone on the axis.
#[derive(Clone, Debug)]
enum Corners {
    Pole(u32),
    Round(BTreeMap<Direction, u32>),
}

/// Rings one after the other, closed where the last is followed by the first.
pub(super) fn stitch(mesh: &mut Mesh, rings: &[Ring], closed: bool, fine: Fineness) {
    let count = rings.len();
    let bands: Vec<(usize, usize)> = (0..count)
        .map(|at| (at, (at + 1) % count))
        .filter(|(_, to)| closed || *to != 0)
        .collect();
    let shared = bands
        .iter()
        .map(|&(from, to)| ways(&rings[from], &rings[to], fine));
    let shared: Vec<BTreeSet<Direction>> = shared.collect();
    let mut all: Vec<BTreeSet<Direction>> = vec![BTreeSet::new(); count];
    for (&(from, to), ways) in bands.iter().zip(&shared) {
        all[from].extend(ways);
        all[to].extend(ways);
    }
    let mut corners: Vec<Corners> = Vec::with_capacity(count);
    for (ring, ways) in rings.iter().zip(&all) {
        let before = corners.last().map(|it| (it, &rings[corners.len() - 1]));
        let own = mesh.corners(ring, ways, before);
        corners.push(own);
    }
    for (&(from, to), ways) in bands.iter().zip(&shared) {
        let ways: Vec<Direction> = ways.iter().copied().collect();
        mesh.band(&corners[from], &corners[to], &ways);
    }
}

/// The directions in which both rings of a band have a corner: the solid's own, and between them as many
/// as a round wants. None where an edge of the solid runs across.
fn ways(one: &Ring, other: &Ring, fine: Fineness) -> BTreeSet<Direction> {
    let corners = one.corners.iter().chain(&other.corners);
    let mut ways: BTreeSet<Direction> = corners.copied().collect();
    let own: Vec<Direction> = ways.iter().copied().collect();
    let edges = matched(one, other);
    let near = |way: Direction| {
        let at = own.partition_point(|it| *it < way);
        let beside = [at.checked_sub(1).unwrap_or(own.len() - 1), at % own.len()];
        beside
            .iter()
            .any(|it| turn(way, own[*it]).abs() < fine.step / 4.0)
    };
    let across = |way: Direction| {
        let mut edges = edges.iter();
        edges.any(|&(from, to)| {
            turn(from, way) * turn(way, to) > 0.0 && turn(from, way).abs() < turn(from, to).abs()
        })
    };
    let around = (TAU / fine.step).ceil() as u32;
    for step in 0..around {
        let way = direction(TAU * f64::from(step) / f64::from(around));
        if own.is_empty() || !(near(way) || across(way)) {
            ways.insert(way);
        }
    }
    ways
}

/// From one direction to another the short way, rad; negative against the turn.
fn turn(from: Direction, to: Direction) -> f64 {
    let turn = (angle(to) - angle(from)).rem_euclid(TAU);
    if turn > PI { turn - TAU } else { turn }
}

impl Mesh {
    /// Puts a ring's corners in; where it lies in the face that the ring before lies in, and no nearer to
    /// the axis than that, they are one.
    fn corners(
        &mut self,
        ring: &Ring,
        ways: &BTreeSet<Direction>,
        before: Option<(&Corners, &Ring)>,
    ) -> Corners {
        let next = |mesh: &mut Mesh, place: [f64; 3]| {
            mesh.places_mm.push(place);
            mesh.places_mm.len() as u32 - 1
        };
        if ring.is_pole() {
            return Corners::Pole(next(self, [0.0, 0.0, ring.place.z]));
        }
        let beside = before.filter(|(_, it)| (it.place.z - ring.place.z).abs() < 1e-12);
        let corner = |way: &Direction| {
            let known = beside.and_then(|(corners, it)| match corners {
                Corners::Round(known) => known
                    .get(way)
                    .filter(|_| (it.radius_mm(*way) - ring.radius_mm(*way)).abs() < SAME_MM),
                Corners::Pole(_) => None,
            });
            let at = known
                .copied()
                .unwrap_or_else(|| next(self, ring.at_mm(*way)));
            (*way, at)
        };
        Corners::Round(ways.iter().map(corner).collect())
    }

    /// The triangles between two rings that share some directions.
    fn band(&mut self, from: &Corners, to: &Corners, ways: &[Direction]) {
        let ends = ways.iter().zip(ways.iter().cycle().skip(1));
        for (&first, &last) in ends {
            match (from.between(first, last), to.between(first, last)) {
                (Ok(from), Ok(to)) => self.patch(&from, &to),
                (Ok(from), Err(pole)) => self.fan(from.windows(2).map(|it| [it[0], it[1], pole])),
                (Err(pole), Ok(to)) => self.fan(to.windows(2).map(|it| [pole, it[1], it[0]])),
                (Err(_), Err(_)) => {}
            }
        }
    }

    /// What lies between two pieces of rings that end in the same directions: of both ways across the one
    /// that leaves more solid, for every edge between a flat and what it is cut from stands out.
    fn patch(&mut self, from: &[u32], to: &[u32]) {
        let ([a, .., b], [d, .., c]) = (from, to) else {
            return;
        };
        let six = |[a, b, c]: [u32; 3]| {
            let [[ax, ay, az], [bx, by, bz], [cx, cy, cz]] =
                [a, b, c].map(|at| self.places_mm[at as usize]);
            ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
        };
        let forth = six([*a, *b, *c]) + six([*a, *c, *d]);
        let back = six([*a, *b, *d]) + six([*b, *c, *d]);
        let (over, under) = if back > forth + 1e-9 {
            (*d, *b)
        } else {
            (*c, *a)
        };
        self.fan(from.windows(2).map(|it| [it[0], it[1], over]));
        self.fan(to.windows(2).map(|it| [under, it[1], it[0]]));
    }

    /// Triangles, but those of which two corners are one.
    fn fan(&mut self, triangles: impl Iterator<Item = [u32; 3]>) {
        self.triangles
            .extend(triangles.filter(|[a, b, c]| a != b && b != c && c != a));
    }
}

impl Corners {
    /// The corners from one direction to another with the turn, both of them too; or the one on the axis.
    fn between(&self, first: Direction, last: Direction) -> Result<Vec<u32>, u32> {
        match self {
            Corners::Pole(pole) => Err(*pole),
            Corners::Round(all) if first < last => {
                Ok(all.range(first..=last).map(|(_, at)| *at).collect())
            }
            Corners::Round(all) => {
                let round = all.range(first..).chain(all.range(..=last));
                Ok(round.map(|(_, at)| *at).collect())
            }
        }
    }
}
