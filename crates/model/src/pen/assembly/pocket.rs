//! What sits in the pockets of a pen's parts: in holes beside the axis, and in cuts from the side.

use crate::{CircleHoles, CircleId, Part, PartId, Parts, SideCut, SideCutKind, SideDepth, SideId};
use quillet_geometry::{Length, Mass};
use std::sync::Arc;

/// The pockets of one cut, with what sits in each of them.
#[derive(Clone, Debug)]
pub struct Pocketed {
    /// The part that has the pockets.
    pub part: PartId,
    /// The cut that makes them.
    pub cut: PocketCut,
    /// What sits in each, by itself.
    pub piece: Arc<Part>,
    /// How many.
    pub count: u32,
    /// Where the piece lies along the part, stations, mm; of one that is put in from the side, its middle.
    pub along_mm: (f64, f64),
    /// How far its middle lies from the axis, mm.
    pub off_axis_mm: f64,
}

/// Which cut of a part makes pockets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PocketCut {
    /// Holes beside the axis.
    Beside(CircleId),
    /// A cut from the side.
    Side(SideId),
}

/// What sits in the pockets of all parts; `known` gives a part that no joint names by its name. What a joint
/// brings is placed and weighed by that.
pub(super) fn filled(parts: &Parts, known: &dyn Fn(&str) -> Option<Arc<Part>>) -> Vec<Pocketed> {
    let joined = |name: &str| parts.iter().any(|it| &*it.name.text == name);
    let piece = |takes: Option<&quillet_syntax::ast::Name>| {
        let name = takes.filter(|it| !joined(&it.text))?;
        known(&name.text)
    };
    let mut found = Vec::new();
    for (id, part) in parts.with_ids() {
        let circles = part.circles().iter().enumerate().filter_map(|(at, it)| {
            let piece = piece(it.around.takes.as_ref())?;
            Some(beside(id, part, CircleId::nth(at), it, piece))
        });
        let sides = part.sides().iter().enumerate().filter_map(|(at, it)| {
            let piece = piece(it.around.takes.as_ref())?;
            from_side(id, part, SideId::nth(at), it, piece)
        });
        found.extend(circles.chain(sides));
    }
    found
}

/// It lies on the floor of its hole; of one right through, level with the face that it is drilled from.
fn beside(
    id: PartId,
    part: &Part,
    at: CircleId,
    holes: &CircleHoles,
    piece: Arc<Part>,
) -> Pocketed {
    let deep = match holes.through {
        true => holes.from + piece.length,
        false => holes.to,
    };
    let ends = [deep, deep - piece.length].map(|it| part.station(holes.end, it).to_mm());
    Pocketed {
        part: id,
        cut: PocketCut::Beside(at),
        count: holes.around.count,
        along_mm: (ends[0].min(ends[1]), ends[0].max(ends[1])),
        off_axis_mm: holes.on.half().to_mm(),
        piece,
    }
}

/// It stands on the floor of its hole, and level with the outside where there is none; what a slot takes is
/// taken to be level too. None where the outside is not known there.
fn from_side(
    id: PartId,
    part: &Part,
    at: SideId,
    cut: &SideCut,
    piece: Arc<Part>,
) -> Option<Pocketed> {
    let middle_mm = (cut.stretch.from + cut.stretch.to).half().to_mm();
    let outside = &part.profiles.as_ref()?.crest.outer;
    let outside_mm = outside.greatest_at(middle_mm)?;
    let half_mm = piece.length.to_mm() / 2.0;
    let off_axis_mm = match &cut.kind {
        SideCutKind::Drill {
            depth: SideDepth::To { deep, .. },
            ..
        } => outside_mm - deep.to_mm() + half_mm,
        SideCutKind::Drill { .. } => outside_mm - half_mm,
        _ => outside_mm,
    };
    Some(Pocketed {
        part: id,
        cut: PocketCut::Side(at),
        count: cut.around.count,
        along_mm: (middle_mm, middle_mm),
        off_axis_mm,
        piece,
    })
}

impl Pocketed {
    /// Of all of them together, on the stations of the part: square to the axis the mean of its two ways round.
    pub(super) fn weigh(&self) -> Option<Mass> {
        let each = self.piece.weigh()?;
        let count = f64::from(self.count);
        let turns = each.mass_g * self.off_axis_mm.powi(2);
        let (axial, transverse) = match self.cut {
            PocketCut::Beside(_) => (each.axial_g_mm2, each.transverse_g_mm2),
            // Its own axis lies along the radius.
            PocketCut::Side(_) => (
                each.transverse_g_mm2,
                (each.axial_g_mm2 + each.transverse_g_mm2) / 2.0,
            ),
        };
        Some(Mass {
            mass_g: count * each.mass_g,
            centre_mm: (self.along_mm.0 + self.along_mm.1) / 2.0,
            axial_g_mm2: count * (axial + turns),
            transverse_g_mm2: count * (transverse + turns / 2.0),
        })
    }

    /// Whether the pieces lie along the axis, so that they can face others over a joint.
    pub(super) fn lies_along(&self) -> bool {
        matches!(self.cut, PocketCut::Beside(_))
    }

    /// How wide each pocket is, across it; of a slot along the part.
    pub fn wide(&self, part: &Part) -> Option<Length> {
        match self.cut {
            PocketCut::Beside(id) => part.circle(id).map(|it| it.dia),
            PocketCut::Side(id) => {
                let cut = part.side(id)?;
                match &cut.kind {
                    SideCutKind::Drill { dia, .. } => Some(*dia),
                    SideCutKind::Slot { .. } => Some(cut.stretch.to - cut.stretch.from),
                    _ => None,
                }
            }
        }
    }

    /// How wide the piece is there: its fattest, and in a slot its length.
    pub fn piece_wide(&self, part: &Part) -> Option<Length> {
        if self.is_slotted(part) {
            return Some(self.piece.length);
        }
        let outside = &self.piece.profiles.as_ref()?.crest.outer;
        let (fattest, _) = outside.fattest(0.0, self.piece.length.to_mm())?;
        Some(Length::mm(2.0 * fattest.r))
    }

    /// Whether its pockets are slots.
    pub fn is_slotted(&self, part: &Part) -> bool {
        let PocketCut::Side(id) = self.cut else {
            return false;
        };
        let cut = part.side(id);
        cut.is_some_and(|it| matches!(it.kind, SideCutKind::Slot { .. }))
    }
}
