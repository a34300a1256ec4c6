//! What holds a joint.

use super::clearance::Tightest;
use super::magnet::{MagnetPair, facing};
use super::radial_clearance::{RadialClearance, Reach, beside};
use super::settle::{Bodies, SeatedJoint};
use super::snap::{SnapFit, snapped};
use super::trapped::{FREE_MM, draws_out_mm};
use super::{Engagement, SeatedRing, clearance, group::Groups};
use crate::{ById, FitRequest, Joint, JointId, Material, PartId, Parts, Pen, RingId};
use quillet_geometry::Length;
use quillet_syntax::ast::Verb;
use std::sync::Arc;

/// Something that holds a joint; all but the thread and what traps are common practice, no
/// published source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeldBy {
    /// A thread, of which so much lies in the other.
    Thread(Engagement),
    /// An O-ring squeezed enough to hold: by 8 % of its cord or more.
    Ring {
        /// Which.
        ring: RingId,
        /// The share of its cord that is squeezed.
        squeeze: f64,
    },
    /// What goes in is fatter than what receives it.
    Interference {
        /// By how much, on diameter; what is asked where the joint asks.
        size: Length,
        /// The joint asks for it.
        asked: bool,
    },
    /// A tight slide of a part that is pushed on.
    Push {
        /// The clearance, on diameter; less than nothing where it is tight.
        clearance: Length,
    },
    /// Glue in a gap that it fills.
    Glue {
        /// The gap, on diameter.
        gap: Length,
        /// Over how much of its length, mm.
        over_mm: f64,
    },
    /// A taper that wedges.
    Taper(PostedContact),
    /// Other parts keep it from coming out by more than so much.
    Trapped {
        /// How far it can be drawn, mm.
        free_mm: f64,
    },
    /// A ridge has sprung past a land.
    Snap(SnapFit),
    /// Magnets pull each other.
    Magnets(MagnetPair),
    /// A bought part grips a diameter by itself.
    Grips {
        /// Which part.
        part: PartId,
        /// What it grips.
        dia: Length,
    },
    /// A bought part takes it up inside, where nothing is drawn.
    TakenUp,
}

/// How a cap rides on a tail.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PostedContact {
    /// The angle of the tail's surface with the axis, in degrees, where it touches; at a corner
    /// that of the gentler side.
    pub half_angle_deg: f64,
    /// How far the mouth reaches over the tail, mm.
    pub over_mm: f64,
    /// The diameter it rides on.
    pub dia: Length,
}

/// How the plain surfaces of a joint's own two parts lie in each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlainFit {
    /// The least on the way in, on diameter; less than nothing where what goes in is fatter.
    pub clearance: Length,
    /// Over how much of their length they lie within [`GLUE_GAP`] of each other, mm.
    pub near_mm: f64,
}

/// From this on a squeezed O-ring holds.
const LEAST_SQUEEZE: f64 = 0.08;
/// The loosest and the tightest push that holds, on diameter.
pub const PUSH: (Length, Length) = (Length::from_nm(-400_000), Length::from_nm(50_000));
/// The gaps that glue holds in, on diameter; and over how much at least, mm.
pub const GLUE_GAP: (Length, Length) = (Length::from_nm(20_000), Length::from_nm(300_000));
/// The least that glue reaches over, mm.
pub const GLUE_MM: f64 = 1.0;
/// The steepest half angle that a cap holds on, in degrees; it must reach over one diameter.
const TAPER_DEG: f64 = 3.0;
/// Sizes are whole nanometres, and sums of them come close.
const NEARLY: Length = Length::from_nm(2);

/// How the plain surfaces of the joint's own two parts lie in each other at rest; none where
/// nothing of the one lies in the other.
pub(super) fn plain_fit(
    bodies: &Bodies,
    rest: &SeatedJoint,
    tightest: Option<&Tightest>,
) -> Option<PlainFit> {
    let Tightest {
        male, female, at, ..
    } = tightest?;
    let threads: Vec<(Reach, Reach)> = clearance::threads(bodies, rest, male, female);
    let most_mm = GLUE_GAP.1.to_mm() / 2.0 + 1e-6;
    Some(PlainFit {
        clearance: Length::mm(2.0 * at.gap_mm),
        near_mm: beside(
            male.plain().radii(),
            female.plain().radii(),
            &threads,
            most_mm,
        ),
    })
}

/// What holds a joint at rest, O-rings apart; `open` holds every joint of the open pen.
pub(super) fn held_by(
    bodies: &Bodies,
    pen: &Pen,
    index: JointId,
    rest: &SeatedJoint,
    (engagements, fit, tightest): (&[Engagement], Option<PlainFit>, Option<&Tightest>),
    open: &Groups,
) -> Vec<HeldBy> {
    let joint = &pen.joints[index];
    let mut held = Vec::new();
    let engaged = engagements.first().filter(|it| it.overlap_mm > 0.0);
    held.extend(engaged.map(|it| HeldBy::Thread(*it)));
    let snap = tightest
        .filter(|_| matches!(joint.verb, Verb::Close | Verb::Post))
        .and_then(|it| snapped(joint, &pen.parts, (it.male, it.female), &it.at));
    match snap {
        Some(snap) => held.push(HeldBy::Snap(snap)),
        None => held.extend(interference(joint, fit)),
    }
    held.extend(tightest.and_then(|it| grips(joint, &pen.parts, &it.at)));
    if matches!(joint.verb, Verb::Close | Verb::Post) {
        held.extend(facing(bodies, rest).map(HeldBy::Magnets));
    }
    match joint.verb {
        Verb::Push if rest.own == super::contact::OwnContact::Passes => held.push(HeldBy::TakenUp),
        Verb::Push => held.extend(push(fit)),
        Verb::Glue if joint.unglueable(&pen.parts).is_none() => held.extend(glue(fit)),
        Verb::Post => held.extend(
            ride(pen, rest)
                .filter(|it| {
                    it.half_angle_deg <= TAPER_DEG + 1e-9 && it.over_mm >= it.dia.to_mm() - 1e-9
                })
                .map(HeldBy::Taper),
        ),
        Verb::Slip => {
            let free_mm = draws_out_mm(bodies, pen, index, open);
            held.extend(
                free_mm
                    .filter(|it| *it < FREE_MM)
                    .map(|free_mm| HeldBy::Trapped { free_mm }),
            );
        }
        _ => {}
    }
    held
}

/// The O-rings that hold a joint, put to what else does.
pub(super) fn rings(joint: JointId, rings: &ById<RingId, SeatedRing>, held: &mut Vec<HeldBy>) {
    for (ring, it) in rings.with_ids() {
        if let Some(seal) = it.seal
            && seal.joint == joint
            && seal.squeeze >= LEAST_SQUEEZE - 1e-9
        {
            let squeeze = seal.squeeze;
            held.push(HeldBy::Ring { ring, squeeze });
        }
    }
}

/// The bought part of a joint that grips the diameter of the other.
fn grips(joint: &Joint, parts: &Parts, at: &RadialClearance) -> Option<HeldBy> {
    if !matches!(
        joint.verb,
        Verb::Close | Verb::Post | Verb::Press | Verb::Push
    ) {
        return None;
    }
    let sides = [
        (joint.male.part, at.female.radius_mm),
        (joint.female.part, at.male.radius_mm),
    ];
    sides.into_iter().find_map(|(part, radius_mm)| {
        let (least, most) = parts[part].grips()?;
        let dia = Length::mm(radius_mm).twice();
        (least <= dia && dia <= most).then_some(HeldBy::Grips { part, dia })
    })
}

/// Interference drawn, or asked for by a joint that presses.
fn interference(joint: &Joint, fit: Option<PlainFit>) -> Option<HeldBy> {
    if let Some((FitRequest::Interference(size), _)) = joint.asks {
        return Some(HeldBy::Interference { size, asked: true });
    }
    let size = -fit?.clearance;
    let (drawn, tight) = match joint.verb {
        Verb::Press => (size > NEARLY, true),
        // Sizes that agree: too close to call, not loose.
        Verb::Close => (size > -NEARLY, true),
        _ => (false, false),
    };
    let size = if size.is_negative() {
        Length::ZERO
    } else {
        size
    };
    (drawn && tight).then_some(HeldBy::Interference { size, asked: false })
}

fn push(fit: Option<PlainFit>) -> Option<HeldBy> {
    let clearance = fit?.clearance;
    (PUSH.0 - NEARLY <= clearance && clearance <= PUSH.1 + NEARLY)
        .then_some(HeldBy::Push { clearance })
}

fn glue(fit: Option<PlainFit>) -> Option<HeldBy> {
    let PlainFit { clearance, near_mm } = fit?;
    let fills = GLUE_GAP.0 - NEARLY <= clearance && clearance <= GLUE_GAP.1 + NEARLY;
    (fills && near_mm >= GLUE_MM - 1e-6).then_some(HeldBy::Glue {
        gap: clearance,
        over_mm: near_mm,
    })
}

/// Kinds that no glue of the bench wets: common practice, no published source.
const UNGLUEABLE: [&str; 3] = ["acetal", "acetal-homopolymer", "ptfe"];

impl Joint {
    /// The material of one of its two ends that no glue holds on.
    pub fn unglueable<'p>(&self, parts: &'p Parts) -> Option<&'p Arc<Material>> {
        [self.male, self.female].into_iter().find_map(|end| {
            let part = parts.get(end.part)?;
            let inside = part.station(end.end, Length::from_nm(1));
            let material = part.material_at(inside)?;
            UNGLUEABLE
                .contains(&material.kind.kind())
                .then_some(material)
        })
    }
}

/// How a posted cap rides on the tail.
pub(super) fn ride(pen: &Pen, rest: &SeatedJoint) -> Option<PostedContact> {
    let touch = rest.touches.first()?;
    let profiles = pen.parts[touch.male.part].profiles.as_ref()?;
    let spot = &touch.male;
    let slopes = profiles.crest.outer.segments().iter().filter_map(|piece| {
        let curve = &piece.curve;
        let on = curve.spans(spot.station_mm)
            && (curve.radius_at(spot.station_mm) - spot.radius_mm).abs() < 1e-4;
        let slope = || curve.slope(curve.param_at_z(spot.station_mm)).abs();
        on.then(|| slope().atan().to_degrees())
    });
    Some(PostedContact {
        half_angle_deg: slopes.fold(90.0, f64::min),
        over_mm: rest.goes_in_mm,
        dia: Length::mm(touch.female.radius_mm).twice(),
    })
}
