//! What a joint comes to rest on, of all that meets in it.

use super::super::contact::{RawContact, TOUCHING_MM, Touch};
use super::super::threads::mated;
use super::StoppedBy;
use crate::{FitRequest, Joint, JointEnd, Parts};
use quillet_geometry::Length;
use quillet_standards::fit::Fit;
use quillet_syntax::ast::Verb;

#[derive(Clone, Copy)]
pub(super) enum ContactSide {
    Male,
    Female,
}

/// How deep the male lies, what decides it and what it touches.
pub(super) fn rest(
    joint: &Joint,
    parts: &Parts,
    met: Vec<RawContact>,
) -> (f64, StoppedBy, Vec<Touch>) {
    let contact = met.first().map(|it| it.travel_mm);
    let by = joint.by.map(|(by, _)| by.to_mm());
    match (joint.verb, contact, by) {
        // The cap is pushed on past its first touch.
        (Verb::Post, Some(contact), by) => {
            let touches = met.into_iter().map(|it| it.touch).collect();
            let by = by.unwrap_or(0.0);
            let stopped = if by > 0.0 {
                StoppedBy::Overlap
            } else {
                StoppedBy::Contact
            };
            (contact + by, stopped, touches)
        }
        (_, Some(contact), Some(by)) if by < contact - TOUCHING_MM => {
            (by, StoppedBy::Overlap, Vec::new())
        }
        (_, Some(contact), _) => {
            let touches = met.into_iter().map(|it| it.touch).collect();
            (contact, StoppedBy::Contact, touches)
        }
        (_, None, Some(by)) => (by, StoppedBy::Overlap, Vec::new()),
        // What is glued in goes no further than the bench it is set down on.
        (Verb::Glue | Verb::Press, None, None) => {
            let male = &parts[joint.male.part];
            (male.length.to_mm(), StoppedBy::Level, Vec::new())
        }
        (_, None, None) => {
            let female = &parts[joint.female.part];
            (female.length.to_mm(), StoppedBy::Nothing, Vec::new())
        }
    }
}

/// Whether what is pushed goes in where nothing is drawn: into a bought part of which only the
/// outside is said, and which is fatter than what goes in.
pub(super) fn takes_up(joint: &Joint, parts: &Parts) -> bool {
    let (male, female) = (&parts[joint.male.part], &parts[joint.female.part]);
    let undrawn = female.is_bought() && !female.features.iter().any(crate::Feature::is_inside);
    let outside_mm = |part: &crate::Part, end: JointEnd| {
        let at = part.station(end.end, Length::ZERO).to_mm();
        part.profiles.as_ref()?.crest.outer.greatest_at(at)
    };
    let sizes = outside_mm(male, joint.male).zip(outside_mm(female, joint.female));
    undrawn && sizes.is_some_and(|(inner, outer)| inner < outer)
}

/// What a press or a push squeezes past, in radius: the interference it asks for, else a push's
/// give (common practice, no published source).
pub(super) fn squeezed_mm(joint: &Joint, parts: &Parts) -> f64 {
    if let Some((overlap, _)) = joint.snap {
        return (overlap.to_mm() + SNAP_GIVE_MM) / 2.0;
    }
    let on_diameter = match (&joint.asks, joint.verb) {
        (Some((FitRequest::Interference(size), _)), _) => size.to_mm(),
        (Some((FitRequest::Fit(fit), _)), _) => most_interference_mm(fit, joint, parts),
        (_, Verb::Push) => PUSH_GIVE_MM,
        (_, Verb::Press) => PRESS_GIVE_MM,
        (_, Verb::Close) if mated(joint, parts).is_empty() => CLOSE_GIVE_MM,
        _ => 0.0,
    };
    on_diameter / 2.0
}

/// How much fatter than its mouth a heel may be that is pushed into it, on diameter.
const PUSH_GIVE_MM: f64 = 0.4;

/// As much for a press that asks for nothing.
const PRESS_GIVE_MM: f64 = 0.05;

/// As much for a plain cap: what can still be pushed on, however stiffly.
const CLOSE_GIVE_MM: f64 = 0.1;

/// What a snap passes over the overlap that it asks for, so that one drawn a little larger is told
/// of as such.
const SNAP_GIVE_MM: f64 = 0.05;

/// The most interference of a fit at the female's size, on diameter.
fn most_interference_mm(fit: &Fit, joint: &Joint, parts: &Parts) -> f64 {
    let female = &parts[joint.female.part];
    let Some(profiles) = &female.profiles else {
        return 0.0;
    };
    let at = female.station(joint.female.end, Length::ZERO).to_mm();
    let dia = Length::mm(2.0 * profiles.crest.bore_radius(at));
    fit.at(dia)
        .map_or(0.0, |limits| (-limits.clearance.min().to_mm()).max(0.0))
}
