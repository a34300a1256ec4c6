//! A part's route as holdings: what is done without letting go of the work.

use super::row::{HoldingRow, row};
use super::row_words::{RowContext, dia_of};
use super::words::{self, capital};
use crate::draw;
use crate::scene::Scene;
use quillet_model::{Bench, End, Units};
use quillet_plan::{Note, Operation, Plan, Route, TailSupport, Work, Workholding};
use serde::Serialize;
use std::ops::Range;

/// What is done in one holding of the work.
#[derive(Clone, Debug, Serialize)]
pub struct HoldingRows {
    /// What holds it: `Collet ⌀18`.
    pub title: String,
    /// How: `30 in, mouth 5.5 out`.
    pub grip: String,
    /// The work as held: what is left, what is cut away, what holds it.
    #[serde(skip)]
    pub picture: Option<Scene>,
    /// What is done, in order.
    pub rows: Vec<HoldingRow>,
    /// The work is pieces that are yet to be glued, or lies at the bench.
    #[serde(skip)]
    loose: Option<LoosePieces>,
}

/// What is not yet one piece of work held at the lathe.
#[derive(Clone, Copy, Debug, PartialEq)]
enum LoosePieces {
    /// Pieces of a stack, held before they are all glued.
    Held,
    /// Glued, or marked, at the bench.
    AtBench,
}

/// How many of a part's holdings, from the first on, glue its stack up; 0 where it is no stack.
pub(super) fn gluing(holdings: &[HoldingRows]) -> usize {
    let leading = holdings.iter().take_while(|it| it.loose.is_some());
    let last = leading
        .enumerate()
        .filter(|(_, it)| it.loose == Some(LoosePieces::Held))
        .last();
    match last {
        Some((at, _)) if holdings.get(at + 1).is_some_and(|it| it.loose.is_some()) => at + 2,
        Some((at, _)) => at + 1,
        None => 0,
    }
}

/// The room of a holding's picture, mm.
const PICTURE_MM: (f64, f64) = (41.0, 15.0);

/// The holdings of a route.
pub(super) fn holdings(
    plan: &Plan,
    route: &Route,
    bench: Option<&Bench>,
    units: Units,
) -> Vec<HoldingRows> {
    holdings_in(plan, route, bench, units, PICTURE_MM)
}

/// The same with pictures at most so wide and high, mm.
pub(crate) fn holdings_in(
    plan: &Plan,
    route: &Route,
    bench: Option<&Bench>,
    units: Units,
    room_mm: (f64, f64),
) -> Vec<HoldingRows> {
    let held = rows_in(plan, route, bench, units);
    let ranges: Vec<Range<usize>> = held.iter().map(|it| it.0.clone()).collect();
    let pictures = draw::holdings(plan, route, &ranges, room_mm);
    let each = held.into_iter().zip(pictures);
    let each = each.map(|((range, rows), picture)| {
        let at_lathe = route.operations[range.start].hold != Workholding::Bench;
        HoldingRows {
            picture: at_lathe.then_some(picture),
            ..rows
        }
    });
    each.filter(|it| !it.rows.is_empty()).collect()
}

/// The same without pictures, each with its stretch of the route.
pub(super) fn rows_in(
    plan: &Plan,
    route: &Route,
    bench: Option<&Bench>,
    units: Units,
) -> Vec<(Range<usize>, HoldingRows)> {
    let ranges = route.holdings().into_iter().map(|it| it.operations);
    let mut number = 0;
    let each = ranges.map(|range| {
        let hold = route.operations[range.start].hold;
        let words = RowContext {
            plan,
            route,
            bench,
            units,
            unscrews: unscrews(&route.operations[..range.end]),
        };
        let mut rows = joined(&words, range.clone());
        for row in rows.iter_mut().filter(|it| !it.stop) {
            number += 1;
            row.number = Some(number);
        }
        let (title, grip) = held(&words, hold);
        let rows = HoldingRows {
            title,
            grip,
            picture: None,
            rows,
            loose: match hold {
                Workholding::Pieces(_) => Some(LoosePieces::Held),
                Workholding::Bench => Some(LoosePieces::AtBench),
                _ => None,
            },
        };
        (range, rows)
    });
    each.collect()
}

/// The rows of a stretch; facing and centring of one end are one.
fn joined(words: &RowContext, range: Range<usize>) -> Vec<HoldingRow> {
    let mut rows: Vec<HoldingRow> = Vec::new();
    let mut faced: Option<End> = None;
    let mut centre = Centre::at(&words.route.operations[range.start]);
    for at in range {
        let operation = &words.route.operations[at];
        let Some(mut row) = row(words, operation, at) else {
            continue;
        };
        let goes = centre.goes(operation).filter(|_| !row.stop);
        row.how.splice(0..0, goes.map(str::to_owned));
        if let (Work::Centre { .. }, Some(last)) = (&operation.work, rows.last_mut())
            && last.verb == "CENTRE"
            && operation.hold == Workholding::Bench
        {
            last.size = BOTH_ENDS.into();
            last.lines.extend(row.lines);
            last.done &= row.done;
            last.how.retain(|it| row.how.contains(it));
            continue;
        }
        if let (Work::Centre { end, .. }, Some(last)) = (&operation.work, rows.last_mut())
            && faced == Some(*end)
        {
            last.verb = "FACE, CENTRE".into();
            last.lines.extend(row.lines);
            last.done &= row.done;
            if !row.how.is_empty() {
                last.how.retain(|it| it != CLEAN);
            }
            last.how.extend(row.how);
            faced = None;
            continue;
        }
        faced = match &operation.work {
            Work::Face { end, .. } => {
                row.how.extend(to_length(words, operation, at));
                Some(*end)
            }
            _ => None,
        };
        if let (Work::Polish { .. }, Some(note)) = (&operation.work, &words.unscrews) {
            row.how.push(match note {
                Note::LeftHandUnscrews => "in reverse: it unscrews".into(),
                _ => "never in reverse: it unscrews".into(),
            });
        }
        rows.push(row);
    }
    rows
}

/// Whether the tail centre is up while work stays on a mandrel.
struct Centre {
    up: bool,
}

impl Centre {
    fn at(operation: &Operation) -> Centre {
        Centre {
            up: Centre::supports(operation),
        }
    }

    fn supports(operation: &Operation) -> bool {
        matches!(operation.hold, Workholding::Mandrel(mount) if mount.tail != TailSupport::Free)
    }

    /// What is done with it before an operation, where that is something.
    fn goes(&mut self, operation: &Operation) -> Option<&'static str> {
        let was = std::mem::replace(&mut self.up, Centre::supports(operation));
        match (was, self.up) {
            (true, false) => Some("centre back"),
            (false, true) => Some("centre up"),
            _ => None,
        }
    }
}

/// A stack is centred at both before it goes between centres.
const BOTH_ENDS: &str = "both ends";
/// Faced no further than it must be.
const CLEAN: &str = "until clean";

/// How far an end is faced: to a length that is then there, else until it is clean; nothing where a note
/// says what it becomes level with.
fn to_length(words: &RowContext, operation: &Operation, at: usize) -> Option<String> {
    let Work::Face { end, to } = &operation.work else {
        return None;
    };
    let is_level = |it: &Note| matches!(it, Note::LevelWith { .. });
    if operation.notes.iter().any(is_level) {
        return None;
    }
    let before = &words.route.operations[..at];
    let other = before.iter().rev().find_map(|it| match &it.work {
        Work::Face { end: faced, to } if faced != end => Some(*to),
        _ => None,
    });
    let blank = &words.route.blank;
    let stub = blank.stub.is_some_and(|it| it.0 == end.other());
    Some(match other {
        Some(other) if !stub => {
            let length = (*to - other).abs();
            let whole = length == words.route.part.length;
            let tail = if whole { "over all" } else { "with the nub" };
            format!("{} {tail}", words.units.plain(length))
        }
        _ => CLEAN.into(),
    })
}

/// What unscrews the work from the mandrel that it was last put on, however the tail centre went since.
fn unscrews(done: &[Operation]) -> Option<Note> {
    let taken = done
        .iter()
        .rposition(|it| matches!(it.work, Work::TakeHold))
        .unwrap_or(0);
    let operations = &done[taken..];
    let notes = operations.iter().flat_map(|it| &it.notes);
    let meant = |it: &&Note| matches!(it, Note::ReverseUnscrews | Note::LeftHandUnscrews);
    notes.into_iter().find(meant).cloned()
}

/// What holds the work, and how.
fn held(words: &RowContext, hold: Workholding) -> (String, String) {
    let part = &words.route.part;
    let plain = |it| words.units.plain(it);
    match hold {
        Workholding::Bench => ("At the bench".into(), String::new()),
        Workholding::Pieces(held) => {
            let title = match held.from == held.to {
                true => format!("Piece {} by itself", held.to.number()),
                false => format!("Pieces {} to {}", held.from.number(), held.to.number()),
            };
            let rod = if held.on_rod { ", on its rod" } else { "" };
            (
                title,
                format!("{} in, {} out{rod}", plain(held.grip), plain(held.overhang)),
            )
        }
        Workholding::Centres => ("Between centres".into(), String::new()),
        Workholding::Collet(grip) => {
            let what = capital(words::gripper(words.bench, grip.dia));
            (
                format!("{what} {}", dia_of(words.units, grip.dia)),
                format!(
                    "{} in, {} {} out",
                    plain(grip.length()),
                    part.end_name(grip.free),
                    plain(grip.overhang)
                ),
            )
        }
        Workholding::Mandrel(mount) => {
            let how = match mount.tail {
                TailSupport::Centre => "and tail centre".to_owned(),
                TailSupport::BullNose => "and bull-nose centre".to_owned(),
                TailSupport::Plug(plug) => format!("centre in plug {}", words::letter(plug)),
                TailSupport::Free => format!("{} free", part.end_name(mount.end.other())),
            };
            (format!("Mandrel {}", words::letter(mount.mandrel)), how)
        }
        Workholding::Joined { collet, tail } => {
            let how = match tail {
                TailSupport::Plug(plug) => format!("centre in plug {}", words::letter(plug)),
                // Its column is no wider.
                TailSupport::BullNose => "bull-nose up".into(),
                TailSupport::Centre | TailSupport::Free => "tail centre up".into(),
            };
            (
                format!("Nub in collet {}", dia_of(words.units, collet)),
                format!("joined, {how}"),
            )
        }
    }
}

impl HoldingRows {
    /// The same in two: the first as far as its first stop, or half of it; none where it is one row.
    pub(super) fn split(&self) -> Option<(HoldingRows, HoldingRows)> {
        let stop = self.rows.iter().position(|it| it.stop).map(|it| it + 1);
        let mut at = stop
            .filter(|it| *it < self.rows.len())
            .unwrap_or(self.rows.len() / 2);
        // A stop stays with the row before it.
        if self.rows.get(at).is_some_and(|it| it.stop) {
            at += 1;
        }
        if at == 0 || at >= self.rows.len() {
            return None;
        }
        let part = |rows: &[HoldingRow], grip: String, picture: Option<Scene>| HoldingRows {
            title: self.title.clone(),
            grip,
            picture,
            rows: rows.to_vec(),
            loose: self.loose,
        };
        let first = part(&self.rows[..at], self.grip.clone(), self.picture.clone());
        Some((first, part(&self.rows[at..], "continued".into(), None)))
    }
}
