//! A blank of several pieces is made as glue and spigots want it.

use super::Lathe;
use quillet_geometry::Length;
use quillet_model::{End, PieceId};
use quillet_plan::{Operation, Work, Workholding};

impl Lathe<'_> {
    /// What is joined in before turning is made by then, all of it, and the outside waits for it.
    pub(super) fn check_joined_in(&mut self, operation: &Operation) {
        let later = &self.route.operations[self.number..];
        match &operation.work {
            Work::JoinIn(joined) => {
                let Some(route) = self
                    .plan
                    .routes
                    .iter()
                    .find(|it| it.part.name.text == joined.part)
                else {
                    return;
                };
                let last = operation.after.filter(|after| {
                    let made = &self.plan.routes[after.route];
                    std::ptr::eq(made, route) && after.operation + 1 == route.operations.len()
                });
                if last.is_none() {
                    self.report("it does not wait for what it joins in");
                }
                self.joined.push(&route.part);
            }
            Work::Outside(_) if !self.is_level() => {
                self.report("it is turned before what is glued in is level with its end");
            }
            Work::Outside(_) if later.iter().any(|it| matches!(it.work, Work::JoinIn(_))) => {
                self.report("it is turned before all is in it");
            }
            _ => {}
        }
    }

    /// Whether a work only brings an end level with what was joined in there: as drawn it takes nothing.
    pub(super) fn levels(&self, work: &Work) -> bool {
        let Work::Face { end, .. } = work else {
            return false;
        };
        let before = &self.route.operations[..self.number];
        before
            .iter()
            .any(|it| matches!(&it.work, Work::JoinIn(joined) if joined.end == *end))
    }

    /// Whether each end is faced after what is in it was joined in, where that is as long as its hole is deep.
    fn is_level(&self) -> bool {
        let before = &self.route.operations[..self.number];
        let faced = |from: usize, wanted: End| {
            let mut later = before[from..].iter();
            later.any(|it| matches!(it.work, Work::Face { end, .. } if end == wanted))
        };
        before.iter().enumerate().all(|(at, it)| {
            let Work::JoinIn(joined) = &it.work else {
                return true;
            };
            // Of parts turned as one none fills a hole from end to end.
            if joined.at.is_some() {
                return true;
            }
            let mut routes = self.plan.routes.iter();
            let made = routes.find(|it| it.part.name.text == joined.part);
            let own = self.part().features.iter();
            let mut holes = own.filter(|it| it.is_inside() && it.end == joined.end);
            let fills = made.is_some_and(|made| holes.any(|it| it.to == made.part.length));
            !fills || faced(at, joined.end)
        })
    }

    /// Pieces are faced before they are glued, bored before a spigot goes in and led by a drill, held by
    /// what can be held, and trued when all are on.
    pub(super) fn check_stack(&mut self, operation: &Operation) {
        let pieces = self.part().blanks();
        if pieces.len() < 2 || self.route.turns.is_some() {
            return;
        }
        let short = |index: PieceId| pieces[index].to - pieces[index].from < Length::mm(8.0);
        if let Workholding::Pieces(held) = operation.hold {
            if short(held.gripped) && !held.on_rod {
                self.report("a short piece is gripped");
            }
            if held.grip < Length::mm(8.0) {
                self.report("hardly anything is gripped");
            }
        }
        let before = &self.route.operations[..self.number];
        let faced = |piece: PieceId, end: End| {
            before.iter().any(|it| {
                matches!(it.work, Work::FacePiece(face) if (face.piece, face.end) == (piece, end))
            })
        };
        let bored = |index: PieceId, wanted: bool| {
            before.iter().any(|it| {
                matches!(it.work, Work::Socket { piece, leads, .. }
                    if piece == index && leads == wanted)
            })
        };
        match &operation.work {
            Work::GlueUp { piece, rubbed, .. } => {
                let own = faced(*piece, End::First) || *rubbed && short(*piece);
                let under = piece.before().expect("it is glued to one before it");
                if !faced(under, End::Second) || !own {
                    self.report("a joint face is not faced");
                }
                if pieces[*piece].spigot.is_some() && !bored(under, false) {
                    self.report("nothing takes the spigot");
                }
            }
            Work::Socket {
                piece,
                leads: false,
                ..
            } if !bored(*piece, true) => {
                self.report("nothing leads the flat tool");
            }
            Work::Face { .. } => {
                let trued = before
                    .iter()
                    .any(|it| matches!(it.work, Work::Round { .. }));
                if !trued {
                    self.report("the stack is not trued");
                }
            }
            _ => {}
        }
    }
}
