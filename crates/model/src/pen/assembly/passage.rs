//! What is too fat for what it has to pass: the true throat, and the true largest that must go
//! through it.

use super::contact::{SurfacePoint, TOUCHING_MM, Touch};
use super::{AtRest, StoppedBy};
use crate::{Joint, Origin, Part, PartId, Pen, Profiles};
use quillet_geometry::{Chain, Segment};
use quillet_syntax::ast::Verb;

/// Something that does not pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blocked {
    /// What touches.
    pub touch: Touch,
    /// The narrowest that has to be passed: beyond the mouth's broken edge or a drill's cone, the
    /// bore itself.
    pub throat: SurfacePoint,
    /// The largest that has to pass it, up to the next shoulder: behind a broken edge, the full
    /// diameter.
    pub passes: SurfacePoint,
}

/// What stops the male before it is in, or a part that goes with it at a step it should pass.
pub(super) fn blocked(pen: &Pen, joint: &Joint, rest: &AtRest) -> Option<Blocked> {
    // What is to touch at its face has nothing to pass.
    let seated = rest.seat_gap_mm.is_some_and(|gap| gap.abs() <= TOUCHING_MM);
    let seated = seated && (matches!(joint.verb, Verb::Glue) || butts(joint));
    if rest.stopped_by != StoppedBy::Contact || joint.verb == Verb::Post || seated {
        return None;
    }
    let touch = rest.touches.iter().find(|touch| {
        let female = &pen.parts[touch.female.part];
        let goes_on = beyond(female, &touch.female, rest).is_some_and(|radius| radius > 0.0)
            && !is_bottom(female, &touch.female);
        let own = touch.male.part == joint.male.part;
        let stopped = match own {
            true => {
                rest.goes_in_mm <= TOUCHING_MM
                    || !lacks_thread(pen, joint, rest) && at_the_mouth(pen, joint, touch)
            }
            false => rest.short_mm > TOUCHING_MM,
        };
        goes_on && stopped
    })?;
    Some(Blocked::of(pen, touch, rest))
}

/// Whether a cap is to close face to face: the seat is the two ends that the joint names.
fn butts(joint: &Joint) -> bool {
    let of = |end: crate::JointEnd, face: &crate::PenFace| {
        face.part == end.part && face.end == Some(end.end)
    };
    joint.verb == Verb::Close
        && joint.seat.as_ref().is_some_and(|seat| {
            of(joint.first(), &seat.first) && of(joint.second(), &seat.second)
                || of(joint.first(), &seat.second) && of(joint.second(), &seat.first)
        })
}

impl Blocked {
    fn of(pen: &Pen, touch: &Touch, rest: &AtRest) -> Blocked {
        // The female may be what goes in: a converter on a feed goes down the section's bore.
        let (one, other) = (Ring::at(pen, &touch.male), Ring::at(pen, &touch.female));
        let inward =
            one.hole_mm > 1e-6 && other.outside_mm > one.hole_mm - 1e-6 && one.holds(&other);
        let (thin, narrow) = match inward {
            true => (touch.female, touch.male),
            false => (touch.male, touch.female),
        };
        let reversed = |part: PartId| {
            let mut members = rest.males.iter().chain(&rest.females);
            members
                .find(|(index, _)| *index == part)
                .is_some_and(|(_, place)| place.reversed)
        };
        // What is too fat lies behind the touch, what it has to pass beyond it.
        Blocked {
            touch: *touch,
            throat: bore_from(
                &pen.parts[narrow.part],
                narrow,
                reversed(narrow.part) != inward,
            ),
            passes: fattest_behind(&pen.parts[thin.part], thin, reversed(thin.part) == inward),
        }
    }
}

/// A part across its axis at a place.
struct Ring {
    hole_mm: f64,
    outside_mm: f64,
}

impl Ring {
    fn at(pen: &Pen, spot: &SurfacePoint) -> Ring {
        let Some(profiles) = &pen.parts[spot.part].profiles else {
            return Ring {
                hole_mm: 0.0,
                outside_mm: spot.radius_mm,
            };
        };
        let outside = profiles.crest.outer.greatest_at(spot.station_mm);
        Ring {
            hole_mm: profiles.crest.bore_radius(spot.station_mm),
            outside_mm: outside.unwrap_or(0.0).max(spot.radius_mm),
        }
    }

    /// Whether the other is meant to go in it: both its hole and its outside are wider.
    fn holds(&self, other: &Ring) -> bool {
        self.hole_mm > other.hole_mm && self.outside_mm > other.outside_mm
    }
}

/// Pieces of surface from a station on, one after the other; `down` towards the first end.
fn onward(segments: &[Segment], station_mm: f64, down: bool) -> Vec<&Segment> {
    let here = |piece: &&Segment| {
        let (from, to) = (piece.curve.start().z, piece.curve.end().z);
        match down {
            true => from < station_mm - SAME,
            false => to > station_mm + SAME,
        }
    };
    let mut found: Vec<&Segment> = segments
        .iter()
        .filter(|piece| !piece.curve.is_vertical())
        .filter(here)
        .collect();
    if down {
        found.reverse();
    }
    found
}

const SAME: f64 = 1e-6;

/// The bore a place leads into: past broken edges and drills' cones, at its narrowest.
fn bore_from(part: &Part, spot: SurfacePoint, down: bool) -> SurfacePoint {
    let Some(profiles) = &part.profiles else {
        return spot;
    };
    let in_it = |chain: &&Chain| {
        chain.start().z <= spot.station_mm + SAME && chain.end().z >= spot.station_mm - SAME
    };
    let Some(bore) = profiles.crest.inner.iter().find(in_it) else {
        return spot;
    };
    let is_way = |piece: &&&Segment| {
        let origin = profiles.origin(piece.tag);
        let closed = piece.curve.start().r.min(piece.curve.end().r) < SAME;
        !closed && (origin.is_edge() || matches!(origin, Origin::DrillPoint(_)))
    };
    let pieces = onward(bore.segments(), spot.station_mm, down);
    let way = pieces.iter().take_while(is_way).count();
    let Some(piece) = pieces.get(way).or(pieces.last()) else {
        return spot;
    };
    let (start, end) = (piece.curve.start(), piece.curve.end());
    // Amid the bore, where no face lies.
    SurfacePoint {
        origin: profiles.origin(piece.tag),
        station_mm: (start.z + end.z) / 2.0,
        radius_mm: start.r.min(end.r),
        ..spot
    }
}

/// The largest from a place on, as far as the next shoulder that looks the way it goes.
fn fattest_behind(part: &Part, spot: SurfacePoint, down: bool) -> SurfacePoint {
    let Some(profiles) = &part.profiles else {
        return spot;
    };
    let ahead_of = |piece: &Segment, first: bool| {
        let (start, end) = (piece.curve.start(), piece.curve.end());
        if down == first { end } else { start }
    };
    let pieces = onward(profiles.crest.outer.segments(), spot.station_mm, down);
    let mut fattest = spot;
    let mut before: Option<f64> = None;
    for piece in pieces {
        let (near, far) = (ahead_of(piece, true), ahead_of(piece, false));
        let origin = profiles.origin(piece.tag);
        let steps = before.is_some_and(|radius| near.r > radius + SAME);
        if steps && near.r > fattest.radius_mm + SAME {
            break;
        }
        for place in [near, far] {
            if place.r > fattest.radius_mm + SAME {
                fattest = SurfacePoint {
                    origin,
                    station_mm: place.z,
                    radius_mm: place.r,
                    ..spot
                };
            }
        }
        before = Some(far.r);
    }
    named_amid(profiles, fattest)
}

/// A place at the corner of two pieces told by the plain one.
fn named_amid(profiles: &Profiles, spot: SurfacePoint) -> SurfacePoint {
    let plain = profiles.crest.outer.segments().iter().find(|piece| {
        let origin = profiles.origin(piece.tag);
        let on = piece.curve.spans(spot.station_mm) && !piece.curve.is_vertical();
        on && !origin.is_edge()
            && (piece.curve.radius_at(spot.station_mm) - spot.radius_mm).abs() < SAME
    });
    plain.map_or(spot, |piece| SurfacePoint {
        origin: profiles.origin(piece.tag),
        ..spot
    })
}

/// Whether a joint that may be threaded has its threads on one side only, or such as do not match:
/// told by rules of its own.
fn lacks_thread(pen: &Pen, joint: &Joint, rest: &AtRest) -> bool {
    let cut = |part: PartId, inside: bool| {
        let mut threads = pen.parts[part].features.iter();
        threads.any(|it| it.thread().is_some() && it.is_inside() == inside)
    };
    matches!(joint.verb, Verb::Screw | Verb::Close)
        && rest.engagements.is_empty()
        && (cut(joint.male.part, false) || cut(joint.female.part, true))
}

/// Whether the male's leading corner, broken or sharp, touches the female's face or the broken
/// edge of its mouth: none of it is in.
fn at_the_mouth(pen: &Pen, joint: &Joint, touch: &Touch) -> bool {
    let own = touch.female.part == joint.female.part;
    let (male, female) = (&pen.parts[joint.male.part], &pen.parts[joint.female.part]);
    own && on_edge(male, joint.male.end, &touch.male)
        && on_edge(female, joint.female.end, &touch.female)
}

/// Whether a place lies on an end's face or on its broken edge.
fn on_edge(part: &Part, end: crate::End, spot: &SurfacePoint) -> bool {
    let station = |origin: Origin| match origin {
        Origin::Face(face) => face == end,
        Origin::FeatureEdge(index) => part.features.get(index).is_some_and(|it| it.end == end),
        Origin::StationEdge(index) => part
            .stations
            .get(index)
            .is_some_and(|it| it.at == part.station(end, quillet_geometry::Length::ZERO)),
        _ => false,
    };
    station(spot.origin)
}

/// Whether a place is on the point that a drill leaves at the end of a blind hole: what comes to
/// it is too long, not too fat.
fn is_bottom(part: &Part, spot: &SurfacePoint) -> bool {
    let Some(profiles) = &part.profiles else {
        return false;
    };
    let mut pieces = profiles.crest.inner.iter().flat_map(Chain::segments);
    matches!(spot.origin, Origin::DrillPoint(_))
        && pieces.any(|piece| {
            let least = piece.curve.start().r.min(piece.curve.end().r);
            profiles.origin(piece.tag) == spot.origin && least < SAME
        })
}

impl Part {
    /// Whether a place is on the point at the end of a blind hole: what comes to it is too long,
    /// not too fat.
    pub fn is_blind_point(&self, spot: &SurfacePoint) -> bool {
        is_bottom(self, spot)
    }
}

/// The bore's radius just beyond a place, on the way in.
fn beyond(female: &Part, spot: &SurfacePoint, rest: &AtRest) -> Option<f64> {
    let profiles = female.profiles.as_ref()?;
    let (_, place) = rest.females.iter().find(|(part, _)| *part == spot.part)?;
    let just = if place.reversed { -1e-3 } else { 1e-3 };
    let at = spot.station_mm + just;
    let inside = |chain: &Chain| chain.least_at(at);
    profiles
        .crest
        .inner
        .iter()
        .filter_map(inside)
        .reduce(f64::max)
}
