//! Sums, and the words in them.

use super::{Holds, NameKind, NameUse, Node, Role, Visit, goes_on, one, refers, some};
use crate::Span;
use crate::grammar::{Place, Word};
use num_rational::Ratio;
use std::sync::Arc;

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::Unit, "mm", "Millimetres", "length 64mm"),
    goes_on(Place::Unit, "in", "Inches", "drill 7/16in to 30"),
    goes_on(Place::Unit, "g", "Grams", "mass 3.1g"),
    goes_on(Place::Unit, "ml", "Millilitres", "holds 0.8ml"),
    goes_on(Place::Unit, "N", "Newtons", "pulls 9N"),
    goes_on(Place::Unit, "deg", "Degrees", "countersink 10 angle 82deg"),

    goes_on(Place::Measure, "length", "Overall length of the pen in a state", "want length(capped) <= 145"),
    goes_on(Place::Measure, "mass", "Mass of the pen in a state", "want mass(uncapped) <= 24"),
    goes_on(Place::Measure, "balance", "Distance of the centre of mass from the writing point; capped, from the foremost face", "want balance(uncapped) / length(uncapped) within 0.45..0.55"),
    goes_on(Place::Measure, "turns", "Turns until the joint comes apart: release travel over lead", "want turns within 0.75..2"),
    goes_on(Place::Measure, "travel", "How far the joint moves until its threads part", "want travel <= 5"),
    goes_on(Place::Measure, "overlap", "How much of the two threads is engaged", "want overlap >= 3"),
    goes_on(Place::Measure, "wall", "Least wall of a part", "want wall(cap) >= 1"),
    goes_on(Place::Measure, "diameter", "Outside diameter of a part at a station, across corners where it has flats", "want diameter(section, 12) within 9.5..11"),
    goes_on(Place::Measure, "across", "Across flats of a part at a station; its diameter where it is round", "want across(cap, 30) >= 12"),
    goes_on(Place::Measure, "hold", "The force in newtons that draws a joint apart: an estimate, good to a factor of two", "want hold within 3..15"),
    goes_on(Place::Measure, "clearance", "Least room between two parts in a state", "want clearance(nib-unit, cap, capped) >= 0.3"),
    goes_on(Place::Measure, "distance", "Axial distance between two faces, signed; in a state where one is named", "want distance(cap.mouth, barrel.shoulder) = 0 +- 0.05"),
    goes_on(Place::Measure, "ink", "Millilitres of ink", "want ink >= 0.8"),
    goes_on(Place::Measure, "min", "The least of several", "let wall = min(a, b)"),
    goes_on(Place::Measure, "max", "The greatest of several", "let wall = max(a, b)"),

    goes_on(Place::Configuration, "capped", "The pen with its cap on", "want length(capped) <= 145"),
    goes_on(Place::Configuration, "uncapped", "The pen with its cap off", "want mass(uncapped) <= 24"),
    goes_on(Place::Configuration, "posted", "The pen with its cap on the tail", "want length(posted) <= 165"),
    goes_on(Place::Configuration, "retracted", "The pen with what a mechanism throws drawn back", "want length(retracted) <= 140"),
    goes_on(Place::Configuration, "resting", "The pen in its stand", "want length(resting) <= 190"),
];

/// A name as written.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Name {
    /// Its text, lower-case with hyphens.
    pub text: Arc<str>,
    /// Where it stands.
    pub span: Span,
}

/// A string as written.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Text {
    /// What stands between the quotes.
    pub text: Arc<str>,
    /// The span, quotes included.
    pub span: Span,
}

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
    /// Newtons.
    Newton,
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

impl Holds for Text {
    fn each<'t>(&'t self, _: Visit<'_, 't>) {}
}

impl Holds for Expr {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            ExprKind::Name(text) => visit(Node::Name(NameUse {
                text,
                span: self.span,
                role: Role::Refers,
                sort: NameKind::Quantity,
            })),
            ExprKind::Negate(inner) | ExprKind::Group(inner) => one(&**inner, visit),
            ExprKind::Binary(left, _, right) => {
                one(&**left, visit);
                one(&**right, visit);
            }
            ExprKind::Call { name, args } => {
                refers(NameKind::Function, name, visit);
                for arg in args {
                    match arg {
                        Arg::Sum(sum) => one(sum, visit),
                        Arg::Face(face) => one(face, visit),
                    }
                }
            }
            ExprKind::Quantity { .. } | ExprKind::Bad => {}
        }
    }
}

impl Holds for Face {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        refers(NameKind::Part, &self.part, visit);
        refers(NameKind::Face, &self.face, visit);
    }
}

impl Holds for Range {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.from, visit);
        one(&self.to, visit);
    }
}

/// No node of its own.
impl Holds for SumSpan {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.from, visit);
        some(&self.to, visit);
    }
}

impl Holds for Size {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        if let SizeKind::Sum(sum) = &self.kind {
            one(sum, visit);
        }
    }
}
