//! What stands on a sheet, in words and figures, before any form is chosen.

use super::cautions::PenTest;
use super::holdings::{HoldingRows, gluing};
pub(super) use super::shown::PenPictures;
pub use super::shown::{Contact, PartEntry, PenFigures, Saw, SawnPiece, Turning};
use super::strip::Strip;
use crate::draw::Label;
use quillet_check::measure::Verdict;
use quillet_model::{End, Part};
use serde::Serialize;
use std::sync::Arc;

/// The sheet of a pen.
#[derive(Clone, Debug, Serialize)]
pub struct Content {
    /// The pen's title.
    pub title: String,
    /// Its name in the design.
    pub name: String,
    /// The maker's note above it.
    pub note: Option<String>,
    /// The bench it is made at.
    pub bench: Option<String>,
    /// Where it is the sheet of one that was made: the pen it is one of, and the day, as written.
    pub made: Option<MadeOf>,
    /// What must be said on every page: the design has errors.
    pub warning: Option<String>,
    /// The file it is from.
    pub file: String,
    /// The same text, the same mark: the first eight digits of a hash of the files used, formatted.
    pub design_mark: String,
    /// What speeds are told in: `rev/min`, or `m/min` where no lathe is known.
    pub speeds: String,
    /// Pictures of the pen.
    #[serde(skip)]
    pub looks: PenPictures,
    /// Length, mass and balance, as the first page shows them.
    pub figures: Vec<PenFigures>,
    /// All parts, bought ones too, those that are made first and in the order of making.
    pub listed: Vec<PartEntry>,
    /// What is sawn.
    pub saws: Vec<Saw>,
    /// What is to be known of it.
    pub saw_notes: Vec<String>,
    /// Tools to lay out, by kind.
    pub lay_out: Vec<(String, Vec<String>)>,
    /// What the bench's list lacks, and the nearest substitute.
    pub lacking: Vec<(String, String)>,
    /// Mandrels and plugs to turn.
    pub turning: Vec<Turning>,
    /// Where parts touch or stay clear, lettered.
    pub contacts: Vec<Contact>,
    /// How it is put together, in order.
    pub order: Vec<(String, String)>,
    /// How it is tested.
    pub tests: Vec<PenTest>,
    /// What the numbers in the picture mean.
    pub callouts: Vec<String>,
    /// Length, mass and balance in each configuration.
    pub measures: Table,
    /// What is wanted of it.
    pub wants: Vec<WantRow>,
    /// Tools.
    pub tools: Table,
    /// A line about the tools.
    pub tools_note: String,
    /// Blanks.
    pub cuts: Table,
    /// A line about the blanks.
    pub cuts_note: String,
    /// Mandrels and plugs to make.
    pub mandrels: Table,
    /// The parts in the order they are made.
    pub parts: Vec<PartSheet>,
    /// Findings the maker accepts.
    pub accepted: Vec<Accepted>,
    /// What is done when all parts are made.
    pub finishing: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// What one that was made is one of.
#[derive(Clone, Debug, Serialize)]
pub struct MadeOf {
    /// The pen as it is drawn.
    pub of: String,
    /// The day, as written.
    pub on: Option<String>,
}

impl MadeOf {
    /// `One heron, as made on 3 May: what is ticked is done`
    pub fn words(&self) -> String {
        let on = self.on.as_ref().map(|it| format!(" on {it}"));
        format!(
            "One {}, as made{}: what is ticked is done.",
            self.of,
            on.unwrap_or_default()
        )
    }
}

/// Rows under headings.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Table {
    /// One a column.
    pub head: Vec<String>,
    /// As many cells a row.
    pub rows: Vec<Vec<String>>,
}

/// A want and whether it is met.
#[derive(Clone, Debug, Serialize)]
pub struct WantRow {
    /// As written; a part's own with the part before it.
    #[serde(rename = "says")]
    pub caption: String,
    /// The same in a maker's words: `Capped length at most 145`.
    pub asks: String,
    /// What it comes to, in figures alone.
    pub comes_to: Option<String>,
    /// What it comes to; none where that is not known.
    pub found: Option<String>,
    /// `met`, `not-met`, `too-close`, `unknown`.
    pub judged: &'static str,
    /// The same for people, with the reason where it is accepted or not known.
    pub verdict: String,
}

impl WantRow {
    /// Whether nothing stands open about it.
    pub fn is_met(&self) -> bool {
        self.judged == Verdict::Met.word()
    }

    /// The want, what is and whether that will do: `mass(capped) <= 30: 21.70 g, met`.
    pub fn line(&self) -> String {
        let WantRow {
            caption, verdict, ..
        } = self;
        match &self.found {
            Some(found) => format!("{caption}: {found}, {verdict}"),
            None => format!("{caption}: {verdict}"),
        }
    }
}

/// A finding the maker accepts.
#[derive(Clone, Debug, Serialize)]
pub struct Accepted {
    /// The rule.
    pub rule: String,
    /// What was found.
    pub message: String,
    /// The maker's reason.
    pub because: String,
}

/// The pages of a part.
#[derive(Clone, Debug, Serialize)]
pub struct PartSheet {
    /// Its name.
    pub name: String,
    /// The maker's note above it.
    pub note: Option<String>,
    /// Material, stock, sizes.
    pub facts: Vec<String>,
    /// The head of its page.
    pub title: String,
    /// Beside it: pen, stock, sawn length and mass.
    pub about: String,
    /// Its length over all.
    pub length: String,
    /// What is to be known of it besides.
    pub notes: Vec<String>,
    /// The part itself, for its drawing.
    #[serde(skip)]
    pub(crate) part: Arc<Part>,
    /// What stands at its cuts.
    #[serde(skip)]
    pub(crate) labels: Vec<Label>,
    /// How it is made, by what holds it.
    pub holdings: Vec<HoldingRows>,
    /// The strip to cut off.
    pub strip: Option<Strip>,
    /// How it is made.
    pub route: Vec<RouteLine>,
    /// Diameters along it.
    pub calipers: Table,
    /// The face the stations are measured from.
    pub datum: String,
}

impl PartSheet {
    /// How many of its holdings, from the first on, glue its stack up; 0 where it is no stack.
    pub(super) fn gluing(&self) -> usize {
        gluing(&self.holdings)
    }

    /// Half its greatest diameter, mm.
    pub(super) fn radius_mm(&self) -> f64 {
        let pieces = self
            .part
            .profiles
            .iter()
            .flat_map(|it| it.turned().segments());
        pieces.map(|it| it.curve.bounds().max.r).fold(0.0, f64::max)
    }

    /// The names of its two ends.
    pub(super) fn ends(&self) -> [String; 2] {
        [End::First, End::Second].map(|end| self.part.end_name(end).to_owned())
    }
}

/// A numbered line of a route.
#[derive(Clone, Debug, Default, Serialize)]
pub struct RouteLine {
    /// Its number.
    pub number: usize,
    /// What is done.
    pub what: String,
    /// How the work is held, where that changes.
    pub hold: Option<String>,
    /// Tool, depth, speed.
    pub how: Vec<String>,
    /// What to mind.
    pub notes: Vec<String>,
    /// What to measure.
    pub checks: Vec<RouteCheck>,
    /// Stop and test before going on.
    pub gate: bool,
    /// It is made already, in one of which that is said.
    pub done: bool,
}

/// A measurement and its limits.
#[derive(Clone, Debug, Serialize)]
pub struct RouteCheck {
    /// What is measured.
    pub what: String,
    /// Between what it must lie.
    pub limits: String,
    /// What was read, where it is made.
    pub as_made: Option<String>,
}

impl Table {
    /// An empty table.
    pub(super) fn new(head: &[&str]) -> Table {
        Table {
            head: head.iter().map(|&it| it.to_owned()).collect(),
            rows: Vec::new(),
        }
    }

    /// Takes a column out, where there is one of this head.
    pub(super) fn drop_column(&mut self, head: &str) {
        let Some(at) = self.head.iter().position(|it| it == head) else {
            return;
        };
        self.head.remove(at);
        for row in &mut self.rows {
            row.remove(at);
        }
    }
}
