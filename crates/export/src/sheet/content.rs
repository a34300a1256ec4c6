//! What stands on a sheet, in words and figures, before any form is chosen.

use crate::scene::Scene;
use quillet_check::measure::Verdict;
use serde::Serialize;

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
    /// What must be said on every page: the design has errors.
    pub warning: Option<String>,
    /// The pen put together.
    #[serde(skip)]
    pub overview: Option<Scene>,
    /// The drawing of the pen on a sheet of its own.
    #[serde(skip)]
    pub drawing: Option<Scene>,
    /// What the numbers in the picture mean.
    pub callouts: Vec<String>,
    /// Length, mass and balance in each configuration.
    pub measures: Table,
    /// What is wanted of it.
    pub wants: Vec<Want>,
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
pub struct Want {
    /// As written; a part's own with the part before it.
    pub says: String,
    /// What it comes to; none where that is not known.
    pub found: Option<String>,
    /// `met`, `not-met`, `too-close`, `unknown`.
    pub judged: &'static str,
    /// The same for people, with the reason where it is accepted or not known.
    pub verdict: String,
}

impl Want {
    /// Whether nothing stands open about it.
    pub fn is_met(&self) -> bool {
        self.judged == Verdict::Met.word()
    }

    /// The want, what is and whether that will do: `mass(capped) <= 30: 21.70 g, met`.
    pub fn line(&self) -> String {
        let Want { says, verdict, .. } = self;
        match &self.found {
            Some(found) => format!("{says}: {found}, {verdict}"),
            None => format!("{says}: {verdict}"),
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
    /// Its drawing.
    #[serde(skip)]
    pub drawing: Option<Scene>,
    /// Its outside at full size.
    #[serde(skip)]
    pub template: Option<Scene>,
    /// How it is made.
    pub route: Vec<Line>,
    /// Diameters along it.
    pub calipers: Table,
    /// The face the stations are measured from.
    pub datum: String,
}

/// A numbered line of a route.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Line {
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
    pub checks: Vec<Check>,
    /// Stop and test before going on.
    pub gate: bool,
}

/// A measurement and its limits.
#[derive(Clone, Debug, Serialize)]
pub struct Check {
    /// What is measured.
    pub what: String,
    /// Between what it must lie.
    pub limits: String,
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
