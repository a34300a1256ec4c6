//! The sheet: all that a maker takes to the lathe, as HTML, PDF, text or JSON.

mod cautions;
mod content;
mod flow;
mod gather;
mod html;
mod lists;
mod pdf;
mod text;
mod words;

pub use content::{Accepted, Check, Content, Line, PartSheet, Table, Want};
pub use gather::content;
pub use html::html;
pub(crate) use lists::measures;
pub use pdf::{pages, pdf};
pub use text::text;
pub use words::tool as tool_name;

use crate::mark::MARK;
use crate::report::SCHEMA_VERSION;

/// Writes a sheet as JSON.
pub fn json(content: &Content) -> String {
    let whole = serde_json::json!({ "generator": MARK, "schema_version": SCHEMA_VERSION, "sheet": content });
    format!("{whole:#}\n")
}
