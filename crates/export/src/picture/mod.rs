//! Pictures of a pen that stand by themselves: on a screen, in a letter, at the top of a page.

mod compared;
mod exploded;
mod framed;
mod gallery;
mod holding;
mod overlay;
mod screen;

pub use compared::{ComparedPicture, compared};
pub use exploded::exploded;
pub use framed::framed;
pub use gallery::gallery;
pub use holding::holdings;
pub use overlay::{PartOf, overlay};
pub(crate) use screen::long;
pub use screen::{Captioned, numbered, part, seen, sized};
