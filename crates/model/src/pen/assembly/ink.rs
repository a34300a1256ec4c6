//! The ink a pen holds.

use super::chambers::{Chamber, Chambers};
use super::group::Groups;
use super::{Assembly, Body};
use crate::{End, PartId, Pen};
use quillet_standards::material;

/// The ink of a full pen.
#[derive(Clone, Debug, PartialEq)]
pub struct Ink {
    /// How much, ml.
    pub capacity_ml: f64,
    /// What that weighs, g.
    pub mass_g: f64,
    /// The part that holds it.
    pub part: PartId,
    /// The station on that part where its centre lies, mm.
    pub at_mm: f64,
    /// Where it stands: in each part's bore so much, the holder's first; of a converter or a
    /// cartridge its own capacity.
    pub stands_in: Vec<InkIn>,
    /// Room in the holder's bore that no ink reaches: solid is left before it.
    pub shut_off: Vec<InkIn>,
    /// The ends of cut parts at which it runs out: its bore comes out there and nothing closes it.
    pub runs_out: Vec<(PartId, End)>,
}

/// Ink, or room for it, in a part's bore.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InkIn {
    /// The part.
    pub part: PartId,
    /// How much, ml.
    pub ml: f64,
}

/// The ink in the barrel, where `fill` says so, else in the first converter or cartridge that the
/// body holds.
///
/// A barrel is filled from the end that looks to the writing point. What counts is its bore from
/// where that joint closes it, as far as it goes without a web of solid, less what stands in it;
/// and every bore that opens into it: the section's, and the nib unit's where it has one. The gap
/// beside what closes an end does not.
pub(super) fn held(pen: &Pen, assembly: &Assembly, open: &Groups, body: &Body) -> Option<Ink> {
    let g_ml = material::ink().map_or(1.0, |it| it.typical_kg_m3 / 1000.0);
    if let Some((holder, _)) = pen.fill {
        return in_bores(pen, assembly, open, body, (holder, g_ml));
    }
    let holds = |index: &PartId| pen.parts[*index].holds_ml().is_some();
    let part = open.with(body.part).find(holds)?;
    let ml = pen.parts[part].holds_ml()?;
    Some(Ink {
        capacity_ml: ml,
        mass_g: ml * g_ml,
        part,
        at_mm: pen.parts[part].length.to_mm() / 2.0,
        stands_in: vec![InkIn { part, ml }],
        shut_off: Vec::new(),
        runs_out: Vec::new(),
    })
}

fn in_bores(
    pen: &Pen,
    assembly: &Assembly,
    open: &Groups,
    body: &Body,
    (holder, g_ml): (PartId, f64),
) -> Option<Ink> {
    let chambers = Chambers::of(pen, &assembly.joints, open, holder);
    let front = body.front(open, holder);
    let reached = chambers.reached_from(holder, front);
    let volume = |it: &&Chamber| it.room.volume_mm3;
    let volume_mm3: f64 = reached.iter().map(volume).sum();
    let moment: f64 = reached
        .iter()
        .map(|it| it.room.volume_mm3 * it.room.centroid_mm)
        .sum();
    let ml = |it: &&Chamber| InkIn {
        part: it.part,
        ml: it.room.volume_mm3 / 1000.0,
    };
    let mut stands_in: Vec<InkIn> = Vec::new();
    for it in reached.iter().map(ml).filter(|it| it.ml > 1e-9) {
        match stands_in.iter_mut().find(|known| known.part == it.part) {
            Some(known) => known.ml += it.ml,
            None => stands_in.push(it),
        }
    }
    stands_in.sort_by_key(|it| it.part != holder);
    let shut_off = chambers.of_part(holder).filter(|it| {
        let known = |other: &&Chamber| std::ptr::eq(*other, *it);
        !reached.iter().any(known)
    });
    let mut runs_out = chambers.open_ends(&reached);
    runs_out.retain(|(part, _)| !pen.parts[*part].is_bought());
    let capacity_ml = volume_mm3 / 1000.0;
    (volume_mm3 > 0.0).then(|| Ink {
        capacity_ml,
        mass_g: capacity_ml * g_ml,
        part: holder,
        at_mm: moment / volume_mm3,
        stands_in,
        runs_out,
        shut_off: shut_off
            .map(|it| ml(&it))
            .filter(|it| it.ml > 1e-9)
            .collect(),
    })
}

impl Body {
    /// The end of a part of the open pen that looks to the writing point.
    pub(super) fn front(&self, open: &Groups, part: PartId) -> End {
        let backward = open.place(self.part).reversed != self.reversed;
        match open.place(part).reversed == backward {
            true => End::First,
            false => End::Second,
        }
    }
}
