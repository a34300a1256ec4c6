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
use std::cell::OnceCell;

macro_rules! rules {
    ($($place:ident: $kind:ty = $rule:expr;)*) => {
        /// A rule for the statements of each place, made where the first of them is read: most files have
        /// few places.
        pub(super) struct Rules<'s> {
            sums: ExprParsers<'s>,
            $($place: OnceCell<Rule<'s, $kind>>,)*
        }

        impl<'s> Rules<'s> {
            pub(super) fn new() -> Self {
                Self {
                    sums: ExprParsers::new(),
                    $($place: OnceCell::new(),)*
                }
            }

            $(pub(super) fn $place(&self) -> &Rule<'s, $kind> {
                self.$place.get_or_init(|| $rule(&self.sums).boxed())
            })*
        }
    };
}

rules! {
    inches: Span = |_| inches();
    item: ItemKind = item;
    material: MaterialLineKind = material_line;
    part: LineKind = part_line;
    station: StationContent = station;
    feature: (FeatureKind, Option<Name>) = feature;
    side: SideLineKind = side_line;
    pen: PenLineKind = pen_line;
    joint: JointLineKind = joint_line;
    bench: ToolLineKind = tool_line;
    shelf: ShelfLineKind = shelf_line;
    made: MadeLineKind = made_line;
}
