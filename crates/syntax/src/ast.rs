//! The tree: what was written, with spans, before any name or unit is resolved.
//!
//! One node a grammar rule. A part of the text that could not be read is a `Bad`
//! node; a missing operand is an [`Expr`] of kind `Bad` with an empty span, and a missing
//! name or text an empty one. Each has a finding already.

mod bench;
mod expr;
mod part;
mod pen;

pub use bench::*;
pub use expr::*;
pub use part::*;
pub use pen::*;

use crate::Span;
use quillet_standards::Units;
use std::sync::Arc;

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

/// A whole file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct File {
    /// `dimensions in inches`, where the file begins so.
    pub inches: Option<Span>,
    /// The items in the order written.
    pub items: Vec<Item>,
}

impl File {
    /// What its bare lengths are counted in.
    pub fn units(&self) -> Units {
        match self.inches {
            Some(_) => Units::Inches,
            None => Units::Millimetres,
        }
    }
}

/// One item.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// The whole item, from its keyword to its last token.
    pub span: Span,
    /// The comment lines directly above it, without `--`, joined by newlines.
    pub note: Option<Text>,
    /// What it is.
    pub kind: ItemKind,
}

/// The kinds of item.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "each variant is documented at its type")]
pub enum ItemKind {
    Use(Text),
    Let(Let),
    Limit(Limit),
    Material(Material),
    Thread(ThreadItem),
    Blank(BlankItem),
    Part(Part),
    Bought(Part),
    Bench(Bench),
    Pen(Pen),
    /// Text that is no item.
    Bad,
}

/// `let name = sum`
#[derive(Clone, Debug, PartialEq)]
pub struct Let {
    /// The statement.
    pub span: Span,
    /// The name it defines.
    pub name: Name,
    /// A quantity, or the name of a material.
    pub value: Expr,
}

/// `limit rule = sum`
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// The statement.
    pub span: Span,
    /// The rule whose threshold it sets.
    pub rule: Name,
    /// The threshold.
    pub value: Expr,
}

/// `accept rule [at a..b] because "reason"`
#[derive(Clone, Debug, PartialEq)]
pub struct Accept {
    /// The statement.
    pub span: Span,
    /// The rule whose finding is accepted.
    pub rule: Name,
    /// The stations between which it is accepted, where said.
    pub at: Option<Range>,
    /// Why.
    pub because: Text,
}

/// `material name "title" { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// The name it defines.
    pub name: Name,
    /// Its title.
    pub title: Option<Text>,
    /// The lines.
    pub lines: Vec<MaterialLine>,
}

/// A line of a material, with its span.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "the variants are the grammar's words")]
pub struct MaterialLine {
    pub span: Span,
    pub kind: MaterialLineKind,
}

/// What a material's line says.
#[derive(Clone, Debug, PartialEq)]
pub enum MaterialLineKind {
    /// `kind NAME`: one of the built-in kinds.
    Kind(Name),
    /// `density sum`, g/cm³.
    Density(Expr),
    /// `wall sum`: least wall, a length.
    Wall(Expr),
    /// `speed a..b`: cutting speed, m/min.
    Speed(SumSpan),
    /// Text that is no such line.
    Bad,
}

/// `thread name = form`
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadItem {
    /// The name it defines.
    pub name: Name,
    /// The thread.
    pub form: Form,
}

/// A thread designation, with its starts where said.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// The whole form.
    pub span: Span,
    /// The designation as written, `M13x0.8-6g`.
    pub designation: Text,
    /// `starts sum`.
    pub starts: Option<Expr>,
}

/// `blank name of material rod D by L [matched]`
#[derive(Clone, Debug, PartialEq)]
pub struct BlankItem {
    /// The name it defines.
    pub name: Name,
    /// The stock.
    pub stock: Stock,
    /// `matched`: its parts follow each other in the order of the pen, so that grain or
    /// pattern runs on.
    pub matched: Option<Span>,
}

/// `of material (rod | square) size [by length]`
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// The whole phrase.
    pub span: Span,
    /// The material's name.
    pub material: Name,
    /// Round or square.
    pub section: StockSection,
    /// Diameter, or width over flats.
    pub size: Expr,
    /// Length, where said.
    pub length: Option<Expr>,
}

/// The cross-section of stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StockSection {
    /// Round, given by its diameter.
    Rod,
    /// Square, given by its side.
    Square,
}
