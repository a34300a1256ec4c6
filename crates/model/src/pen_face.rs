//! `PenFace`: a face that a pen's line names.

use crate::{End, PartId};
use quillet_geometry::Length;
use quillet_syntax::{Span, ast};

/// One end or named face of one of a pen's parts.
#[derive(Clone, Debug)]
pub struct PenFace {
    /// The part.
    pub part: PartId,
    /// The face's name.
    pub face: ast::Name,
    /// Its station on that part.
    pub at: Length,
    /// The end it is, where it is one.
    pub end: Option<End>,
    /// The phrase.
    pub span: Span,
}
