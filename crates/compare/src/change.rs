//! What differs: written, measured, found, done at the lathe. Plain data.

use crate::Place;
use quillet_model::SourceFile;
use quillet_syntax::{Finding, Severity, SizedText};
use std::sync::Arc;

/// What differs in what is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// The item: `part cap`, `let grip`.
    pub item: String,
    /// The block in it: `from mouth`, `outside`; empty where it is the item's own line.
    pub block: String,
    /// As it was written; empty where it is new.
    pub old: String,
    /// As it is written; empty where it is gone.
    pub new: String,
    /// Both in one: `drill 12.2 -> 12.9 to 54`.
    pub diff: String,
    /// Whether only its name is another.
    pub renamed: bool,
}

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MeasureKind {
    /// How long the pen is, mm.
    Length,
    /// What the pen weighs, filled, g.
    Mass,
    /// Where the pen balances, mm from its foremost place.
    Balance,
    /// How much ink it holds, ml.
    Ink,
    /// The least wall of a part, mm.
    Wall,
    /// What is left between two places, mm.
    Clearance,
    /// How far a joint comes out until its threads let go, mm.
    Travel,
    /// Turns until a joint's threads let go.
    Turns,
    /// Whether a want is met: 1 or 0.
    Want,
}

impl MeasureKind {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Mass => "mass",
            Self::Balance => "balance",
            Self::Ink => "ink",
            Self::Wall => "least wall",
            Self::Clearance => "clearance",
            Self::Travel => "travel",
            Self::Turns => "turns",
            Self::Want => "want",
        }
    }

    /// What it is counted in, as a key's name ends; none of a bare number.
    pub fn unit(self) -> Option<&'static str> {
        match self {
            Self::Mass => Some("g"),
            Self::Ink => Some("ml"),
            Self::Turns | Self::Want => None,
            _ => Some("mm"),
        }
    }
}

/// A measure that differs; none on a side where it is not known.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasureChange {
    /// What is measured.
    pub kind: MeasureKind,
    /// Of what: `capped`, `cap`, `section's shoulder in cap's ⌀12.20 drill`.
    pub of: SizedText,
    /// Which way it is measured: `a side`; empty where that is plain.
    pub way: &'static str,
    /// What it was.
    pub old: Option<f64>,
    /// What it is.
    pub new: Option<f64>,
}

/// Which surface of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The outside.
    Outside,
    /// The bores.
    Inside,
}

impl Side {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Side::Outside => "outside",
            Side::Inside => "inside",
        }
    }
}

/// By how much the outline of a part differs: mm on diameter, and the station, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct OutlineChange {
    /// The part.
    pub part: String,
    /// Which surface.
    pub side: Side,
    /// Where it has grown most.
    pub grown: Option<(f64, f64)>,
    /// Where it has shrunk most; less than nothing.
    pub shrunk: Option<(f64, f64)>,
}

/// What has become of a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FindingState {
    /// It was not there before.
    New,
    /// It is not there any more.
    Gone,
    /// It is graver than it was.
    Graver,
    /// It is less grave than it was.
    Milder,
    /// It says something else.
    Reworded,
    /// It is as it was.
    Same,
}

impl FindingState {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::New => "new",
            Self::Gone => "gone",
            Self::Graver => "graver",
            Self::Milder => "milder",
            Self::Reworded => "reworded",
            Self::Same => "same",
        }
    }

    /// Whether it is reported.
    pub fn counts(self) -> bool {
        !matches!(self, Self::Reworded | Self::Same)
    }
}

/// A finding, and what has become of it.
#[derive(Clone, Debug)]
pub struct FindingChange {
    /// What has become of it.
    pub state: FindingState,
    /// Who it is.
    pub place: Place,
    /// As it is now; as it was where it is gone.
    pub finding: Finding,
    /// How grave it was, where it was there.
    pub was: Option<Severity>,
    /// The files of its spans.
    pub files: Vec<Arc<SourceFile>>,
}

/// What differs on the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepChange {
    /// The part, `mandrel D`, `tools`, `saw`.
    pub group: String,
    /// Its number on the sheet, where it has one: as it is, else as it was.
    pub number: Option<usize>,
    /// As it was; empty where it is new.
    pub old: String,
    /// As it is; empty where it is gone.
    pub new: String,
    /// Both in one: `tap M9×0.75 to 7, point at 9.0 -> 9.6`.
    pub diff: String,
}
