//! Reports: what is measured, listed, looked up and found, as text for people and JSON for programs.
//!
//! Each JSON form has its schema in `crates/export/schema/`, and says by `schema_version` which
//! issue of it it follows. Lengths and masses in JSON are in the unit that ends a key's name,
//! whatever unit a file is written in.

mod buy;
mod cast;
mod check;
mod compare;
mod cut;
mod drill;
mod fit;
mod json;
mod lists;
mod made_file;
mod material;
mod measure;
mod page;
mod profiles;
mod room;
mod rows;
mod sized;
mod stock;
mod table;
mod thread;
mod tools;

pub use buy::BuyReport;
pub use cast::{CastQuestion, cast};
pub use check::{Checked, CheckedFile, baseline_of_sarif};
pub use compare::Compared;
pub use cut::CutReport;
pub use drill::{DrillQuestion, drill};
pub use fit::fit;
pub use json::rounded;
pub use lists::Lists;
pub use made_file::made_file;
pub use material::{material, materials};
pub use measure::Measures;
pub use page::{Answer, AnswerPage};
pub use profiles::Profiles;
pub use room::{Aims, RoomInWords, Rooms, Spreads, Varied};
pub use thread::{ThreadQuestion, thread};
pub use tools::ToolReport;

/// Which issue of the schemas the JSON follows. It grows when a key goes or changes its meaning;
/// a new key alone leaves it as it is.
pub const SCHEMA_VERSION: u32 = 1;
