//! What lies beside a part's wall because the two are joined before they are turned.

use crate::walls::walls;
use crate::{PartView, Wall};
use quillet_geometry::{Length, put_in_order};
use quillet_model::{JointId, Part, PartId, Pen, Placement};
use std::sync::Arc;

/// Other parts of one work that stand behind a wall all along it.
pub(crate) struct Layers {
    /// Their names, in the order they are joined.
    pub(crate) names: Vec<Arc<str>>,
    /// The least of their own walls there.
    pub(crate) least: Length,
}

/// A wall beside another between two places on the axis of the wall's part.
struct Layer {
    part: PartId,
    from_mm: f64,
    to_mm: f64,
    least: Length,
}

/// What stands behind a wall; none where some of it stands alone for further than it is thick, which
/// the glue bridges (common practice, no published source).
pub(crate) fn beside(view: &PartView<'_>, wall: &Wall) -> Option<Layers> {
    let pen = view.pen?;
    let own = pen.parts.position(|it| Arc::ptr_eq(it, view.part))?;
    let joints = pen.joints.with_ids();
    let made = joints.filter(|(_, joint)| joint.before_turning.is_some());
    let mut layers: Vec<Layer> = made
        .filter_map(|(id, _)| layer(pen, id, own, wall))
        .collect();
    put_in_order(&mut layers, |it| it.from_mm);
    let bridged_mm = wall.least.to_mm();
    let mut reached_mm = wall.from.to_mm();
    for it in &layers {
        if it.from_mm > reached_mm + bridged_mm {
            return None;
        }
        reached_mm = reached_mm.max(it.to_mm);
    }
    if wall.to.to_mm() > reached_mm + bridged_mm {
        return None;
    }
    let least = layers.iter().map(|it| it.least).min()?;
    let name = |it: &Layer| pen.parts[it.part].name.text.clone();
    let names = layers.iter().map(name).collect();
    Some(Layers { names, least })
}

/// What one joint brings beside the wall.
fn layer(pen: &Pen, id: JointId, own: PartId, wall: &Wall) -> Option<Layer> {
    let joint = &pen.joints[id];
    let rest = pen.assembly.joints.get(id).filter(|it| !it.redundant)?;
    let other = match (joint.male.part, joint.female.part) {
        (male, female) if female == own => male,
        (male, female) if male == own => female,
        _ => return None,
    };
    let (here, there) = (rest.place(own)?, rest.place(other)?);
    let part = &pen.parts[other];
    // The stations of one on those of the other.
    let across = |from: Placement, to: Placement, mm: f64| to.station(from.of(mm));
    let ends = [0.0, part.length.to_mm()].map(|mm| across(there, here, mm));
    let from_mm = ends[0].min(ends[1]).max(wall.from.to_mm());
    let to_mm = ends[0].max(ends[1]).min(wall.to.to_mm());
    if from_mm >= to_mm {
        return None;
    }
    let reach = [from_mm, to_mm].map(|mm| across(here, there, mm));
    let least = thinnest(part, reach[0].min(reach[1]), reach[0].max(reach[1]));
    Some(Layer {
        part: other,
        from_mm,
        to_mm,
        least,
    })
}

/// The least wall of a part between two of its stations: of a tube its stock's, of what is solid its
/// whole thickness.
fn thinnest(part: &Part, from_mm: f64, to_mm: f64) -> Length {
    let meets = |it: &&Wall| it.from.to_mm() < to_mm && it.to.to_mm() > from_mm;
    let own = walls(part);
    let own = own.iter().filter(meets).map(|it| it.least);
    let of_tube = part.tube().and_then(|it| it.wall);
    let solid = || {
        let profiles = part.profiles.as_ref()?;
        let thick = profiles.root.outer.narrowest(from_mm, to_mm)?;
        Some(Length::mm(2.0 * thick.0.r))
    };
    own.chain(of_tube).min().or_else(solid).unwrap_or_default()
}
