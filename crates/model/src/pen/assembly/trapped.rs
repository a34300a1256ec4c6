//! How far a slipped part can be drawn out before something stops it.

use super::group::Groups;
use super::placed_outline::PlacedOutline;
use super::settle::Bodies;
use super::{Placement, TOUCHING_MM};
use crate::{ById, JointId, PartId, Pen};
use quillet_syntax::ast::Verb;

/// What a slipped part may be drawn out before it counts as free, mm.
pub const FREE_MM: f64 = 5.0;

/// How far what goes in can be drawn out of what receives it in the open pen, mm; none where
/// nothing stops it. What is joined to the male by other than a slip comes with it; a spring takes
/// up what it can give.
pub(super) fn draws_out_mm(
    bodies: &Bodies,
    pen: &Pen,
    index: JointId,
    open: &Groups,
) -> Option<f64> {
    let joint = &pen.joints[index];
    let moving = together(pen, joint.male.part);
    if moving[joint.female.part] {
        return Some(0.0);
    }
    // The way out: towards the male's own end.
    let leading = Placement::leading(&pen.parts[joint.male.part], joint.male.end);
    let out = open.place(joint.male.part).reversed == leading.reversed;
    let axis = Placement {
        offset_mm: 0.0,
        reversed: out,
    };
    let place = |part: PartId| open.place(part).then(axis);
    let ends = |part: PartId| {
        let length_mm = pen.parts[part].length.to_mm();
        place(part).span((0.0, length_mm))
    };
    let group: Vec<PartId> = open.with(joint.male.part).collect();
    let give = |part: &PartId| (pen.parts[*part].length_free - pen.parts[*part].length).to_mm();
    let springs: f64 = group.iter().map(give).sum();
    // What lies further off stops nothing in time.
    let far = FREE_MM + springs + TOUCHING_MM;
    let laid = |part: PartId| PlacedOutline::new(bodies.outline(part), place(part));
    let (ours, theirs): (Vec<PartId>, Vec<PartId>) = group.iter().partition(|part| moving[**part]);
    let mut least: Option<f64> = None;
    for one in ours {
        let (from, to) = ends(one);
        let near = |part: &PartId| {
            let (start, end) = ends(*part);
            start <= to + far && end >= from - TOUCHING_MM
        };
        let near: Vec<PartId> = theirs.iter().copied().filter(near).collect();
        let outline = laid(one);
        let met = near.iter().filter_map(|it| meets_mm(outline, laid(*it)));
        least = met.chain(least).reduce(f64::min);
    }
    least.map(|least| (least - springs).max(0.0))
}

/// The parts that hang together with one by lasting joints other than slips.
fn together(pen: &Pen, part: PartId) -> ById<PartId, bool> {
    let mut with = pen.parts.map(|_| false);
    with[part] = true;
    let ties: Vec<(PartId, PartId)> = pen
        .joints
        .iter()
        .filter(|it| it.verb.lasts() && it.verb != Verb::Slip)
        .map(|it| (it.male.part, it.female.part))
        .collect();
    let mut grown = true;
    while grown {
        grown = false;
        for (a, b) in &ties {
            if with[*a] != with[*b] {
                (with[*a], with[*b]) = (true, true);
                grown = true;
            }
        }
    }
    with
}

/// How far one must go towards larger `z` until it meets another that it has not passed, mm.
fn meets_mm(one: PlacedOutline, other: PlacedOutline) -> Option<f64> {
    let ahead = one.facing(true).flat_map(|a| {
        other.facing(false).filter_map(move |b| {
            if a.shares_mm(&b) <= 1e-6 || b.to_z < a.from_z - TOUCHING_MM {
                return None;
            }
            let meeting = a.laid().curve.meeting(&b.laid().curve)?;
            (meeting.travel_mm >= -TOUCHING_MM).then_some(meeting.travel_mm)
        })
    });
    ahead.reduce(f64::min)
}
