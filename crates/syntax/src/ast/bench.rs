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
    /// `keeps KEPT L`: how closely a kind of size is kept.
    Keeps {
        /// What is kept.
        kept: Kept,
        /// Either way; of a drilled hole, over size.
        within: Expr,
    },
    /// `caliper L`: to how much a measured size is known.
    Caliper {
        /// Either way.
        within: Expr,
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

/// A kind of size that a hand keeps more or less closely.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kept {
    /// Inside depths, from the face they are cut from.
    Depth,
    /// Outside stations, from the face they are measured from.
    Shoulder,
    /// Lengths over all.
    Length,
    /// Turned diameters.
    Dia,
    /// Bored, reamed and recessed diameters.
    Bore,
    /// How much over size a drilled hole comes out.
    Drill,
    /// How far out of its place a nib is set.
    Nib,
}

impl Kept {
    /// All of them, in the manual's order.
    pub const ALL: [Kept; 7] = [
        Kept::Depth,
        Kept::Shoulder,
        Kept::Length,
        Kept::Dia,
        Kept::Bore,
        Kept::Drill,
        Kept::Nib,
    ];

    /// The grammar's word.
    pub fn word(self) -> &'static str {
        match self {
            Kept::Depth => "depth",
            Kept::Shoulder => "shoulder",
            Kept::Length => "length",
            Kept::Dia => "dia",
            Kept::Bore => "bore",
            Kept::Drill => "drill",
            Kept::Nib => "nib",
        }
    }
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
