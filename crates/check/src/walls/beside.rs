//! Walls beside holes on a pitch circle: to the outside, to the bores, to what closes the part beyond
//! them, and from hole to hole.

use super::{Role, Wall, is_wall};
use num_integer::Integer as _;
use quillet_geometry::{Chain, Circle, Curve, Length, Segment, Tag};
use quillet_model::{CircleHoles, CircleId, End, Origin};
use std::collections::BTreeMap;

/// A part that has such holes.
pub(super) struct Part<'a> {
    pub(super) part: &'a quillet_model::Part,
    /// Its outside at the roots, closed by the faces no bore comes out of.
    pub(super) outer: &'a Chain,
    pub(super) inner: &'a [Chain],
    pub(super) origin: &'a dyn Fn(Tag) -> Origin,
}

/// Places this near along the axis are one, mm.
const SAME_MM: f64 = 1e-6;

/// A hole as the plane through its axis and the part's shows it.
struct Drilled {
    id: CircleId,
    circle: Circle,
    /// Its edges: the sides, the floor or the point; not the face it begins in or comes out of.
    edges: Vec<(Curve, bool)>,
    /// Between these stations lies what may be near: the metal beyond the face it begins in.
    metal: [f64; 2],
}

impl Drilled {
    fn of(id: CircleId, holes: &CircleHoles, circle: Circle, length_mm: f64) -> Drilled {
        let [first, last, beyond, last_low, first_low, before] = circle.outline();
        // Each side from its mouth to its floor, and the point beyond that.
        let (sides, tip, far) = match holes.end {
            End::First => ([(first_low, last_low), (first, last)], beyond, length_mm),
            End::Second => ([(last_low, first_low), (last, first)], before, 0.0),
        };
        let (mouth, floor) = (sides[0].0.z, sides[0].1.z);
        let far = if holes.through { floor } else { far };
        let mut edges = sides
            .map(|(mouth, floor)| (Curve::line(mouth, floor), false))
            .to_vec();
        if !holes.through {
            edges.extend(sides.map(|(_, floor)| (Curve::line(floor, tip), true)));
        }
        Drilled {
            id,
            circle,
            edges,
            metal: [mouth.min(far), mouth.max(far)],
        }
    }

    /// Whether a face is one that it begins in or comes out of.
    fn opens(&self, curve: &Curve, through: bool) -> bool {
        let z = curve.start().z;
        let [from, to] = [self.circle.from_mm, self.circle.to_mm];
        let at = |mm: f64| (z - mm).abs() < SAME_MM;
        let mouth = self.metal.iter().any(|it| at(*it) && (at(from) || at(to)));
        curve.is_vertical() && (mouth || (through && (at(from) || at(to))))
    }
}

impl Part<'_> {
    /// The walls beside holes on these circles.
    pub(super) fn walls(&self, circles: &[Circle]) -> Vec<Wall> {
        let length_mm = self.part.length.to_mm();
        let all = self.part.circles().iter().zip(circles).enumerate();
        let all: Vec<(Drilled, &CircleHoles)> = all
            .map(|(nth, (holes, circle))| {
                let id = CircleId::nth(nth);
                (Drilled::of(id, holes, *circle, length_mm), holes)
            })
            .collect();
        let mut found = Vec::new();
        for (nth, (hole, holes)) in all.iter().enumerate() {
            let mut near: BTreeMap<(Origin, Role), Wall> = BTreeMap::new();
            for it in self.outer.segments() {
                self.note(&mut near, (hole, holes), it, false);
            }
            for it in self.inner.iter().flat_map(Chain::segments) {
                self.note(&mut near, (hole, holes), it, true);
            }
            found.extend(near.into_values());
            found.extend(hole.circle.between_mm().map(|mm| across(hole, hole, mm)));
            // Of thousands the nearest alone is a wall.
            let others = all[..nth].iter();
            let others = others.filter_map(|(other, _)| between(hole, other));
            found.extend(others.min_by_key(|it| it.least));
        }
        found
    }

    /// The wall to one piece of the outside or of a bore, where it is the least to what made that.
    fn note(
        &self,
        near: &mut BTreeMap<(Origin, Role), Wall>,
        (hole, holes): (&Drilled, &CircleHoles),
        piece: &Segment,
        bored: bool,
    ) {
        let origin = (self.origin)(piece.tag);
        let own = Origin::Beside(hole.id);
        let (outer, inner) = if bored { (own, origin) } else { (origin, own) };
        let counts = is_wall(self.part, outer, inner);
        let [from, to] = hole.metal;
        let curve = match piece.curve.is_vertical() {
            true => {
                let z = piece.curve.start().z;
                let within = from - SAME_MM < z && z < to + SAME_MM;
                (within && !hole.opens(&piece.curve, holes.through)).then_some(piece.curve)
            }
            false => piece.curve.between(from, to),
        };
        let Some(curve) = curve.filter(|_| counts) else {
            return;
        };
        for (edge, floor) in &hole.edges {
            let apart = edge.approach(&curve);
            let (of_hole, of_part) = (apart.one, apart.other);
            let along = (of_hole.z - of_part.z).abs() > (of_hole.r - of_part.r).abs();
            let role = match (*floor && along, bored) {
                (true, _) => Role::End,
                (_, false) if origin.feature().is_some() => Role::Tenon,
                _ => Role::Plain,
            };
            let (out, into) = match bored {
                true => (of_hole, of_part),
                false => (of_part, of_hole),
            };
            let wall = Wall {
                outer,
                inner,
                from: Length::mm(hole.circle.from_mm),
                to: Length::mm(hole.circle.to_mm),
                least: Length::mm(apart.distance_mm),
                at: Length::mm(into.z),
                outer_at: Length::mm(out.z),
                outer_dia: Length::mm(out.r).twice(),
                inner_dia: Length::mm(into.r).twice(),
                role,
            };
            let known = near.entry((origin, role)).or_insert(wall);
            if wall.least < known.least {
                *known = wall;
            }
        }
    }
}

/// The wall between holes of two statements, where they lie beside each other.
fn between(hole: &Drilled, other: &Drilled) -> Option<Wall> {
    let (one, two) = (&hole.circle, &other.circle);
    if one.from_mm.max(two.from_mm) >= one.to_mm.min(two.to_mm) {
        return None;
    }
    // Both are alike again after a turn by the lesser common part of their steps.
    let alike = u64::from(one.count).lcm(&u64::from(two.count)).max(1);
    let step = 360.0 / alike as f64;
    let turn = (one.clock_deg - two.clock_deg).rem_euclid(step);
    let turn = turn.min(step - turn).to_radians();
    let (a, b) = (one.on_mm / 2.0, two.on_mm / 2.0);
    let apart = (a * a + b * b - 2.0 * a * b * turn.cos()).max(0.0).sqrt();
    Some(across(
        hole,
        other,
        apart - (one.hole_mm + two.hole_mm) / 2.0,
    ))
}

/// A wall across from hole to hole, half way along what they share.
fn across(hole: &Drilled, other: &Drilled, least_mm: f64) -> Wall {
    let (one, two) = (&hole.circle, &other.circle);
    let (from, to) = (one.from_mm.max(two.from_mm), one.to_mm.min(two.to_mm));
    let at = Length::mm((from + to) / 2.0);
    Wall {
        outer: Origin::Beside(other.id),
        inner: Origin::Beside(hole.id),
        from: Length::mm(from),
        to: Length::mm(to),
        least: Length::mm(least_mm),
        at,
        outer_at: at,
        outer_dia: Length::mm(two.on_mm),
        inner_dia: Length::mm(one.on_mm),
        role: Role::Plain,
    }
}
