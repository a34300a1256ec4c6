//! Pens: how parts meet, and what is wanted.

use super::{Accept, Expr, Face, Let, Limit, Name, Range, Text};
use crate::Span;

/// `pen name "title" [like other] { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Pen {
    /// The name it defines.
    pub name: Name,
    /// Its title.
    pub title: Option<Text>,
    /// The pen it is like.
    pub like: Option<Name>,
    /// The block, braces included.
    pub block: Option<Span>,
    /// The lines of the block.
    pub lines: Vec<PenLine>,
}

/// A line of a pen.
#[derive(Clone, Debug, PartialEq)]
pub struct PenLine {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: PenLineKind,
}

/// What a pen's line says.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "each variant is documented at its type")]
pub enum PenLineKind {
    Joint(Joint),
    Want(Want),
    Accept(Accept),
    Let(Let),
    Limit(Limit),
    /// `bench NAME`
    Bench(Name),
    /// `fill NAME`: that part itself holds the ink.
    Fill(Name),
    /// Text that is no line.
    Bad,
}

/// `verb a.x into b.y option… [{ … }]`
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// The verb and where it stands.
    pub verb: Verb,
    /// Where the verb stands.
    pub verb_span: Span,
    /// The face named first.
    pub first: Face,
    /// `into` or `onto`.
    pub direction: Direction,
    /// The face named second.
    pub second: Face,
    /// The options in the order written.
    pub options: Vec<JointOption>,
    /// The joint's own block, braces included.
    pub block: Option<Span>,
    /// The lines of its block.
    pub lines: Vec<JointLine>,
}

/// The verbs of a joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub enum Verb {
    Screw,
    Close,
    Post,
    Slip,
    Press,
    Glue,
    Push,
}

impl Verb {
    /// All verbs, in the manual's order.
    pub const ALL: [Verb; 7] = [
        Verb::Screw,
        Verb::Close,
        Verb::Post,
        Verb::Slip,
        Verb::Press,
        Verb::Glue,
        Verb::Push,
    ];

    /// The word as written.
    pub fn word(self) -> &'static str {
        match self {
            Verb::Screw => "screw",
            Verb::Close => "close",
            Verb::Post => "post",
            Verb::Slip => "slip",
            Verb::Press => "press",
            Verb::Glue => "glue",
            Verb::Push => "push",
        }
    }
}

/// Which of the two is the male.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Direction {
    /// `into`: the first is the male.
    Into,
    /// `onto`: the first is the female.
    Onto,
}

/// An option of a joint.
#[derive(Clone, Debug, PartialEq)]
pub struct JointOption {
    /// The phrase.
    pub span: Span,
    /// What it says.
    pub kind: JointOptionKind,
}

/// What an option says.
#[derive(Clone, Debug, PartialEq)]
pub enum JointOptionKind {
    /// `with THREAD`
    With(Name),
    /// `through PART, …`: what is trapped between.
    Through(Vec<Name>),
    /// `by L`
    By(Expr),
    /// `fit H7/g6`
    Fit(Text),
    /// `clearance C`, on diameter.
    Clearance(Expr),
    /// `interference C`, on diameter.
    Interference(Expr),
    /// `gap G`, on diameter.
    Gap(Expr),
}

/// A line of a joint's block.
#[derive(Clone, Debug, PartialEq)]
pub struct JointLine {
    /// The statement.
    pub span: Span,
    /// What it says.
    pub kind: JointLineKind,
}

/// What a joint's line says.
#[derive(Clone, Debug, PartialEq)]
pub enum JointLineKind {
    /// `seat a.x on b.y`
    Seat {
        /// The first face.
        first: Face,
        /// The face it is to touch.
        second: Face,
    },
    /// `flush`
    Flush,
    /// `want …`
    Want(Want),
    /// `accept …`
    Accept(Accept),
    /// `limit …`
    Limit(Limit),
    /// Text that is no line.
    Bad,
}

/// `want sum test`
#[derive(Clone, Debug, PartialEq)]
pub struct Want {
    /// The statement.
    pub span: Span,
    /// What is measured.
    pub measure: Expr,
    /// What it is held against.
    pub test: Test,
}

/// What a wanted measure is held against.
#[derive(Clone, Debug, PartialEq)]
pub enum Test {
    /// `< <= > >= sum`
    Compare(Comparison, Expr),
    /// `= sum +- sum`
    About {
        /// The value.
        value: Expr,
        /// The tolerance either way.
        tolerance: Expr,
    },
    /// `within a..b`
    Within(Range),
}

/// The comparisons.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the operators")]
pub enum Comparison {
    Less,
    AtMost,
    More,
    AtLeast,
}
