//! The tree: what was written, with spans, before any name or unit is resolved.
//!
//! One node a grammar rule. A part of the text that could not be read is a `Bad`
//! node; a missing operand is an [`Expr`] of kind `Bad` with an empty span, and a missing
//! name or text an empty one. Each has a finding already. The nodes of a block's statements stand
//! beside the statements, in `grammar/statements/`.

pub use crate::grammar::statements::bench::{
    Bench, LatheOption, LatheOptionKind, LeadForm, Run, SizedTools, ThreadTools, ToleranceKind,
    ToolLine, ToolLineKind,
};
pub use crate::grammar::statements::cut::{Circle, Feature, FeatureKind, Reach, ReachKind, Side};
pub use crate::grammar::statements::item::{BlankItem, File, Item, ItemKind, ThreadItem};
pub use crate::grammar::statements::joint::{JointLine, JointLineKind};
pub use crate::grammar::statements::made::{Made, MadeLine, MadeLineKind, MadePart};
pub use crate::grammar::statements::material::{Material, MaterialLine, MaterialLineKind};
pub use crate::grammar::statements::part::{BlankPiece, Line, LineKind, Part, Spigot};
pub use crate::grammar::statements::pen::{
    Direction, Joint, JointOption, JointOptionKind, Pen, PenLine, PenLineKind, Verb,
};
pub use crate::grammar::statements::phrase::{
    Edge, EdgeKind, Form, Stock, StockSection, ThreadRef,
};
pub use crate::grammar::statements::shared::{Accept, Comparison, Let, Limit, Test, Want};
pub use crate::grammar::statements::shelf::{Shelf, ShelfLine, ShelfLineKind, Ware, WareStock};
pub use crate::grammar::statements::side::{
    Around, SideCut, SideCutKind, SideDepth, SideLine, SideLineKind, Stretch,
};
pub use crate::grammar::statements::station::{
    Position, Shape, ShapeKind, Station, StationContent,
};
pub use crate::grammar::statements::sum::{
    Arg, Expr, ExprKind, Face, Name, Number, Operator, Range, Size, SizeKind, SumSpan, Text, Unit,
};
