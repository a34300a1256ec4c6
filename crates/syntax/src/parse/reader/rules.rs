//! The rule that reads a statement, for each place.

use crate::Span;
use crate::ast::*;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::Rule;
use crate::grammar::statements::bench::tool_line;
use crate::grammar::statements::cut::feature;
use crate::grammar::statements::item::{inches, item};
use crate::grammar::statements::joint::joint_line;
use crate::grammar::statements::made::made_line;
use crate::grammar::statements::material::material_line;
use crate::grammar::statements::part::part_line;
use crate::grammar::statements::pen::pen_line;
use crate::grammar::statements::shelf::shelf_line;
use crate::grammar::statements::side::side_line;
use crate::grammar::statements::station::station;
use chumsky::prelude::*;

/// A rule for the statements of each place.
pub(super) struct Rules<'s> {
    pub(super) inches: Rule<'s, Span>,
    pub(super) item: Rule<'s, ItemKind>,
    pub(super) material: Rule<'s, MaterialLineKind>,
    pub(super) part: Rule<'s, LineKind>,
    pub(super) station: Rule<'s, StationContent>,
    pub(super) feature: Rule<'s, (FeatureKind, Option<Name>)>,
    pub(super) side: Rule<'s, SideLineKind>,
    pub(super) pen: Rule<'s, PenLineKind>,
    pub(super) joint: Rule<'s, JointLineKind>,
    pub(super) bench: Rule<'s, ToolLineKind>,
    pub(super) shelf: Rule<'s, ShelfLineKind>,
    pub(super) made: Rule<'s, MadeLineKind>,
}

impl Rules<'_> {
    pub(super) fn new() -> Self {
        let sums = ExprParsers::new();
        Self {
            inches: inches().boxed(),
            item: item(&sums).boxed(),
            material: material_line(&sums).boxed(),
            part: part_line(&sums).boxed(),
            station: station(&sums).boxed(),
            feature: feature(&sums).boxed(),
            side: side_line(&sums).boxed(),
            pen: pen_line(&sums).boxed(),
            joint: joint_line(&sums).boxed(),
            bench: tool_line(&sums).boxed(),
            shelf: shelf_line(&sums).boxed(),
            made: made_line(&sums).boxed(),
        }
    }
}
