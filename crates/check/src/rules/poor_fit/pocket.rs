//! What sits in a pocket, and the room it has there.

use super::{LOOSEST, RULE, SLACK};
use crate::{Findings, PartView, words};
use quillet_geometry::{Length, Limits};
use quillet_model::{CircleHoles, Part, PocketCut, Pocketed};
use quillet_syntax::{Finding, Size, SizedText, Span, text};

pub(super) fn run(view: &PartView<'_>, findings: &mut Findings) {
    let Some(pen) = view.pen else {
        return;
    };
    let part = pen.part_id(&view.part.name.text);
    let own = pen.assembly.pockets.iter();
    for pocketed in own.filter(|it| Some(it.part) == part) {
        let found = Pocket::of(view.part, pocketed);
        for finding in found.iter().flat_map(|it| [it.beside(), it.proud()]) {
            finding.into_iter().for_each(|it| findings.push(it));
        }
    }
}

/// A pocket, and what sits in it.
struct Pocket<'p> {
    piece: &'p Part,
    span: Span,
    wide: Length,
    piece_wide: Length,
    /// A slot, in which the piece lies along the part.
    slotted: bool,
    /// The hole beside the axis that it is, where that has a floor.
    floored: Option<&'p CircleHoles>,
}

impl<'p> Pocket<'p> {
    fn of(part: &'p Part, it: &'p Pocketed) -> Option<Pocket<'p>> {
        let circle = match it.cut {
            PocketCut::Beside(id) => part.circle(id),
            PocketCut::Side(_) => None,
        };
        let span = match it.cut {
            PocketCut::Beside(_) => circle?.span,
            PocketCut::Side(id) => part.side(id)?.span,
        };
        Some(Pocket {
            piece: &it.piece,
            span,
            wide: it.wide(part)?,
            piece_wide: it.piece_wide(part)?,
            slotted: it.is_slotted(part),
            floored: circle.filter(|it| !it.through),
        })
    }

    /// Too little room beside it, or too much.
    fn beside(&self) -> Option<Finding> {
        let room = self.wide - self.piece_wide;
        if Limits::new(SLACK, LOOSEST).contains(room) {
            return None;
        }
        let name = &self.piece.name.text;
        let is = match room.is_negative() {
            true => text!("is {} too wide for", -room),
            false => text!("has {} of room in", room),
        };
        let (pocket, piece): (SizedText, SizedText) = match self.slotted {
            true => (
                text!("a slot {} long", self.wide),
                text!("{}", self.piece_wide),
            ),
            false => (
                text!("a pocket of {}", words::dia(self.wide)),
                words::dia(self.piece_wide),
            ),
        };
        let message = text!(
            "{} ({}) {} {}; {} to {} is wanted",
            name,
            piece,
            is,
            pocket,
            Size::Near(SLACK, 3),
            LOOSEST
        );
        let better = self.piece_wide + Length::mm(0.1);
        let hint = match self.slotted {
            true => text!("a slot {} long gives it room", better),
            false => text!("a pocket of {} gives it room", words::dia(better)),
        };
        Some(RULE.at(self.span, message).hint(hint))
    }

    /// It stands out of the face that its hole is cut from.
    fn proud(&self) -> Option<Finding> {
        let holes = self.floored?;
        let deep = holes.to - holes.from;
        let out = self.piece.length - deep;
        out.is_positive().then(|| {
            let message = text!(
                "{} is {} long and stands {} out of its pocket, {} deep",
                self.piece.name.text,
                self.piece.length,
                out,
                deep
            );
            let hint = text!("make the pocket {} deep or more", self.piece.length);
            RULE.at(self.span, message).hint(hint)
        })
    }
}
