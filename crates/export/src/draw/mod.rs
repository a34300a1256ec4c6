//! Drawings of parts and pens by the conventions of ISO 128, 129 and 6410.

mod column;
mod half;
mod outline;
mod paper;
mod part;
mod preview;
mod rows;
mod spread;
mod template;
mod thread;
mod title_block;
mod view;

pub use paper::{Paper, Sheet};
pub use part::{PartTitle, part};
pub use preview::preview;
pub use template::template;
pub use title_block::TitleBlock;
