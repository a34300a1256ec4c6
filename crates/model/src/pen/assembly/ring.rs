//! O-rings in their grooves: how far they are stretched and squeezed, and how full the groove is.

use super::AtRest;
use crate::{ById, Cut, CutId, Feature, JointId, Part, PartId, Pen, Ring, RingId};
use std::f64::consts::PI;
use std::sync::Arc;

/// An O-ring in the groove that takes it.
#[derive(Clone, Debug)]
pub struct SeatedRing {
    /// The grooved part.
    pub part: PartId,
    /// The groove.
    pub feature: CutId,
    /// The ring.
    pub ring: Arc<Part>,
    /// Where it runs against a mate, once the pen is put together.
    pub seal: Option<RingSeal>,
}

/// A ring against its mate; each a share of what it is of: 0.2 is 20 %.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingSeal {
    /// The mate.
    pub mate: PartId,
    /// The joint.
    pub joint: JointId,
    /// How much the inside of a ring on a groove is stretched; of one in a recess, how much its
    /// outside is pressed together.
    pub stretch: f64,
    /// How much of its cord is squeezed.
    pub squeeze: f64,
    /// How much of the groove it fills.
    pub fill: f64,
    /// From the groove's floor to the mate, mm.
    pub room_mm: f64,
}

/// The rings of a pen's parts; `known` gives a part by its name.
pub(super) fn seated(
    pen: &Pen,
    joints: &ById<JointId, AtRest>,
    known: &dyn Fn(&str) -> Option<Arc<Part>>,
) -> ById<RingId, SeatedRing> {
    let mut found = ById::default();
    for (index, part) in pen.parts.with_ids() {
        for (at, feature) in part.features.with_ids() {
            let (Cut::Groove {
                takes: Some(takes), ..
            }
            | Cut::Recess {
                takes: Some(takes), ..
            }) = &feature.cut
            else {
                continue;
            };
            let Some(ring) = known(&takes.text) else {
                continue;
            };
            let seal = ring
                .ring()
                .and_then(|size| seal(pen, joints, index, feature, size));
            found.push(SeatedRing {
                part: index,
                feature: at,
                ring,
                seal,
            });
        }
    }
    found
}

/// The first joint in which the groove lies over, or in, a mate.
fn seal(
    pen: &Pen,
    joints: &ById<JointId, AtRest>,
    part: PartId,
    feature: &Feature,
    size: &Ring,
) -> Option<RingSeal> {
    let (from, to) = feature.stations(pen.parts[part].length);
    let middle = (from.to_mm() + to.to_mm()) / 2.0;
    let width = to.to_mm() - from.to_mm();
    let (own, outside) = match feature.cut {
        Cut::Groove { dia, .. } => (dia.to_mm(), true),
        Cut::Recess { dia, .. } => (dia.to_mm(), false),
        _ => return None,
    };
    joints.with_ids().find_map(|(joint, rest)| {
        let (host, mates) = match outside {
            true => (&rest.males, &rest.females),
            false => (&rest.females, &rest.males),
        };
        let (_, place) = host.iter().find(|(index, _)| *index == part)?;
        let z = place.of(middle);
        mates.iter().find_map(|(mate, at)| {
            let solid = &pen.parts[*mate].profiles.as_ref()?.crest;
            let station = at.station(z);
            let other = match outside {
                true => 2.0 * solid.bore_radius(station),
                false => 2.0 * solid.outer.greatest_at(station)?,
            };
            let room = if outside { other - own } else { own - other } / 2.0;
            // Far from the ring no mate squeezes it.
            let near = other > 0.0 && room > 0.0 && room < 3.0 * size.cord.to_mm();
            near.then(|| {
                let (stretch, squeeze, fill) = pressed(size, own, room, width, outside);
                RingSeal {
                    mate: *mate,
                    joint,
                    stretch,
                    squeeze,
                    fill,
                    room_mm: room,
                }
            })
        })
    })
}

/// Stretch, squeeze and fill of a ring over a groove of diameter `own`, `room` from its floor to
/// the mate. The cord thins as the ring is stretched: its volume stays.
fn pressed(size: &Ring, own: f64, room: f64, width: f64, outside: bool) -> (f64, f64, f64) {
    let (inside, cord) = (size.inside.to_mm(), size.cord.to_mm());
    let stretch = match outside {
        true => own / inside - 1.0,
        false => 1.0 - own / (inside + 2.0 * cord),
    };
    let line = PI * (inside + cord);
    let seated = match outside {
        true => PI * (own + cord),
        false => PI * (own - cord),
    };
    let section = PI / 4.0 * cord * cord * line / seated.max(line);
    let thinned = (section * 4.0 / PI).sqrt();
    (stretch, 1.0 - room / thinned, section / (width * room))
}
