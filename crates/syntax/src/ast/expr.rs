//! Sums, quantities, sizes and ranges.

use super::Name;
use crate::Span;
use num_rational::Ratio;

/// An exact number as written.
pub type Number = Ratio<i128>;

/// The units that may touch a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Inches.
    In,
    /// Grams.
    G,
    /// Millilitres.
    Ml,
    /// Degrees.
    Deg,
}

/// A sum, or any part of one.
#[derive(Clone, Debug, PartialEq)]
pub struct Expr {
    /// Where it stands.
    pub span: Span,
    /// What it is.
    pub kind: ExprKind,
}

/// The kinds of expression.
#[derive(Clone, Debug, PartialEq)]
pub enum ExprKind {
    /// `12.2`, `7/16in`, `1-5/8`.
    Quantity {
        /// The number, exact.
        value: Number,
        /// The unit that touches it.
        unit: Option<Unit>,
    },
    /// A name.
    Name(std::sync::Arc<str>),
    /// `-a`
    Negate(Box<Expr>),
    /// `a + b`
    Binary(Box<Expr>, Operator, Box<Expr>),
    /// `(a)`
    Group(Box<Expr>),
    /// `min(a, b)` or a measure.
    Call {
        /// The function or measure.
        name: Name,
        /// What stands between the parentheses.
        args: Vec<Arg>,
    },
    /// Nothing that could be read.
    Bad,
}

/// The operators of a sum.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the operators")]
pub enum Operator {
    Add,
    Subtract,
    Multiply,
    Divide,
}

/// An argument of a call.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg {
    /// A sum.
    Sum(Expr),
    /// `part.end`
    Face(Face),
}

/// `part.face`
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Face {
    /// The whole phrase.
    pub span: Span,
    /// The part.
    pub part: Name,
    /// The end or named face.
    pub face: Name,
}

/// `a..b`
#[derive(Clone, Debug, PartialEq)]
pub struct Range {
    /// The whole range.
    pub span: Span,
    /// The lower bound as written.
    pub from: Expr,
    /// The upper bound as written.
    pub to: Expr,
}

/// `a` or `a..b`
#[derive(Clone, Debug, PartialEq)]
pub struct SumSpan {
    /// The whole phrase.
    pub span: Span,
    /// The value, or the lower bound.
    pub from: Expr,
    /// The upper bound, where a range is written.
    pub to: Option<Expr>,
}

/// The size of a drill, reamer or boring cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Where it stands.
    pub span: Span,
    /// What it is.
    pub kind: SizeKind,
}

/// The kinds of size.
#[derive(Clone, Debug, PartialEq)]
pub enum SizeKind {
    /// A diameter.
    Sum(Expr),
    /// `#7`
    Gauge(u32),
    /// `letter F`
    Letter(char),
}
