//! Where flats and openings of a part lie, seen from its side.

use quillet_geometry::section::Flats;
use quillet_geometry::side::{Floor, SideCut as Opening};
use quillet_geometry::{Chain, Point};
use quillet_model::{NotRound, Profiles};
use std::f64::consts::PI;

/// Steps along a face or round an opening; drawn curves stray from their chords by less than a line.
const STEPS: u32 = 48;

/// Which way is up on the drawing, degrees clockwise of the mark, looking at the first end: a corner
/// of the first flats, so that the outline is across corners; one or two flats face the reader, and
/// so, turned up by 30°, does an opening.
pub(super) fn up_deg(not_round: &NotRound) -> f64 {
    match (not_round.flats.first(), not_round.openings.first()) {
        (Some((_, set)), _) if set.count > 2 => set.clock_deg + 180.0 / f64::from(set.count),
        (Some((_, set)), _) => set.clock_deg - 90.0,
        (None, Some((_, opening))) => opening.clock_deg - 60.0,
        (None, None) => 0.0,
    }
}

/// A part that is seen from a quarter turn off its up.
pub(super) struct Facets<'a> {
    not_round: &'a NotRound,
    up_deg: f64,
    turned: &'a Chain,
}

/// A plane face towards the reader.
pub(super) struct Face {
    /// Its two edges along the part: stations, and heights over the axis.
    pub(super) edges: [Vec<Point>; 2],
    /// How far it looks up: 1 straight up, 0 at the reader, -1 straight down.
    pub(super) upward: f64,
}

impl<'a> Facets<'a> {
    pub(super) fn of(profiles: &'a Profiles) -> Facets<'a> {
        Facets {
            not_round: &profiles.not_round,
            up_deg: up_deg(&profiles.not_round),
            turned: profiles.turned(),
        }
    }

    /// The flats that face the reader.
    pub(super) fn faces(&self) -> impl Iterator<Item = Face> + '_ {
        let sets = self.not_round.flats.iter();
        sets.flat_map(|(_, set)| (0..set.count).filter_map(|nth| self.face(set, nth)))
    }

    /// The outlines of the openings that face the reader: stations, and heights over the axis.
    pub(super) fn mouths(&self) -> impl Iterator<Item = Vec<Point>> + '_ {
        let all = self.not_round.openings.iter();
        all.flat_map(|(_, it)| {
            ways(it)
                .into_iter()
                .filter_map(|clock| self.mouth(it, clock))
        })
    }

    /// The angle of a direction from up, radians clockwise: the reader looks from a quarter turn.
    fn angle_rad(&self, clock_deg: f64) -> f64 {
        (clock_deg - self.up_deg).rem_euclid(360.0).to_radians()
    }

    fn face(&self, set: &Flats, nth: u32) -> Option<Face> {
        let middle =
            self.angle_rad(set.clock_deg) + 2.0 * PI * f64::from(nth) / f64::from(set.count);
        if middle.sin() < 1e-6 {
            return None;
        }
        let mut edges: [Vec<Point>; 2] = [Vec::new(), Vec::new()];
        for step in 0..=STEPS {
            let part = (f64::from(step) / f64::from(STEPS)).clamp(1e-9, 1.0 - 1e-9);
            let z = set.from_mm + (set.to_mm - set.from_mm) * part;
            if let Some((half_angle, radius)) = self.spread(set, z) {
                let at = |angle: f64| Point::new(z, radius * (middle + angle).cos());
                edges[0].push(at(-half_angle));
                edges[1].push(at(half_angle));
            }
        }
        let upward = middle.cos();
        (edges[0].len() > 1).then_some(Face { edges, upward })
    }

    /// Half the angle that a flat takes up at a station, and how far its edges lie from the axis;
    /// none where it does not cut.
    fn spread(&self, set: &Flats, z_mm: f64) -> Option<(f64, f64)> {
        let round = self.turned.least_at(z_mm)?;
        let apothem = set.apothem_mm(Point::new(z_mm, round));
        if !(0.0 < apothem && apothem < round) {
            return None;
        }
        let half_angle = (apothem / round).acos().min(PI / f64::from(set.count));
        Some((half_angle, (apothem / half_angle.cos()).min(round)))
    }

    fn mouth(&self, opening: &Opening, clock_deg: f64) -> Option<Vec<Point>> {
        let middle = self.angle_rad(clock_deg);
        if middle.sin() < 1e-6 {
            return None;
        }
        let side = |sign: f64| {
            let places = (0..=STEPS).filter_map(move |step| {
                // Closer together at the ends, where the outline is round.
                let turn = PI * f64::from(step) / f64::from(STEPS);
                let middle_mm = (opening.from_mm + opening.to_mm) / 2.0;
                let half_mm = (opening.to_mm - opening.from_mm) / 2.0;
                let z = middle_mm - half_mm * turn.cos();
                let round = self.turned.greatest_at(z)?;
                let beside = sign * opening.half_width_mm(z);
                let over = ((round - beside) * (round + beside)).max(0.0).sqrt();
                Some(Point::new(z, over * middle.cos() - beside * middle.sin()))
            });
            places.collect::<Vec<Point>>()
        };
        let (mut all, mut other) = (side(1.0), side(-1.0));
        other.reverse();
        all.extend(other);
        all.extend(all.first().copied());
        Some(all)
    }
}

/// Where an opening comes out, degrees clockwise of the mark: through cuts on both sides.
fn ways(opening: &Opening) -> Vec<f64> {
    let apart = 360.0 / f64::from(opening.count.max(1));
    let out = (0..opening.count).map(|nth| opening.clock_deg + apart * f64::from(nth));
    let back = |clock: f64| (opening.floor == Floor::Through).then_some(clock + 180.0);
    out.flat_map(|clock| [Some(clock), back(clock)])
        .flatten()
        .collect()
}
