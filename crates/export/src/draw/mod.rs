//! Drawings of parts and pens by the conventions of ISO 128, 129 and 6410.

mod assembled;
mod callouts;
mod column;
mod detail;
mod extras;
mod figures;
mod half;
mod member;
mod outline;
mod overview;
mod paper;
mod part;
mod parts;
mod pen;
mod preview;
mod rows;
mod seen;
mod spread;
mod template;
mod thread;
mod title_block;
mod view;

pub use callouts::Callout;
pub use overview::{Overview, overview};
pub use paper::{Paper, Sheet};
pub(crate) use part::wrapped_by;
pub use part::{PartTitle, part};
pub use parts::parts;
pub use pen::pen;
pub use preview::{preview, preview_pen};
pub use template::template;
pub use title_block::TitleBlock;
