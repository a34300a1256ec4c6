//! From the saw to a round blank: pieces sawn, faced, glued up, bored and trued.

use super::task::{Access, Stage, Tasks};
use crate::id::TaskId;
use crate::tasks::feature_map::{ENDS, FeatureMap};
use crate::tools::bench_tools::BenchTools;
use crate::{Blank, PieceFace, Strategy, Work};
use quillet_geometry::Length;
use quillet_model::{BlankPiece, ById, End, PieceId};

/// A finished piece shorter than this is not held by itself (common practice, no published source).
pub(crate) const HELD_ALONE: Length = Length::from_nm(8_000_000);
/// A hole of this share of a socket's diameter leads the flat tool that sinks it.
const LEADS: f64 = 0.9;
/// The piece that the others are glued to.
const FIRST: PieceId = PieceId::FIRST;

/// The tasks that make the blank; what comes after waits for the ones given back.
pub(crate) fn blank_tasks(
    feature_map: &FeatureMap,
    strategy: &Strategy,
    blank: &Blank,
    bench_tools: BenchTools,
    tasks: &mut Tasks,
) -> Vec<TaskId> {
    let mut stack = Stack {
        pieces: feature_map.part.blanks(),
        bench_tools,
        tasks,
        order: 0,
    };
    let mut last = stack.sawn(blank);
    for index in stack.pieces.ids().skip(1) {
        last = stack.glued(index, last);
    }
    if blank.rounded {
        for end in ENDS {
            let in_nub = strategy.nub == Some(end);
            let work = Work::Centre { end, in_nub };
            last.push(stack.put(work, Access::Bench, last.clone()));
        }
        let work = Work::Round { dia: blank.dia };
        last.push(stack.put(work, Access::Centres, last.clone()));
    }
    last
}

struct Stack<'a, 'b> {
    pieces: &'a ById<PieceId, BlankPiece>,
    bench_tools: BenchTools<'b>,
    tasks: &'a mut Tasks,
    order: i64,
}

impl Stack<'_, '_> {
    fn put(&mut self, work: Work, access: Access, needs: Vec<TaskId>) -> TaskId {
        self.order += 1;
        self.tasks
            .put(work, access, (Stage::Blank, 0, self.order), needs)
    }

    fn length(&self, index: PieceId) -> Length {
        self.pieces[index].to - self.pieces[index].from
    }

    fn is_short(&self, index: PieceId) -> bool {
        self.length(index) < HELD_ALONE
    }

    /// A first piece too short to be held is faced and bored while it is still on its rod.
    fn sawn(&mut self, blank: &Blank) -> Vec<TaskId> {
        let mut last = Vec::new();
        if self.pieces.len() > 1 && self.is_short(FIRST) {
            let (from, to) = (FIRST, FIRST);
            last = self.joint_face(FIRST, Access::Pieces { from, to }, Vec::new());
        }
        for (piece, length) in blank.pieces.with_ids() {
            let length = *length;
            let needs = if piece == FIRST {
                last.clone()
            } else {
                Vec::new()
            };
            last.push(self.put(Work::Saw { piece, length }, Access::Bench, needs));
        }
        last
    }

    /// What stands so far is faced and bored for a piece, the piece is made to suit and glued on.
    fn glued(&mut self, index: PieceId, mut last: Vec<TaskId>) -> Vec<TaskId> {
        let before = index
            .before()
            .filter(|it| *it > FIRST || !self.is_short(*it));
        if let Some(to) = before {
            let access = Access::Pieces { from: FIRST, to };
            last.extend(self.joint_face(to, access, last.clone()));
        }
        let alone = Access::Pieces {
            from: index,
            to: index,
        };
        if !self.is_short(index) {
            let work = Work::FacePiece(PieceFace {
                piece: index,
                end: End::First,
                to: None,
            });
            last.push(self.put(work, alone, last.clone()));
        }
        if let Some(spigot) = self.pieces[index].spigot {
            let (dia, length) = (spigot.dia, spigot.length);
            let work = Work::Spigot {
                piece: index,
                dia,
                length,
            };
            last.push(self.put(work, alone, last.clone()));
        }
        let gap = self.pieces[index].spigot.map(|it| it.gap);
        let work = Work::GlueUp {
            piece: index,
            gap,
            rubbed: self.is_short(index),
        };
        last.push(self.put(work, Access::Bench, last.clone()));
        last
    }

    /// The face on which the next piece is glued, and the hole for its spigot in that same holding.
    fn joint_face(&mut self, index: PieceId, access: Access, start: Vec<TaskId>) -> Vec<TaskId> {
        let to = self.is_short(index).then(|| self.pieces[index].to);
        let face = Work::FacePiece(PieceFace {
            piece: index,
            end: End::Second,
            to,
        });
        let mut made = vec![self.put(face, access, start)];
        let Some(spigot) = self.pieces.get(index.after()).and_then(|it| it.spigot) else {
            return made;
        };
        let (dia, depth) = (spigot.dia + spigot.gap, spigot.length);
        let under = Length::mm((dia.to_mm() * LEADS * 10.0).floor() / 10.0);
        let lead = self
            .bench_tools
            .drill_up_to(under)
            .filter(|it| it.is_positive());
        for (dia, leads) in lead.map(|it| (it, true)).into_iter().chain([(dia, false)]) {
            let work = Work::Socket {
                piece: index,
                dia,
                depth,
                leads,
            };
            made.push(self.put(work, access, made.clone()));
        }
        made
    }
}
