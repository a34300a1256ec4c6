//! One row of a holding: an operation as it is read at the lathe, sizes first.

use super::reading::{home, note, pin, readings};
use super::row_cuts::{along, inside, outside, reach, thread};
use super::row_words::{RowContext, dia_of};
use super::side::{beside, side};
use quillet_geometry::{Edge, Length};
use quillet_model::End;
use quillet_plan::{Home, Measured, Operation, OutsidePass, Pass, TurnKind, Work, Workholding};
use serde::Serialize;

/// One row of a holding.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct HoldingRow {
    /// Its number on the part's page; a stop has none.
    pub number: Option<usize>,
    /// The lines of the route it stands for.
    pub lines: Vec<usize>,
    /// Stop and try the mate before going on.
    pub stop: bool,
    /// What is done: `DRILL`.
    pub verb: String,
    /// To what size, or with what: `⌀12.2`.
    pub size: String,
    /// How far: `to 54`.
    pub reach: String,
    /// Tool and readings; a reading never breaks.
    pub how: Vec<String>,
    /// How fast: `700`, `hand`, or the cutting speed where no lathe is known.
    pub speed: String,
    /// Limits of the diameter; of a stop what is counted.
    pub dia: Option<String>,
    /// Limits of the length.
    pub length: Option<String>,
    /// It is made already, in one of which that is said.
    pub done: bool,
    /// The diameter that was read.
    pub dia_as_made: Option<String>,
    /// The length that was read.
    pub length_as_made: Option<String>,
}

/// Seen of what nothing stops or counts.
const GOES_FREELY: &str = "slides in freely";

/// The row of an operation; none of what is not done at the lathe, or only holds the work.
#[expect(
    clippy::too_many_lines,
    reason = "an arm an operation: it is read as a table"
)]
pub(super) fn row(words: &RowContext, operation: &Operation, at: usize) -> Option<HoldingRow> {
    let mut row = HoldingRow {
        lines: vec![at + 1],
        speed: words.speed(operation),
        ..HoldingRow::default()
    };
    let mut put = |verb: &str, size: String, reach: String| {
        row.verb = verb.into();
        row.size = size;
        row.reach = reach;
    };
    let part = &words.route.part;
    let name = |end: End| part.end_name(end).to_owned();
    let plain = |length: Length| words.units.plain(length);
    let mut how = Vec::new();
    match &operation.work {
        Work::Saw { .. } | Work::TakeHold | Work::Support { .. } => return None,
        Work::FacePiece(face) => {
            let to = face.to.map(|to| format!("to {}", plain(to)));
            put(
                "FACE",
                format!("piece {}", face.piece.number()),
                to.unwrap_or_default(),
            );
            how.push("square".to_owned());
        }
        Work::Socket {
            dia, depth, leads, ..
        } => {
            let verb = if *leads { "DRILL" } else { "BORE" };
            put(
                verb,
                dia_of(words.units, *dia),
                format!("{} deep", plain(*depth)),
            );
        }
        Work::Spigot { dia, length, .. } => {
            put(
                "TENON",
                dia_of(words.units, *dia),
                format!("for {}", plain(*length)),
            );
        }
        Work::GlueUp { piece, gap, rubbed } => {
            how.extend(rubbed.then(|| "rub its face flat".to_owned()));
            let gap = gap.map(|it| format!("gap {}, ", plain(it)));
            let cure = format!("{}cure 24 h", gap.unwrap_or_default());
            put("GLUE", format!("piece {}", piece.number()), cure);
        }
        Work::JoinIn(joined) => {
            let verb = if joined.pressed { "PRESS" } else { "GLUE" };
            put(
                verb,
                joined.part.to_string(),
                match &joined.at {
                    Some(at) if at.over => format!("over the {} of {}", at.end, at.part),
                    Some(at) => format!("into the {} of {}", at.end, at.part),
                    None => format!("into the {}", name(joined.end)),
                },
            );
            how.extend(joined.home.as_ref().map(|it| match it {
                // What is glued is held by the glue.
                Home::GoesIn(deep) => format!("{} in", plain(*deep)),
                other => home(words, other),
            }));
            how.extend(operation.after.map(|_| "once it is made".to_owned()));
            how.extend(joined.gap.map(|it| format!("gap {}", plain(it))));
            how.extend((!joined.pressed).then(|| "cure 24 h".to_owned()));
        }
        Work::Round { dia } => put("TURN", dia_of(words.units, *dia), "round".into()),
        Work::Face { end, .. } => put("FACE", name(*end), String::new()),
        Work::Centre { end, in_nub } => {
            put("CENTRE", name(*end), String::new());
            how.extend(in_nub.then(|| "for the tail centre".to_owned()));
            if operation.hold == Workholding::Bench {
                how.push("marked, drill upright".to_owned());
            }
        }
        Work::Inside(cut) => {
            let (verb, size) = inside(words, cut);
            put(verb, size, reach(words, cut));
        }
        Work::Turn(cut) => {
            let verb = match cut.kind {
                TurnKind::Tenon | TurnKind::ThreadLand => "TENON",
                TurnKind::Relief => "RELIEF",
                TurnKind::Groove => "GROOVE",
            };
            put(verb, dia_of(words.units, cut.dia), along(words, cut));
        }
        Work::BreakCorner { edge, .. } => match edge {
            Edge::Chamfer(leg) => put("CHAMFER", plain(*leg), "× 45°".into()),
            Edge::Round(radius) => put("CHAMFER", format!("R{}", plain(*radius)), "round".into()),
        },
        Work::Thread(cut) => {
            let (verb, size, reach) = thread(words, cut);
            put(verb, size, reach);
        }
        Work::Try(gate) => {
            row.stop = true;
            row.speed = String::new();
            row.verb = "STOP".into();
            row.size = words.mate(gate);
            let home = gate.home.as_ref().map(|it| home(words, it));
            let turns = gate.turns.map(|it| format!("{it:.1} turns"));
            let seen: Vec<String> = turns.into_iter().chain(home).collect();
            row.reach = match seen.is_empty() {
                true => GOES_FREELY.into(),
                false => seen.join(", "),
            };
            row.dia = gate.turns.map(|_| "turns".to_owned());
            return Some(row);
        }
        Work::Outside(pass) => {
            let (verb, size, reach) = match sized_by(pass) {
                // Turned to the hole it goes into: its size, as sanding says it elsewhere.
                true => {
                    how.push("to the hole as made".to_owned());
                    let (size, reach) = words.polished(operation);
                    ("TURN", size, reach)
                }
                false => outside(words, pass),
            };
            put(verb, size, reach);
            let nub = pass.core.and_then(|core| core.nub);
            if let Some(nub) = nub.filter(|_| pass.pass == Pass::Finish) {
                let (dia, long) = (dia_of(words.units, nub.dia), plain(nub.length));
                how.push(format!("nub {dia} × {long}"));
            }
            if let Some(step) = operation.after {
                let mate = words.plan.routes.get(step.route);
                how.extend(mate.map(|it| format!("after {} is turned", it.part.name.text)));
            }
        }
        Work::PartOff { end, width, .. } => {
            put("PART", name(*end), format!("cut {} wide", plain(*width)));
        }
        Work::RemoveNub { end, over } => {
            put("NUB OFF", String::new(), format!("then the {}", name(*end)));
            let sand = if over.is_positive() {
                ""
            } else {
                ", then sand"
            };
            how.push(format!("light cuts{sand}"));
        }
        Work::Side { cut, places } => {
            let done = side(part, *cut, *places, operation.tool, words.units)?;
            put(done.verb, done.size.replace('Ø', "⌀"), done.reach);
            how.extend(done.places);
        }
        Work::Beside { holes, places, .. } => {
            let done = beside(part, *holes, *places, words.units)?;
            put(
                done.verb,
                done.size.replace('Ø', "⌀"),
                done.reach.replace('Ø', "⌀"),
            );
            how.extend(done.places);
        }
        Work::Polish { before_gluing, .. } => {
            let (size, reach) = words.polished(operation);
            put("SAND", size, reach);
            how.extend(before_gluing.then(|| "before it is glued".to_owned()));
        }
    }
    how.splice(0..0, words.tool_of(operation));
    how.extend(readings(words, operation));
    how.extend(operation.notes.iter().filter_map(|it| note(words, it)));
    row.how = how;
    as_made(words, operation, &mut row);
    row.dia = pin(words, operation);
    let is_side = matches!(operation.work, Work::Side { .. });
    for check in &operation.checks {
        let limits = words.limits(check.limits, check.nominal);
        match check.what {
            Measured::Depth { .. } | Measured::Point { .. } | Measured::Length => {
                row.length = Some(limits)
            }
            // Flats that taper are read at both ends, in the order of their sizes.
            _ => {
                let before = row.dia.take().filter(|_| is_side);
                row.dia = Some(before.map_or(limits.clone(), |it| format!("{it} {limits}")));
            }
        }
    }
    Some(row)
}

/// What is done already, and what was read of it.
fn as_made(words: &RowContext, operation: &Operation, row: &mut HoldingRow) {
    let Some(made) = operation.as_made else {
        return;
    };
    row.done = true;
    row.dia_as_made = made.dia.map(|it| words.units.number(it));
    row.length_as_made = made.length.map(|it| words.units.number(it));
}

/// Whether a pass leaves nothing to sand.
fn sized_by(pass: &OutsidePass) -> bool {
    pass.pass == Pass::Finish && !pass.over.is_positive()
}
