//! How fast a thread may be cut by a single point: there must be time to stop.

use super::speed::Speed;
use crate::tasks::feature_map::FeatureMap;
use crate::{InsideCut, InsideShape, ThreadCut};
use quillet_geometry::Length;
use quillet_model::{End, Lathe};

/// What a single-pointed thread leaves the hand for opening the half-nuts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SinglePoint {
    /// What is free beyond full form, less half the tool.
    pub run_out: Length,
    /// The time that must be left in it, seconds.
    pub reaction_s: f64,
    /// The fastest that leaves it, rev/min; nothing where nothing is free.
    pub most_rev_min: f64,
}

/// The eye, the hand and the half-nuts take a second (common practice, no published source).
const SEEN_S: f64 = 1.0;
/// Inside a bore the point is not seen: twice that (common practice, no published source).
const UNSEEN_S: f64 = 2.0;

impl SinglePoint {
    /// Of a thread, with these holes cut so far: n = 60·w / (lead·t).
    pub(crate) fn of(
        feature_map: &FeatureMap,
        cut: &ThreadCut,
        holes: &[InsideCut],
    ) -> SinglePoint {
        let form = &cut.thread.thread;
        // A point as wide as half the pitch stands half of that to either side of its middle.
        let half_tool = form.pitch() / 4;
        let run_out = (free_beyond(feature_map, cut, holes) - half_tool).max(Length::ZERO);
        let reaction_s = if cut.inside { UNSEEN_S } else { SEEN_S };
        SinglePoint {
            run_out,
            reaction_s,
            most_rev_min: 60.0 * run_out.to_mm() / (form.lead_mm() * reaction_s),
        }
    }

    /// The lathe's fastest step that is slow enough, also for a quarter of the turning speed; none
    /// where it has to be turned by the crank.
    pub(crate) fn on(&self, lathe: &Lathe, quarter: &Speed) -> Option<Speed> {
        let most = self.most_rev_min.min(quarter.high_rev_min);
        let slow = lathe.speeds_rev_min.iter().filter(|step| step.0 <= most);
        let set = slow.map(|step| step.1.min(most)).reduce(f64::max)?;
        Some(Speed {
            low_rev_min: set,
            high_rev_min: set,
            settings_rev_min: vec![(set, set)],
            limited: None,
            set_rev_min: Some(set),
            ..quarter.clone()
        })
    }
}

/// How far the tool can run on beyond full form, with these holes cut so far.
fn free_beyond(feature_map: &FeatureMap, cut: &ThreadCut, holes: &[InsideCut]) -> Length {
    match cut.inside {
        true => free_inside(cut, holes, feature_map.part.length),
        false => free_outside(feature_map, cut),
    }
}

/// Inside, where nobody sees it, the point goes on cutting: no further than the run-out of a blind
/// hole, and of a pitch that no standard lists not at all.
fn free_inside(cut: &ThreadCut, holes: &[InsideCut], length: Length) -> Length {
    let form = &cut.thread.thread;
    let run_out = form.relief().map_or(Length::ZERO, |it| it.blind.normal);
    let wide = opened(holes, cut.end, length, form.minor_diameter(), cut.to);
    (wide - cut.to).min(run_out)
}

/// How far from a station on, inward from an end, the holes are at least so wide.
fn opened(holes: &[InsideCut], end: End, length: Length, dia: Length, from: Length) -> Length {
    let mut reached = from;
    let wide = |hole: &&InsideCut| match hole.shape {
        // A cone is as wide at its narrower end.
        InsideShape::Taper { from_dia, to_dia } => from_dia.min(to_dia) >= dia,
        InsideShape::Countersink { .. } => false,
        shape => shape.widest() >= dia,
    };
    // Each hole carries on as far as it goes; there are no more steps than holes.
    for _ in holes {
        for hole in holes.iter().filter(wide) {
            let (near, far) = along(hole, end, length);
            if near <= reached {
                reached = reached.max(far);
            }
        }
    }
    reached
}

/// Where a hole's full diameter begins and ends, inward from an end.
fn along(hole: &InsideCut, end: End, length: Length) -> (Length, Length) {
    let near = match hole.shape {
        InsideShape::Drill { .. } | InsideShape::Ream { .. } => Length::ZERO,
        _ => hole.from,
    };
    match hole.end == end {
        true => (near, hole.to),
        false => (length - hole.to, length - near),
    }
}

/// Outside until something stands higher than the root.
fn free_outside(feature_map: &FeatureMap, cut: &ThreadCut) -> Length {
    let part = feature_map.part;
    let Some(profiles) = &part.profiles else {
        return Length::ZERO;
    };
    let inward = |z: f64| match cut.end {
        End::First => z,
        End::Second => part.length.to_mm() - z,
    };
    let root = cut.thread.thread.root_diameter().to_mm() / 2.0;
    let begins = cut.to.to_mm();
    let zone = feature_map.zone[cut.end.index()];
    // What is beyond the zone is stock still.
    let reach = if cut.to <= zone { zone } else { part.length };
    let stops = profiles.turned().segments().iter().filter_map(|piece| {
        let (a, b) = (piece.curve.start(), piece.curve.end());
        let (near, far) = match inward(a.z) <= inward(b.z) {
            true => ((inward(a.z), a.r), (inward(b.z), b.r)),
            false => ((inward(b.z), b.r), (inward(a.z), a.r)),
        };
        let blocked = near.1.max(far.1) > root + 1e-6;
        // A slope is taken as blocked from its beginning.
        (far.0 > begins + 1e-6 && blocked).then(|| near.0.max(begins))
    });
    Length::mm(stops.fold(reach.to_mm(), f64::min) - begins)
}
