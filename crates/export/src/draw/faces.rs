//! What is seen of a part that is not round: the edges of its flats, the diagonals that mark a
//! plane face (ISO 128-3, from memory), and the outlines of its openings.

use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Scene, Xy};
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

/// Draws on the half that is seen from outside what is not round there.
pub(super) fn faces(scene: &mut Scene, view: ViewTransform, half: Half, profiles: &Profiles) {
    let not_round = &profiles.not_round;
    let paper = Paper {
        view,
        half,
        up_deg: up_deg(not_round),
        turned: profiles.turned(),
    };
    for (_, set) in &not_round.flats {
        for nth in 0..set.count {
            paper.flat(scene, set, nth);
        }
    }
    for (_, opening) in &not_round.openings {
        for clock_deg in ways(opening) {
            paper.opening(scene, opening, clock_deg);
        }
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

/// A half of the view, and the outside that is drawn on it.
struct Paper<'a> {
    view: ViewTransform,
    half: Half,
    up_deg: f64,
    turned: &'a Chain,
}

impl Paper<'_> {
    /// The angle of a direction from up, radians clockwise: the reader looks from a quarter turn.
    fn angle_rad(&self, clock_deg: f64) -> f64 {
        (clock_deg - self.up_deg).rem_euclid(360.0).to_radians()
    }

    /// Strokes what of a line, stations and heights over the axis, lies on this half.
    fn stroke(&self, scene: &mut Scene, layer: Layer, line: &[Point]) {
        let over = |at: Point| Point::new(at.z, at.r * self.half.sign());
        for pair in line.windows(2) {
            let (mut from, mut to) = (over(pair[0]), over(pair[1]));
            if from.r < 0.0 && to.r < 0.0 {
                continue;
            }
            let on_axis = |low: Point, high: Point| low + (high - low) * (low.r / (low.r - high.r));
            match (from.r < 0.0, to.r < 0.0) {
                (true, false) => from = on_axis(from, to),
                (false, true) => to = on_axis(to, from),
                _ => {}
            }
            let [from, to]: [Xy; 2] = [from, to].map(|at| self.view.place(self.half, at));
            scene.line(layer, from, to);
        }
    }

    /// A flat that faces the reader: its two edges, its ends, and its diagonals.
    fn flat(&self, scene: &mut Scene, set: &Flats, nth: u32) {
        let middle =
            self.angle_rad(set.clock_deg) + 2.0 * PI * f64::from(nth) / f64::from(set.count);
        if middle.sin() < 1e-6 {
            return;
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
        for edge in &edges {
            self.stroke(scene, Layer::Outline, edge);
        }
        let [one, other] = &edges;
        let (Some([a, b]), Some([c, d])) = (ends(one), ends(other)) else {
            return;
        };
        for end in [[a, c], [b, d]] {
            self.stroke(scene, Layer::Outline, &end);
        }
        for diagonal in [[a, d], [c, b]] {
            self.stroke(scene, Layer::Dimension, &diagonal);
        }
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

    /// The outline of an opening that faces the reader.
    fn opening(&self, scene: &mut Scene, opening: &Opening, clock_deg: f64) {
        let middle = self.angle_rad(clock_deg);
        if middle.sin() < 1e-6 {
            return;
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
        let (one, mut other) = (side(1.0), side(-1.0));
        other.reverse();
        let mut all = one;
        all.extend(other);
        all.extend(all.first().copied());
        self.stroke(scene, Layer::Outline, &all);
    }
}

fn ends(line: &[Point]) -> Option<[Point; 2]> {
    Some([*line.first()?, *line.last()?])
}
