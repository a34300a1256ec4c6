//! How a design is made: route, tools, mandrels, cut list.
//!
//! Everything here is data; the words for people are chosen where it is shown. What a maker's
//! practice decides is a named constant marked as practice, so that it can be found and changed.

mod anatomy;
mod asked;
mod blank;
mod calipers;
mod check;
mod cut_list;
mod fill;
mod hold;
mod inside;
mod kit;
mod make_mandrel;
mod mandrel;
mod mate;
mod measure;
mod operation;
mod outside;
mod packing;
mod peck;
mod plan;
mod route;
mod schedule;
mod speed;
mod strategy;
mod task;
mod tasks;
mod tool;
mod tool_list;
mod toolbox;
mod trouble;
mod work;

pub use asked::AskedSize;
pub use blank::{Blank, FACING, LEAST_GRIP, NUB_DIA, NUB_LENGTH};
pub use calipers::{CaliperRow, CaliperTable, caliper_table};
pub use check::{Check, Measured};
pub use cut_list::{CutList, CutPiece, CutStock, USUAL_KERF};
pub use hold::{Grip, Hold, Mount};
pub use mandrel::{Fitted, Mandrel, MandrelKind};
pub use mate::Mate;
pub use operation::{Depth, Note, Operation, Tailstock};
pub use packing::{Packing, pack, pack_in_order};
pub use peck::{Peck, peck};
pub use plan::{Plan, Step, plan_part, plan_part_of, plan_parts, plan_pen};
pub use route::Route;
pub use speed::{Pace, Speed, SpeedLimit, speed};
pub use strategy::Strategy;
pub use tasks::{FINISH_OVER, ROUGH_OVER};
pub use tool::Tool;
pub use tool_list::{ListedTool, Standing, ToolList, Use};
pub use trouble::{Short, Stuck, Trouble};
pub use work::{
    Bearing, Gate, Home, InsideCut, InsideShape, OutsidePass, Pass, ThreadCut, Threading, TurnCut,
    TurnKind, Work,
};
