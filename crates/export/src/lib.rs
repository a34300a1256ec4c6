//! Pure functions from design and plan to bytes: drawing, sheet, solids, reports.
//!
//! Nothing here decides anything about a design, reads or writes a file, or knows the time: the
//! same design gives the same bytes.

pub mod book;
mod colours;
pub mod draw;
pub mod font;
pub mod live;
pub mod mark;
pub mod picture;
pub mod report;
pub mod scene;
pub mod sheet;
pub mod solid;
pub mod write;
