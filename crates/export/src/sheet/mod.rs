//! The sheet: all that a maker takes to the lathe, as HTML, PDF, text or JSON.

mod cautions;
mod compared;
mod content;
mod ending;
mod first;
mod gather;
mod hold_words;
mod holdings;
mod html;
mod identity;
mod labels;
mod lists;
mod note_words;
mod page;
mod pdf;
mod pockets;
mod reading;
mod route_lines;
mod row;
mod row_cuts;
mod row_words;
mod shown;
mod side;
mod start;
mod strip;
mod text;
mod turning;
mod words;
mod work_words;

pub use cautions::PenTest;
pub use compared::lines;
pub use content::{
    Accepted, Contact, Content, MadeOf, PartEntry, PartSheet, PenFigures, RouteCheck, RouteLine,
    Saw, SawnPiece, Table, Turning, WantRow,
};
pub(crate) use ending::order;
pub use gather::content;
pub use holdings::HoldingRows;
pub(crate) use holdings::holdings_in;
pub use html::html;
pub(crate) use labels::labels as part_labels;
pub(crate) use lists::measures;
pub use page::Field;
pub use pdf::{pages, pdf};
pub use row::HoldingRow;
pub use strip::{Station, Strip};
pub use text::text;
pub use words::tool as tool_name;

use crate::mark::MARK;
use crate::report::SCHEMA_VERSION;

/// Writes a sheet as JSON.
pub fn json(content: &Content) -> String {
    let whole = serde_json::json!({ "generator": MARK, "schema_version": SCHEMA_VERSION, "sheet": content });
    format!("{whole:#}\n")
}
