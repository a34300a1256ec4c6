//! How fast a thread may be cut by a single point: there must be time to stop.

use super::speed::Speed;
use crate::ThreadCut;
use crate::tasks::feature_map::FeatureMap;
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
    /// Of a thread: n = 60·w / (lead·t).
    pub(crate) fn of(feature_map: &FeatureMap, cut: &ThreadCut) -> SinglePoint {
        let form = &cut.thread.thread;
        // A point as wide as half the pitch stands half of that to either side of its middle.
        let half_tool = form.pitch() / 4;
        let run_out = (free_beyond(feature_map, cut) - half_tool).max(Length::ZERO);
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

/// How far the tool can run on beyond full form: outside until something stands higher than the
/// root, inside as far as the hole stays as wide as the crests.
fn free_beyond(feature_map: &FeatureMap, cut: &ThreadCut) -> Length {
    let form = &cut.thread.thread;
    let part = feature_map.part;
    let inward = |z: f64| match cut.end {
        End::First => z,
        End::Second => part.length.to_mm() - z,
    };
    let Some(profiles) = &part.profiles else {
        return Length::ZERO;
    };
    let (chains, least) = match cut.inside {
        true => (profiles.crest.inner.as_slice(), form.minor_diameter()),
        false => (
            std::slice::from_ref(&profiles.crest.outer),
            form.root_diameter(),
        ),
    };
    let radius = least.to_mm() / 2.0;
    let blocked = |r: f64| match cut.inside {
        true => r < radius - 1e-6,
        false => r > radius + 1e-6,
    };
    let begins = cut.to.to_mm();
    let reach = match cut.inside {
        true => chains
            .iter()
            .flat_map(|it| [inward(it.start().z), inward(it.end().z)])
            .fold(begins, f64::max),
        // What is beyond the zone is stock still.
        false if cut.to <= feature_map.zone[cut.end.index()] => {
            feature_map.zone[cut.end.index()].to_mm()
        }
        false => part.length.to_mm(),
    };
    let pieces = chains.iter().flat_map(|chain| chain.segments());
    let stops = pieces.filter_map(|piece| {
        let (a, b) = (piece.curve.start(), piece.curve.end());
        let (near, far) = match inward(a.z) <= inward(b.z) {
            true => ((inward(a.z), a.r), (inward(b.z), b.r)),
            false => ((inward(b.z), b.r), (inward(a.z), a.r)),
        };
        if far.0 <= begins + 1e-6 || !(blocked(near.1) || blocked(far.1)) {
            return None;
        }
        // A slope is taken as blocked from its beginning.
        Some(near.0.max(begins))
    });
    Length::mm(stops.fold(reach, f64::min) - begins)
}
