//! How far each part of a joint moves along its axis as the sizes come out otherwise than drawn.

use super::chain::{Drift, Size};
use super::contact::{Member, Met, Spot};
use super::outline::Piece;
use super::settle::{Bodies, Settled, StoppedBy};
use super::surface::Surface;
use crate::{End, Joint, JointEnd, Origin};
use quillet_geometry::Length;
use quillet_syntax::ast::Verb;

/// The drift of each part on the axis of the group it is joined to, as the joints are made.
#[derive(Clone, Debug)]
pub(crate) struct Drifts {
    parts: Vec<Laid>,
}

/// A part on its group's axis.
#[derive(Clone, Debug, Default)]
struct Laid {
    drift: Drift,
    reversed: bool,
}

/// The drift of each part of a joint, on the joint's axis.
#[derive(Clone, Debug, Default)]
pub(crate) struct JointDrifts(Vec<(usize, Drift)>);

impl JointDrifts {
    /// That of a part.
    pub(crate) fn of(&self, part: usize) -> Drift {
        let found = self.0.iter().find(|it| it.0 == part);
        found.map_or_else(Drift::default, |it| it.1.clone())
    }
}

impl Drifts {
    /// Every part by itself.
    pub(crate) fn apart(parts: usize) -> Drifts {
        Drifts {
            parts: vec![Laid::default(); parts],
        }
    }

    /// The drifts of a joint at rest.
    pub(crate) fn of(&self, bodies: &Bodies, joint: &Joint, rest: &Settled) -> JointDrifts {
        let stacked = |member: &&Member| !rest.stacked.iter().any(|it| it.0 == member.part);
        let females: Vec<&Member> = rest.females.iter().filter(stacked).collect();
        let males: Vec<&Member> = rest.males.iter().collect();
        let mut found = JointDrifts::default();
        found.0.extend(self.side(&females, joint.female, false));
        for (part, met) in &rest.stacked {
            let travel = gap(bodies, &found, met);
            found.0.push((*part, travel));
        }
        let mut males = self.side(&males, joint.male, true);
        let mut both = JointDrifts(found.0.iter().chain(&males).cloned().collect());
        let travel = travel(bodies, &both, joint, rest);
        for (_, drift) in &mut males {
            *drift = std::mem::take(drift).plus(1.0, &travel);
        }
        both.0 = found.0;
        both.0.extend(males);
        both
    }

    /// Lays what a joint brings together on its axis.
    pub(crate) fn join(&mut self, drifts: &JointDrifts, rest: &Settled) {
        for member in rest.males.iter().chain(&rest.females) {
            self.parts[member.part] = Laid {
                drift: drifts.of(member.part),
                reversed: member.place.reversed,
            };
        }
    }

    /// The parts of one side, its own end at zero.
    fn side(&self, members: &[&Member], end: JointEnd, leads: bool) -> Vec<(usize, Drift)> {
        let own = &self.parts[end.part];
        let reversed = members
            .iter()
            .find(|it| it.part == end.part)
            .is_some_and(|it| it.place.reversed);
        let whole = Drift::of(Size::Whole { part: end.part });
        let here = match (end.end, leads) {
            (End::First, _) => Drift::default(),
            (End::Second, true) => whole.times(-1.0),
            (End::Second, false) => whole,
        };
        let way = if own.reversed == reversed { 1.0 } else { -1.0 };
        let of = |member: &&Member| {
            let drift = match member.part == end.part {
                true => here.clone(),
                false => {
                    let beside = self.parts[member.part].drift.clone().plus(-1.0, &own.drift);
                    here.clone().plus(way, &beside)
                }
            };
            (member.part, drift)
        };
        members.iter().map(of).collect()
    }
}

/// What decides how far the male goes in.
fn travel(bodies: &Bodies, drifts: &JointDrifts, joint: &Joint, rest: &Settled) -> Drift {
    let by = |by: Length| {
        Drift::of(Size::By {
            part: joint.male.part,
            bought: bodies.parts[joint.male.part].is_bought()
                && bodies.parts[joint.female.part].is_bought(),
            by,
        })
    };
    let contact = || {
        rest.stop
            .as_ref()
            .map_or_else(Drift::default, |met| gap(bodies, drifts, met))
    };
    match (rest.stopped_by, joint.by) {
        (StoppedBy::Overlap, Some((length, _))) if joint.verb == Verb::Post => {
            contact().plus(1.0, &by(length))
        }
        (StoppedBy::Overlap, Some((length, _))) => by(length),
        (StoppedBy::Contact, _) => contact(),
        _ => Drift::default(),
    }
}

/// How the gap between two places that would meet grows: where the female's lies, less the
/// male's, both at the radius where they meet, which itself moves where it is a corner's.
pub(crate) fn gap(bodies: &Bodies, drifts: &JointDrifts, met: &Met) -> Drift {
    let (male, female) = (&met.touch.male, &met.touch.female);
    let one = Seen::of(bodies, male, &met.male);
    let other = Seen::of(bodies, female, &met.female);
    let sum = drifts
        .of(female.part)
        .plus(-1.0, &drifts.of(male.part))
        .plus(other.way, &other.shift)
        .plus(-one.way, &one.shift);
    // Of two slopes that differ, the radius is that of the corner where one of them ends.
    let turn = other.way * other.lean - one.way * one.lean;
    if turn.abs() < 1e-9 {
        return sum;
    }
    let ends = |seen: &Seen, spot: &Spot, piece: &Piece| {
        let at_end = (piece.least_r - spot.radius_mm).abs() < 1e-6
            || (piece.most_r - spot.radius_mm).abs() < 1e-6;
        at_end.then(|| seen.surface.corner(spot.station_mm, spot.radius_mm))
    };
    let corner = ends(&one, male, &met.male)
        .filter(|it| it.iter().next().is_some())
        .or_else(|| ends(&other, female, &met.female));
    match corner {
        Some(corner) => sum.plus(turn, &corner),
        None => sum,
    }
}

/// A place of a surface, on the part's own stations.
struct Seen<'p> {
    surface: Surface<'p>,
    /// How it moves along the part at its radius.
    shift: Drift,
    /// dz/dr there.
    lean: f64,
    /// 1 where the part's stations run with the axis, else -1.
    way: f64,
}

impl<'p> Seen<'p> {
    fn of(bodies: &'p Bodies, spot: &Spot, piece: &Piece) -> Seen<'p> {
        let surface = bodies.surface(spot.part);
        let inside = piece
            .origin
            .feature()
            .and_then(|index| surface.part.features.get(index))
            .is_some_and(crate::Feature::is_inside);
        let station = Length::mm(spot.station_mm);
        let way = if piece.reversed { -1.0 } else { 1.0 };
        let flat = |station| Seen {
            surface,
            shift: surface.plane(inside, station),
            lean: 0.0,
            way,
        };
        if piece.curve.is_vertical() {
            return flat(station);
        }
        // The curve lies on the joint's axis; its slope is turned back to the part's.
        let slope = way * piece.curve.slope_at_r(spot.radius_mm);
        if slope == 0.0 {
            return flat(station);
        }
        if slope.abs() > STEEP {
            let pole = match piece.origin {
                Origin::Outside(index) => surface.part.stations.get(index).map(|it| it.at),
                _ => None,
            };
            return flat(pole.unwrap_or(station));
        }
        let across = surface.across(piece.origin, spot.station_mm, slope);
        Seen {
            surface,
            shift: across.times(-1.0 / slope),
            lean: 1.0 / slope,
            way,
        }
    }
}

/// Steeper than this a curve is a face.
const STEEP: f64 = 1e4;
