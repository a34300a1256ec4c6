//! What the tail centre stands in at an open end.

use crate::holding::make_mandrel::{PASSES, empty, shoulder, thread_of};
use crate::holding::mandrel_set::MandrelSet;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::mate::Mates;
use crate::{Fitted, Mandrel, MandrelKind, TailSupport};
use quillet_geometry::Length;
use quillet_model::End;
use quillet_syntax::ast::Side;

/// Twice the tangent of 30°.
const CONE_60: f64 = 1.154_700_538_379_251_5;
/// A plug for the tail centre goes in no further than it needs to stand (common practice, no
/// published source).
const TAIL_PLUG: Length = Length::from_nm(4_000_000);

/// Its mouth, or a plug where the cone would bruise a thread.
pub(crate) fn open_mouth(
    feature_map: &FeatureMap,
    end: End,
    mates: &Mates,
    mandrel_set: &mut MandrelSet,
) -> TailSupport {
    let (inner, at, _) = feature_map.mouth(end, mates);
    match tail_plug(inner, at) {
        Some(plug) => {
            let serves = vec![(feature_map.part.name.text.clone(), end)];
            TailSupport::Plug(mandrel_set.put(Mandrel { serves, ..plug }))
        }
        None => TailSupport::BullNose,
    }
}

/// The plug that keeps the tail centre's cone off a thread behind a mouth; none where the cone clears
/// it.
///
/// A 60° cone on a mouth is narrower by 1.155 times as much as it is deep: it has to be no wider than
/// the crests where they begin.
fn tail_plug(feature_map: &FeatureMap, end: End) -> Option<Mandrel> {
    let (feature, thread) = thread_of(feature_map, end, Side::Inside)?;
    let minor = thread.thread.minor_diameter();
    let mouth = feature_map.bore_at(end).map_or(minor, |it| it.0);
    let own = feature_map.part.features.with_ids();
    let index = own
        .filter(|it| std::ptr::eq(it.1, feature))
        .map(|it| it.0)
        .next();
    let begins = index
        .and_then(|index| feature_map.part.full_form(index, end))
        .map_or(feature.from, |it| it.0);
    let cone = mouth.to_mm() - CONE_60 * begins.to_mm();
    if mouth > minor && cone <= minor.to_mm() {
        return None;
    }
    // In the plain mouth where there is one, else inside the crests.
    let (dia, length) = match begins > PASSES && mouth > minor {
        true => (mouth, begins - PASSES),
        false => (minor - PASSES, feature.to.min(TAIL_PLUG)),
    };
    let mut plug = Mandrel {
        shoulder: shoulder(feature_map.dia_at_face(end), dia),
        front_spigot: Some(Fitted { dia, length }),
        centred: true,
        shank_length: Length::ZERO,
        ..empty(MandrelKind::Plug)
    };
    plug.shank = plug.shoulder;
    plug.stock = Length::mm(plug.shoulder.to_mm().ceil());
    plug.serves.push((feature_map.part.name.text.clone(), end));
    Some(plug)
}
