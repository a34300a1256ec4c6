//! What is on a bench.

use super::{Expr, Limit, Name, Size, SumSpan, Text};
use crate::Span;

/// `bench name "title" { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Bench {
    /// The name it defines.
    pub name: Name,
    /// Its title.
    pub title: Option<Text>,
    /// The block, braces included.
    pub block: Option<Span>,
    /// The lines of the block.
    pub tools: Vec<ToolLine>,
}

/// A line of a bench.
#[derive(Clone, Debug, PartialEq)]
pub struct ToolLine {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: ToolLineKind,
}

/// What a bench's line says.
#[derive(Clone, Debug, PartialEq)]
pub enum ToolLineKind {
    /// `drills`, `reamers`, … with sizes.
    Sizes {
        /// Which tools.
        tools: SizedTools,
        /// The sizes.
        runs: Vec<Run>,
        /// `reach L` (drills, boring bars).
        reach: Option<Expr>,
        /// `pilot D` (bushings).
        pilot: Option<Expr>,
    },
    /// `taps` or `dies` with threads.
    Threads {
        /// Taps or dies.
        tools: ThreadTools,
        /// The threads.
        forms: Vec<super::ThreadRef>,
        /// `lead …`: the lead-in of the tool.
        lead: Option<Lead>,
    },
    /// `saw kerf K`: what a saw cut turns to dust.
    Saw {
        /// The width of the cut.
        kerf: Expr,
    },
    /// `lathe SPEEDS …`
    Lathe {
        /// Spindle speeds, rev/min: steps, ranges, or both.
        speeds: Vec<SumSpan>,
        /// What else it says, in the order written.
        options: Vec<LatheOption>,
    },
    /// `limit …`
    Limit(Limit),
    /// Text that is no tool line.
    Bad,
}

/// The lead-in of a tap or die.
#[derive(Clone, Debug, PartialEq)]
pub enum Lead {
    /// As measured, a length.
    Length(Expr),
    /// By its form, a capital letter (DIN 2197).
    Form {
        /// Where it stands.
        span: Span,
        /// The letter.
        letter: char,
    },
}

/// A phrase after a lathe's speeds.
#[derive(Clone, Debug, PartialEq)]
pub struct LatheOption {
    /// The phrase.
    pub span: Span,
    /// What it says.
    pub kind: LatheOptionKind,
}

/// What a lathe's phrase says.
#[derive(Clone, Debug, PartialEq)]
pub enum LatheOptionKind {
    /// `bore D`: the spindle's bore.
    Bore(Expr),
    /// `centres L`: the length it takes between centres.
    Centres(Expr),
    /// `travel L`: how far the tailstock's spindle goes.
    Travel(Expr),
    /// `screwcutting`: it is geared to cut threads with a single point.
    Screwcutting,
}

/// Tools given by sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum SizedTools {
    Drills,
    Boring,
    Reamers,
    Collets,
    Bushings,
    Mandrels,
}

/// Tools given by threads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum ThreadTools {
    Taps,
    Dies,
}

/// One size, or a run of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Where it stands.
    pub span: Span,
    /// The size, or the first of the run.
    pub from: Size,
    /// The last of the run.
    pub to: Option<Size>,
    /// `step S`
    pub step: Option<Expr>,
}
