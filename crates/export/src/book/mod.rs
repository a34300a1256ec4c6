//! Pages to read and to hand out: the manual as one page, a folder's pens as a gallery.

mod gallery;
mod link;
mod manual;
mod markdown;

pub use gallery::{Card, gallery};
pub use link::link;
pub use manual::{Chapter, Volume, manual};
pub use markdown::Illustration;

use percent_encoding::{AsciiSet, CONTROLS, utf8_percent_encode};

/// What would end a `data:` address within an attribute, or be read as more than itself.
const WITHIN: &AsciiSet = &CONTROLS.add(b'%').add(b'#').add(b'"').add(b'<').add(b'>');

/// A drawing as an address: it is a picture there and can be nothing else.
fn data_uri(svg: &str) -> String {
    format!("data:image/svg+xml,{}", utf8_percent_encode(svg, WITHIN))
}
