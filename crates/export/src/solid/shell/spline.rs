//! `Spline`: a B-spline in space.

use super::super::surface::conic;
use quillet_geometry::{Curve, Point};
use std::f64::consts::PI;

/// How far a fitted curve may stray, mm: a tenth of what drawings of solids want, as it costs twice the places.
const STRAY_MM: f64 = 1e-5;
/// A curve is halved so often at most.
const MOST_HALVINGS: u32 = 12;

/// A B-spline: rational where it has weights.
#[derive(Clone, Debug)]
pub(in super::super) struct Spline {
    pub(in super::super) degree: usize,
    /// Control points, mm.
    pub(in super::super) places: Vec<[f64; 3]>,
    pub(in super::super) weights: Vec<f64>,
    /// Each knot and how often it is there.
    pub(in super::super) knots: Vec<(f64, usize)>,
}

/// A place of a curve and how fast it changes with the parameter.
type Moving = [[f64; 3]; 2];

impl Spline {
    /// A curve of the outline carried where each of its places goes, in proportion to what it is: exact.
    pub(super) fn carried(curve: &Curve, to: impl Fn(Point) -> [f64; 3]) -> Spline {
        let (places, weights) = match curve {
            Curve::Line(line) => (vec![line.start, line.end], Vec::new()),
            Curve::Arc(arc) => {
                let (places, weight) = conic(arc);
                (places.to_vec(), vec![1.0, weight, 1.0])
            }
            Curve::Cubic(cubic) => (cubic.points().to_vec(), Vec::new()),
        };
        let degree = places.len() - 1;
        Spline {
            degree,
            places: places.into_iter().map(to).collect(),
            weights,
            knots: vec![(0.0, degree + 1), (1.0, degree + 1)],
        }
    }

    /// A cubic that keeps near a curve whose parameter runs from 0 to π, with its place and its speed at each of
    /// its knots (Hermite).
    pub(super) fn fitted(curve: impl Fn(f64) -> Moving) -> Spline {
        let mut knots = vec![(0.0, curve(0.0))];
        // Four to begin with: of fewer the middle may be met by chance.
        for quarter in 0..4 {
            let to = PI * f64::from(quarter + 1) / 4.0;
            let mut ahead = vec![(to, curve(to), 0)];
            while let Some((to, end, halvings)) = ahead.pop() {
                let (from, start) = knots[knots.len() - 1];
                let strays = |share: f64| {
                    let at = hermite(start, end, to - from, share);
                    let wanted = curve(from + (to - from) * share)[0];
                    let square = |it: usize| (at[it] - wanted[it]).powi(2);
                    (0..3).map(square).sum::<f64>().sqrt() > STRAY_MM
                };
                if halvings < MOST_HALVINGS && [0.25, 0.5, 0.75].into_iter().any(strays) {
                    let half = (from + to) / 2.0;
                    ahead.push((to, end, halvings + 1));
                    ahead.push((half, curve(half), halvings + 1));
                } else {
                    knots.push((to, end));
                }
            }
        }
        let last = knots.len() - 1;
        let mut places = vec![knots[0].1[0]];
        for pair in knots.windows(2) {
            let [(from, start), (to, end)] = [pair[0], pair[1]];
            places.push(stepped(start, (to - from) / 3.0));
            places.push(stepped(end, (from - to) / 3.0));
        }
        places.push(knots[last].1[0]);
        let often = |at: usize| if at == 0 || at == last { 4 } else { 2 };
        let knots = knots.iter().enumerate();
        Spline {
            degree: 3,
            places,
            weights: Vec::new(),
            knots: knots.map(|(at, (knot, _))| (*knot, often(at))).collect(),
        }
    }

    /// Moves its ends.
    pub(super) fn end_at(&mut self, [from, to]: [[f64; 3]; 2]) {
        if let [first, .., last] = &mut self.places[..] {
            (*first, *last) = (from, to);
        }
    }
}

fn stepped([at, speed]: Moving, step: f64) -> [f64; 3] {
    [0, 1, 2].map(|it| at[it] + speed[it] * step)
}

/// The place of a cubic between two, at a share of the way.
fn hermite(start: Moving, end: Moving, length: f64, share: f64) -> [f64; 3] {
    let [a, d] = [start[0], end[0]];
    let (b, c) = (stepped(start, length / 3.0), stepped(end, -length / 3.0));
    let rest = 1.0 - share;
    [0, 1, 2].map(|it| {
        rest.powi(3) * a[it]
            + 3.0 * rest * share * (rest * b[it] + share * c[it])
            + share.powi(3) * d[it]
    })
}
