//! How far numbers can move, what they come to on the way, and where they meet what is wanted.

mod aim;
mod bar;
mod called;
mod fold;
mod spread;
mod vary;

pub use aim::Aims;
pub use spread::Spreads;
pub use vary::Varied;

use super::SCHEMA_VERSION;
use super::rows::csv;
use super::table::{Cell, table};
use quillet_model::{Design, SourceFile};
use quillet_room::{Grain, NewFinding, Number, Passing, Room};
use quillet_syntax::{Encoding, Finding, LineIndex, Severity};
use serde::Serialize;

/// How far each number that was asked for can move.
#[derive(Serialize)]
pub struct Rooms {
    schema_version: u32,
    /// The pen whose findings alone count.
    pen: Option<String>,
    /// Findings below this do not count.
    until: &'static str,
    numbers: Vec<NumberRoom>,
}

/// How far one number can move, in the unit that it is written in.
#[derive(Serialize)]
struct NumberRoom {
    name: String,
    line: u32,
    column: u32,
    /// As written, with its unit.
    written: String,
    value: f64,
    /// Stretches of values that pass; none of a tool's.
    stretches: Option<Vec<[f64; 2]>>,
    /// Sizes of a tool that pass; none of others.
    sizes: Option<Vec<f64>>,
    /// The numbers that were moved with it.
    with: Vec<String>,
    /// From where to where it was looked.
    looked: [f64; 2],
    /// Whether no part and no pen rests on it.
    moves_nothing: bool,
    below: Option<StoppedBy>,
    above: Option<StoppedBy>,
    #[serde(skip)]
    grain: Grain,
}

/// What is found just beyond.
#[derive(Serialize)]
struct StoppedBy {
    rule: &'static str,
    severity: &'static str,
}

/// A number's room as it is told beside it.
#[derive(Debug)]
pub struct RoomInWords {
    /// `52.14 .. 58.90`, `12.2, 12.3, 12.4`, `8 only`.
    pub may_be: String,
    /// The same as a small picture; nothing of what moves nothing.
    pub bar: String,
    /// The rule that is broken just below.
    pub below: Option<&'static str>,
    /// The rule that is broken just above.
    pub above: Option<&'static str>,
}

impl RoomInWords {
    /// Of a room of a number of a design.
    pub fn of(room: &Room, design: &Design) -> Self {
        let told = NumberRoom::of(room, design);
        RoomInWords {
            may_be: told.passing(),
            bar: match told.moves_nothing {
                true => String::new(),
                false => told.bar(),
            },
            below: told.below.map(|it| it.rule),
            above: told.above.map(|it| it.rule),
        }
    }
}

impl Rooms {
    /// Of rooms of numbers of a design.
    pub fn of(design: &Design, pen: Option<&str>, until: Severity, rooms: &[Room]) -> Self {
        Rooms {
            schema_version: SCHEMA_VERSION,
            pen: pen.map(str::to_owned),
            until: until.word(),
            numbers: rooms.iter().map(|it| NumberRoom::of(it, design)).collect(),
        }
    }

    /// A line a number, as wide as this many letters; what it may be goes on below where it is more. With a
    /// picture of its range, where that is wanted.
    pub fn text(&self, bars: bool, width: usize) -> String {
        let row = |it: &NumberRoom| {
            let bar = if bars { it.bar() } else { String::new() };
            let stop = |sign: &str, by: &Option<StoppedBy>| {
                let by = by.as_ref().map(|by| format!("{sign} {}", by.rule));
                Cell::left(by.unwrap_or_default())
            };
            vec![
                Cell::left(&it.name),
                Cell::right(&it.written),
                Cell::left(bar),
                Cell::left(it.passing()),
                stop("<", &it.below),
                stop(">", &it.above),
            ]
        };
        let rows: Vec<Vec<Cell>> = self.numbers.iter().map(row).collect();
        let head = ["number", "drawn", "", "may be", "below", "above"];
        table(0, &head, &fold::folded(&head, rows, MAY_BE, width))
    }

    /// One row a stretch or size, for a spreadsheet.
    pub fn csv(&self) -> String {
        let head = [
            "number", "line", "column", "value", "from", "to", "below", "above",
        ];
        let stop = |by: &Option<StoppedBy>| by.as_ref().map_or("", |by| by.rule).to_owned();
        let rows = self.numbers.iter().flat_map(|it| {
            let sizes = it.sizes.iter().flatten().map(|size| [*size, *size]);
            let stretches = it.stretches.iter().flatten().copied();
            sizes.chain(stretches).map(move |[from, to]| {
                vec![
                    it.name.clone(),
                    it.line.to_string(),
                    it.column.to_string(),
                    it.value.to_string(),
                    it.grain.written(from),
                    it.grain.written(to),
                    stop(&it.below),
                    stop(&it.above),
                ]
            })
        });
        csv(&head.map(str::to_owned), rows)
    }
}

/// The column of what passes.
const MAY_BE: usize = 3;

impl NumberRoom {
    fn of(room: &Room, design: &Design) -> Self {
        let number = &room.number;
        let file = design.file(number.span.file);
        let place = lines_of(file).position(number.span.range().start, Encoding::Utf32);
        let (stretches, sizes) = match &room.passing {
            Passing::Stretches(all) => (Some(all.iter().map(|it| [it.0, it.1]).collect()), None),
            Passing::Sizes(all) => (None, Some(all.clone())),
        };
        NumberRoom {
            name: number.name.clone(),
            line: place.line + 1,
            column: place.column + 1,
            written: design.text(number.span).to_owned(),
            value: number.value,
            stretches,
            sizes,
            with: room.with.clone(),
            looked: [room.looked.0, room.looked.1],
            moves_nothing: room.moves_nothing,
            below: room.below.map(StoppedBy::of),
            above: room.above.map(StoppedBy::of),
            grain: number.grain,
        }
    }

    /// `52.14 .. 58.90`, `12.2, 12.3, 12.4`, `8 only`.
    fn passing(&self) -> String {
        if self.moves_nothing {
            return "moves nothing".to_owned();
        }
        let size = |value: f64| self.grain.written(value);
        let only = |value: f64| format!("{} only", size(value));
        if let Some(sizes) = &self.sizes {
            return match sizes[..] {
                [one] => only(one),
                _ => sizes
                    .iter()
                    .map(|it| size(*it))
                    .collect::<Vec<_>>()
                    .join(", "),
            };
        }
        let stretch = |[from, to]: &[f64; 2]| match from == to {
            true => size(*from),
            false => format!("{} .. {}", self.figure(*from), self.figure(*to)),
        };
        let stretches = self.stretches.iter().flatten();
        let all: Vec<String> = stretches.clone().map(stretch).collect();
        let text = match stretches.collect::<Vec<_>>()[..] {
            [[from, to]] if from == to => only(*from),
            _ => all.join(", "),
        };
        match self.with.as_slice() {
            [] => text,
            with => format!("none; with {} {text}", with.join(" and ")),
        }
    }

    fn figure(&self, value: f64) -> String {
        format!("{value:.0$}", self.grain.places)
    }

    fn bar(&self) -> String {
        let sizes = self.sizes.iter().flatten().map(|it| [*it, *it]);
        let stretches: Vec<[f64; 2]> = sizes
            .chain(self.stretches.iter().flatten().copied())
            .collect();
        bar::bar(self.looked, self.value, &stretches)
    }
}

impl StoppedBy {
    fn of(new: NewFinding) -> Self {
        StoppedBy {
            rule: new.rule.code(),
            severity: new.severity.word(),
        }
    }
}

/// Where lines begin in the file asked for.
fn lines(design: &Design) -> LineIndex {
    lines_of(design.root())
}

fn lines_of(file: Option<&SourceFile>) -> LineIndex {
    LineIndex::new(file.map_or_else(|| "".into(), |file| file.text.clone()))
}

/// A value as it is written where a number stands.
fn written(number: &Number, value: f64) -> String {
    format!("{}{}", number.grain.written(value), number.unit)
}

/// A finding by its name alone, where no more has room.
#[derive(Serialize)]
struct NamedFinding {
    severity: &'static str,
    rule: &'static str,
    /// `error thin-wall (line 12)`.
    #[serde(skip)]
    called: String,
}

impl NamedFinding {
    /// Those of a design whose lines begin so.
    fn all(findings: &[Finding], design: &Design, lines: &LineIndex) -> Vec<Self> {
        let of = |it: &Finding| {
            let severity = it.severity.word();
            let called = called::rule(design, it.rule, it.span, lines);
            NamedFinding {
                severity,
                rule: it.rule.code(),
                called: format!("{severity} {called}"),
            }
        };
        findings.iter().map(of).collect()
    }

    /// All of them in a line; `nothing` where there is none.
    fn listed(all: &[NamedFinding], nothing: &str) -> String {
        let called: Vec<&str> = all.iter().map(|it| it.called.as_str()).collect();
        match called.as_slice() {
            [] => nothing.to_owned(),
            called => called.join(", "),
        }
    }
}
