//! How a design is made: route, tools, mandrels, cut list.
//!
//! Everything here is data; the words for people are chosen where it is shown. What a maker's
//! practice decides is a named constant marked as practice, so that it can be found and changed.

mod asked_limits;
mod holding;
mod id;
mod made;
mod output;
mod plan;
mod route;
mod sequence;
mod tasks;
mod tools;
mod works;

pub use asked_limits::{AskedLimits, AskedToSuit};
pub use holding::hold::{Grip, Mount, PieceHold, TailSupport, Workholding};
pub use holding::mandrel::{Fitted, Mandrel, MandrelKind, MandrelStep};
pub use id::{MandrelId, RouteId};
pub use made::plan_made;
pub use output::buy::{BuyList, PartToBuy, PenCost, PenOfBatch, StockToBuy};
pub use output::calipers::{CaliperRow, CaliperTable, caliper_table};
pub use output::cut_list::{BatchMember, CutList, CutPiece, CutStock, USUAL_KERF};
pub use output::inspection::{Inspection, Measured};
pub use output::operation::{AsMade, Depth, Note, Operation, OperationRef, Tailstock};
pub use output::packing::{Packing, least_rods, pack, pack_in_order};
pub use output::part_size::PartSize;
pub use output::problem::{DrilledHole, Indexed, PlanProblem, Shortfall, Unschedulable};
pub use plan::{Plan, plan_part, plan_part_of, plan_parts, plan_pen};
pub use route::{Holding, Route};
pub use tasks::asked::AskedSize;
pub use tasks::blank::{Blank, FACING, LEAST_GRIP, NUB_DIA, NUB_LENGTH};
pub use tasks::crowd::MOST_CUTS;
pub use tasks::mate::Mate;
pub use tasks::passes::{FINISH_OVER, ROUGH_OVER};
pub use tasks::strategy::Strategy;
pub use tasks::work::{
    Bearing, Core, Home, InsideCut, InsideShape, JoinedAt, JoinedIn, Nub, OutsidePass, Pass,
    PieceFace, ThreadCut, Threading, TrialFit, TurnCut, TurnKind, Work,
};
pub use tools::peck::{Peck, peck};
pub use tools::single_point::SinglePoint;
pub use tools::speed::{Speed, SpeedClass, SpeedLimit, speed};
pub use tools::tool::Tool;
pub use tools::tool_list::{Availability, ListedTool, Substitute, ToolList};
