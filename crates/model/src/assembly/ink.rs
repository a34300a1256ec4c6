//! The ink a pen holds.

use super::Assembly;
use super::group::Groups;
use crate::{Part, Pen};
use quillet_geometry::{Chain, Properties};
use quillet_standards::material;

/// The ink of a full pen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ink {
    /// How much, ml.
    pub capacity_ml: f64,
    /// What that weighs, g.
    pub mass_g: f64,
    /// The part that holds it: an index into `Pen::parts`.
    pub part: usize,
    /// The station on that part where its centre lies, mm.
    pub at_mm: f64,
}

/// The ink in the barrel, where `fill` says so, else in the first converter or cartridge that the
/// body holds.
pub(super) fn held(pen: &Pen, assembly: &Assembly, open: &Groups, body: usize) -> Option<Ink> {
    let full = |capacity_ml: f64, part: usize, at_mm: f64| Ink {
        capacity_ml,
        mass_g: capacity_ml * material::ink().map_or(1.0, |it| it.typical_kg_m3 / 1000.0),
        part,
        at_mm,
    };
    if let Some((part, _)) = pen.fill {
        let room = reservoir(pen, assembly, part)?;
        return Some(full(room.volume_mm3 / 1000.0, part, room.centroid_mm));
    }
    let holds = |index: &usize| pen.parts[*index].holds_ml.is_some();
    let part = open.with(body).find(holds)?;
    let capacity = pen.parts[part].holds_ml?;
    Some(full(capacity, part, pen.parts[part].length.to_mm() / 2.0))
}

/// The room in a part's bore between the parts that close it, less what stands in it.
fn reservoir(pen: &Pen, assembly: &Assembly, holder: usize) -> Option<Properties> {
    let part: &Part = &pen.parts[holder];
    let (mut from, mut to) = (0.0, part.length.to_mm());
    let mut inside: Vec<(usize, super::Place)> = Vec::new();
    for (joint, rest) in pen.joints.iter().zip(&assembly.joints) {
        let closes = joint.female.part == holder
            && !rest.redundant
            && !matches!(
                joint.verb,
                quillet_syntax::ast::Verb::Close | quillet_syntax::ast::Verb::Post
            );
        if !closes {
            continue;
        }
        match joint.female.end {
            crate::End::First => from = rest.goes_in_mm.max(from),
            crate::End::Second => to = (part.length.to_mm() - rest.goes_in_mm).min(to),
        }
        let axis = super::Place::inward(part, joint.female.end).inverse();
        inside.extend(
            rest.males
                .iter()
                .map(|(male, place)| (*male, place.then(axis))),
        );
    }
    let bores = &part.profiles.as_ref()?.metal.inner;
    let room: Vec<Chain> = bores
        .iter()
        .filter_map(|bore| bore.between(from, to))
        .collect();
    let free = Properties::between(&room, []);
    let taken: Vec<Properties> = inside
        .iter()
        .filter_map(|(index, place)| {
            let profiles = pen.parts[*index].profiles.as_ref()?;
            let (a, b) = (place.station(from), place.station(to));
            let (outer, inner) = profiles.metal.stretch(a.min(b), a.max(b));
            let stretch = Properties::between(&outer, &inner);
            let sign = if place.reversed { -1.0 } else { 1.0 };
            let centroid_mm = place.offset_mm + sign * stretch.centroid_mm;
            Some(Properties {
                centroid_mm,
                ..stretch
            })
        })
        .collect();
    let taken_mm3: f64 = taken.iter().map(|it| it.volume_mm3).sum();
    let volume_mm3 = free.volume_mm3 - taken_mm3;
    let moment: f64 = taken.iter().map(|it| it.volume_mm3 * it.centroid_mm).sum();
    (volume_mm3 > 0.0).then(|| Properties {
        volume_mm3,
        centroid_mm: (free.volume_mm3 * free.centroid_mm - moment) / volume_mm3,
        ..free
    })
}
