//! How far each part of a joint moves along its axis as the sizes come out otherwise than drawn.

mod station;

use super::chain::{Drift, Size};
use super::contact::{Member, RawContact, SurfacePoint};
use super::settle::{Bodies, SeatedJoint, StoppedBy};
use crate::outline::OutlinePiece;
use crate::{ById, End, Joint, JointEnd, PartId};
use quillet_geometry::Length;
use quillet_syntax::ast::Verb;
use station::SurfaceStation;

/// How the parts joined so far move against each other.
///
/// Kept from joint to joint, and added up along the way from one part to another when it is asked
/// for: near parts are asked for, and the way to them is short.
#[derive(Clone, Debug)]
pub(crate) struct Drifts {
    /// Of each part, what it is tied to.
    ties: ById<PartId, Vec<JointLink>>,
    /// How many joints were made.
    made: usize,
}

/// One part tied to another by a joint.
#[derive(Clone, Debug)]
struct JointLink {
    to: PartId,
    /// How many joints were made before.
    made: usize,
    /// How far the other's first end moves from this one's, along this one's stations.
    drift: Drift,
    /// Their stations run against each other.
    turned: bool,
}

/// How the two sides of a joint move on its axis.
#[derive(Clone, Debug, Default)]
pub(crate) struct JointDrifts {
    /// The parts from which the others follow: its own two, and those trapped.
    own: Vec<PlacedPart>,
    /// How many joints were made before.
    made: usize,
}

/// A part on a joint's axis.
#[derive(Clone, Debug)]
struct PlacedPart {
    part: PartId,
    drift: Drift,
    reversed: bool,
}

/// The drift of each part of a joint, on the joint's axis.
#[derive(Clone, Copy)]
pub(crate) struct AxisDrifts<'d> {
    drifts: &'d Drifts,
    joint: &'d JointDrifts,
}

impl AxisDrifts<'_> {
    /// That of a part.
    pub(crate) fn of(&self, part: PartId) -> Drift {
        self.way(part).unwrap_or_default()
    }

    /// Added up along the ties that led there before the joint was made, looked for from near to
    /// far; none where the part is not the joint's.
    fn way(&self, part: PartId) -> Option<Drift> {
        if let Some(own) = self.joint.own.iter().find(|it| it.part == part) {
            return Some(own.drift.clone());
        }
        let mut reached: Vec<PathPart> = self.joint.own.iter().map(PathPart::from).collect();
        let mut seen = self.drifts.ties.map(|_| false);
        for it in &reached {
            seen[it.part] = true;
        }
        let mut next = 0;
        while let Some(it) = reached.get(next).copied() {
            if it.part == part {
                return Some(it.added_up(&reached).drift);
            }
            for tie in &self.drifts.ties[it.part] {
                if tie.made < self.joint.made && !std::mem::replace(&mut seen[tie.to], true) {
                    reached.push(PathPart {
                        part: tie.to,
                        by: Some((next, tie)),
                        ..it
                    });
                }
            }
            next += 1;
        }
        None
    }
}

/// A part on the way from one of a joint's own.
#[derive(Clone, Copy)]
struct PathPart<'d> {
    part: PartId,
    /// The part it began at.
    own: &'d PlacedPart,
    /// Which one it was reached from, and by what.
    by: Option<(usize, &'d JointLink)>,
}

impl<'d> PathPart<'d> {
    fn from(own: &'d PlacedPart) -> Self {
        PathPart {
            part: own.part,
            own,
            by: None,
        }
    }

    fn added_up(self, all: &[PathPart]) -> PlacedPart {
        let mut way = Vec::new();
        let mut by = self.by;
        while let Some((before, tie)) = by {
            way.push(tie);
            by = all[before].by;
        }
        way.iter().rfold(self.own.clone(), |laid, tie| PlacedPart {
            part: tie.to,
            drift: laid.drift.plus(sign(laid.reversed), &tie.drift),
            reversed: laid.reversed != tie.turned,
        })
    }
}

fn sign(reversed: bool) -> f64 {
    if reversed { -1.0 } else { 1.0 }
}

impl Drifts {
    /// Every part by itself.
    pub(crate) fn apart(parts: usize) -> Drifts {
        Drifts {
            ties: ById::filled(Vec::new(), parts),
            made: 0,
        }
    }

    /// The drifts on a joint's axis.
    pub(crate) fn on<'d>(&'d self, joint: &'d JointDrifts) -> AxisDrifts<'d> {
        AxisDrifts {
            drifts: self,
            joint,
        }
    }

    /// The drifts of a joint at rest.
    pub(crate) fn of(&self, bodies: &Bodies, joint: &Joint, rest: &SeatedJoint) -> JointDrifts {
        let mut found = JointDrifts {
            own: vec![PlacedPart::end(&rest.females, joint.female, false)],
            made: self.made,
        };
        for (part, met) in &rest.stacked {
            let mut laid = PlacedPart::start(&rest.females, *part);
            laid.drift = gap(bodies, self.on(&found), met);
            found.own.push(laid);
        }
        found
            .own
            .push(PlacedPart::end(&rest.males, joint.male, true));
        let travel = travel(bodies, self.on(&found), joint, rest);
        if let Some(male) = found.own.last_mut() {
            male.drift = std::mem::take(&mut male.drift).plus(1.0, &travel);
        }
        found
    }

    /// Ties what a joint brings together.
    pub(crate) fn join(&mut self, joint: &JointDrifts) {
        let Some((female, others)) = joint.own.split_first() else {
            return;
        };
        for other in others {
            for (one, to) in [(female, other), (other, female)] {
                let way = sign(one.reversed);
                let drift = to.drift.clone().plus(-1.0, &one.drift).times(way);
                self.ties[one.part].push(JointLink {
                    to: to.part,
                    made: self.made,
                    drift,
                    turned: one.reversed != to.reversed,
                });
            }
        }
        self.made += 1;
    }
}

impl PlacedPart {
    /// A part whose first end lies where it should.
    fn start(members: &[Member], part: PartId) -> PlacedPart {
        let member = members.iter().find(|it| it.part == part);
        PlacedPart {
            part,
            drift: Drift::default(),
            reversed: member.is_some_and(|it| it.place.reversed),
        }
    }

    /// A joint's own part, with its end at zero.
    fn end(members: &[Member], end: JointEnd, leads: bool) -> PlacedPart {
        let whole = Drift::of(Size::Whole { part: end.part });
        PlacedPart {
            drift: match (end.end, leads) {
                (End::First, _) => Drift::default(),
                (End::Second, true) => whole.times(-1.0),
                (End::Second, false) => whole,
            },
            ..PlacedPart::start(members, end.part)
        }
    }
}

/// What decides how far the male goes in.
fn travel(bodies: &Bodies, drifts: AxisDrifts, joint: &Joint, rest: &SeatedJoint) -> Drift {
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
        (StoppedBy::Level, _) => Drift::of(Size::Whole {
            part: joint.male.part,
        }),
        _ => Drift::default(),
    }
}

/// How the gap between two places that would meet grows: where the female's lies, less the
/// male's, both at the radius where they meet, which itself moves where it is a corner's.
pub(crate) fn gap(bodies: &Bodies, drifts: AxisDrifts, met: &RawContact) -> Drift {
    let (male, female) = (&met.touch.male, &met.touch.female);
    let one = SurfaceStation::of(bodies, male, &met.male);
    let other = SurfaceStation::of(bodies, female, &met.female);
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
    let ends = |seen: &SurfaceStation, spot: &SurfacePoint, piece: &OutlinePiece| {
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
