//! What is on a bench.

use super::{Expr, Limit, Name, Range, Size, Text};
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
        /// `reach L` (drills).
        reach: Option<Expr>,
    },
    /// `taps` or `dies` with threads.
    Threads {
        /// Taps or dies.
        tools: ThreadTools,
        /// The threads.
        forms: Vec<super::ThreadRef>,
        /// `lead L`: the lead-in of the tool, a length.
        lead: Option<Expr>,
    },
    /// `lathe a..b [bore D]`: rev/min, spindle bore.
    Lathe {
        /// Spindle speeds, rev/min.
        speeds: Range,
        /// Spindle bore.
        bore: Option<Expr>,
    },
    /// `limit …`
    Limit(Limit),
    /// Text that is no tool line.
    Bad,
}

/// Tools given by sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum SizedTools {
    Drills,
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
