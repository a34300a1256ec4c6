//! `Cut`: what lies side by side round the axis on a stretch of the outside, what was turned and flats.

use super::super::stretches::{Stretch, section, within};
use super::SAME_MM;
use quillet_geometry::section::Flats;
use quillet_geometry::{Curve, Point};
use std::f64::consts::{PI, TAU};

/// Places at which it is looked what flats leave of a stretch: where there is one set, and where several may
/// cross each other.
const LOOKS: [u32; 2] = [4, 64];
/// A side shorter than this is none, mm: so short it is where it ends, for that is where it is looked for.
const NOTHING_MM: f64 = 1e-8;
/// Nearer than this, of the parameter, two of its ends are one.
const SAME_PARAM: f64 = 1e-7;

/// What lies round the axis, all along a stretch.
#[derive(Clone, Debug)]
pub(super) struct Cut {
    /// The flats that leave something, in no order.
    flats: Vec<Facet>,
    /// The sides of every section, with the clock; one alone where it is round, and two where one would take more
    /// than half of the turn: a face that comes back to where it began is read wrongly by some.
    pub(super) sides: Vec<Side>,
    /// The direction of the corner between two round sides, rad.
    pub(super) parting: f64,
}

/// One flat of a set.
#[derive(Clone, Copy, Debug)]
pub(super) struct Facet {
    pub(super) set: Flats,
    /// Where its middle faces, rad.
    pub(super) clock: f64,
}

/// A side of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Side {
    /// Of the disc.
    Round,
    /// Of a flat, by its number among those of the sets in force.
    Flat(usize),
}

impl Facet {
    /// From the axis to it, at a place of the outside, mm.
    pub(super) fn apothem_mm(&self, place: Point) -> f64 {
        self.set.apothem_mm(place)
    }
}

impl Cut {
    pub(super) fn round() -> Cut {
        Cut {
            flats: Vec::new(),
            sides: vec![Side::Round],
            parting: 0.0,
        }
    }

    pub(super) fn is_round(&self) -> bool {
        self.sides == [Side::Round]
    }

    /// The flat that a side is of.
    pub(super) fn facet(&self, side: Side) -> Option<&Facet> {
        match side {
            Side::Round => None,
            Side::Flat(nth) => self.flats.get(nth),
        }
    }

    /// The flats on both sides of the corner behind a side.
    pub(super) fn beside(&self, nth: usize) -> [Option<&Facet>; 2] {
        let next = (nth + 1) % self.sides.len();
        [nth, next].map(|it| self.facet(self.sides[it]))
    }

    /// The corner behind a side at a place of the outside: `x` and `y`, mm.
    pub(super) fn corner_mm(&self, nth: usize, place: Point) -> [f64; 2] {
        let on = |clock: f64, apothem: f64, along: f64| {
            let (sin, cos) = clock.sin_cos();
            [apothem * cos - along * sin, apothem * sin + along * cos]
        };
        let half = |it: &Facet| {
            let apothem = it.apothem_mm(place);
            let square = (place.r - apothem) * (place.r + apothem);
            (apothem, square.max(0.0).sqrt())
        };
        match self.beside(nth) {
            [None, None] => {
                let (sin, cos) = self.parting.sin_cos();
                [place.r * cos, place.r * sin]
            }
            [Some(it), None] => {
                let (apothem, half) = half(it);
                on(it.clock, apothem, half)
            }
            [None, Some(it)] => {
                let (apothem, half) = half(it);
                on(it.clock, apothem, -half)
            }
            [Some(one), Some(other)] => {
                let (sin, cos) = (other.clock - one.clock).sin_cos();
                let [near, far] = [one, other].map(|it| it.apothem_mm(place));
                on(one.clock, near, (far - near * cos) / sin)
            }
        }
    }

    /// How long a side is at a place of the outside, mm.
    pub(super) fn length_mm(&self, nth: usize, place: Point) -> f64 {
        let [from, to] = self.ends_mm(nth, place);
        if let Side::Flat(_) = self.sides[nth] {
            return (to[0] - from[0]).hypot(to[1] - from[1]);
        }
        if self.is_round() {
            return TAU * place.r;
        }
        let turn = turn(from, to);
        // Where it ends its own ends may have passed each other by a rounding.
        let nothing = turn > TAU - SAME_MM / place.r;
        if nothing { 0.0 } else { turn * place.r }
    }

    /// The corners before and behind a side.
    fn ends_mm(&self, nth: usize, place: Point) -> [[f64; 2]; 2] {
        let before = (nth + self.sides.len() - 1) % self.sides.len();
        [before, nth].map(|it| self.corner_mm(it, place))
    }

    /// Whether no side but one that goes all round takes more than half of the turn.
    pub(super) fn is_parted(&self, place: Point) -> bool {
        let half = |nth: usize| self.length_mm(nth, place) < (PI + 1e-6) * place.r;
        self.is_round() || (0..self.sides.len()).all(half)
    }

    /// The direction opposite the middle of a side at a place of the outside, rad; none where it goes all round.
    pub(super) fn away(&self, nth: usize, place: Point) -> Option<f64> {
        let [from, to] = self.ends_mm(nth, place);
        (!self.is_round()).then(|| from[1].atan2(from[0]) + turn(from, to) / 2.0 + PI)
    }

    /// The same with a round side parted in its middle where it takes more than half of the turn.
    fn parted(mut self, curve: &Curve) -> Cut {
        let places = [0.0, 0.5, 1.0].map(|t| curve.point(t));
        let wide = |nth: &usize| {
            let mut lengths = places.iter().map(|it| self.length_mm(*nth, *it) / it.r);
            self.sides[*nth] == Side::Round && lengths.any(|turn| turn > PI + 1e-6)
        };
        if let Some(nth) = (0..self.sides.len()).find(wide)
            && let Some(away) = self.away(nth, places[1])
        {
            self.sides.insert(nth, Side::Round);
            self.parting = away + PI;
        }
        self
    }

    /// The same without sides that are nothing all along a curve.
    fn without_slivers(mut self, curve: &Curve) -> Cut {
        let long = |nth: usize| {
            let place = |eighth: u32| curve.point(f64::from(eighth) / 8.0);
            let length = |eighth: u32| self.length_mm(nth, place(eighth));
            (0..=8).any(|eighth| length(eighth) > SAME_MM)
        };
        let kept = (0..self.sides.len()).filter(|nth| long(*nth));
        let mut kept: Vec<Side> = kept.map(|nth| self.sides[nth]).collect();
        kept.dedup_by(|one, other| *one == Side::Round && *other == Side::Round);
        if kept.len() > 1 && kept.first() == Some(&Side::Round) && kept.last() == kept.first() {
            kept.pop();
        }
        if kept.is_empty() {
            return Cut::round();
        }
        self.sides = kept;
        self
    }
}

/// From the direction of one place to that of another with the clock, rad.
fn turn(from: [f64; 2], to: [f64; 2]) -> f64 {
    let [from, to] = [from, to].map(|[x, y]| y.atan2(x));
    (to - from).rem_euclid(TAU)
}

/// A stretch in pieces along which the same sides lie round the axis; none where a flat reaches the axis.
pub(super) fn cuts(stretch: &Stretch) -> Option<Vec<(Curve, Cut)>> {
    let looks = LOOKS[usize::from(stretch.flats.len() > 1)];
    // Closer towards the ends, and just within them: flats run out there.
    let place = |nth: u32| {
        let even = (1.0 - (PI * f64::from(nth) / f64::from(looks)).cos()) / 2.0;
        even.clamp(SAME_PARAM, 1.0 - SAME_PARAM)
    };
    let mut found = vec![(0.0, sides(stretch, place(0))?)];
    for nth in 1..=looks {
        let last = found.last().map(|(_, sides)| sides.clone())?;
        let here = sides(stretch, place(nth))?;
        changes(
            stretch,
            (place(nth - 1), last),
            (place(nth), here),
            &mut found,
        )?;
    }
    // What is only seen between two roundings is nothing.
    let ends: Vec<f64> = found.iter().skip(1).map(|it| it.0).chain([1.0]).collect();
    let mut kept: Vec<(f64, Vec<Side>)> = Vec::new();
    for ((from, sides), to) in found.into_iter().zip(ends) {
        let first = kept.is_empty();
        let same = kept.last().is_some_and(|(_, last)| *last == sides);
        if !same && (to - from > SAME_PARAM || first) {
            kept.push((from, sides));
        }
    }
    let ends: Vec<f64> = kept.iter().skip(1).map(|it| it.0).chain([1.0]).collect();
    let flats = facets(stretch);
    let pieces = kept.into_iter().zip(ends).map(|((from, sides), to)| {
        let curve = stretch.curve.between_params(from, to);
        let cut = Cut {
            flats: flats.clone(),
            sides,
            parting: 0.0,
        };
        (curve, cut.without_slivers(&curve).parted(&curve))
    });
    Some(pieces.collect())
}

/// Where between two places of a stretch its sides change, each with those behind it.
fn changes(
    stretch: &Stretch,
    (from, before): (f64, Vec<Side>),
    (to, after): (f64, Vec<Side>),
    found: &mut Vec<(f64, Vec<Side>)>,
) -> Option<()> {
    if before == after {
        return Some(());
    }
    let middle = (from + to) / 2.0;
    if to - from < 1e-13 {
        found.push((middle, after));
        return Some(());
    }
    let here = sides(stretch, middle)?;
    changes(stretch, (from, before), (middle, here.clone()), found)?;
    changes(stretch, (middle, here), (to, after), found)
}

/// The flats of all sets in force, numbered as a section numbers them.
fn facets(stretch: &Stretch) -> Vec<Facet> {
    let middle = stretch.curve.point(0.5);
    let each = stretch.flats.iter().flat_map(|set| {
        set.at(within(middle, &stretch.flats)).map(|flat| Facet {
            set: *set,
            clock: flat.clock_deg.to_radians(),
        })
    });
    each.collect()
}

/// The sides of the section at a parameter, from that of the first flat on; none where a flat reaches the axis.
fn sides(stretch: &Stretch, at: f64) -> Option<Vec<Side>> {
    let place = stretch.curve.point(at);
    if stretch.flats.is_empty() {
        return Some(vec![Side::Round]);
    }
    let mut flats = section(place, &stretch.flats)?.flat_sides();
    flats.retain(|it| it.length_mm > NOTHING_MM);
    let first = (0..flats.len()).min_by_key(|at| flats[*at].nth);
    flats.rotate_left(first.unwrap_or(0));
    let mut sides = Vec::with_capacity(2 * flats.len());
    for (at, flat) in flats.iter().enumerate() {
        sides.push(Side::Flat(flat.nth));
        let next = &flats[(at + 1) % flats.len()];
        let little = (NOTHING_MM / place.r).to_degrees();
        // Where they meet they may overlap by a rounding.
        let gap = (next.ends_deg[0] - flat.ends_deg[1] + little).rem_euclid(360.0);
        if gap > 2.0 * little {
            sides.push(Side::Round);
        }
    }
    if sides.is_empty() {
        sides.push(Side::Round);
    }
    Some(sides)
}
