//! A drawing as bytes of an open format.

mod dxf;
mod pdf;
mod pdf_font;
mod svg;

pub use dxf::dxf;
pub use pdf::pdf;
pub(crate) use quillet_geometry::number;
pub(crate) use svg::Shades;
pub use svg::{Background, layer_styles, svg};

/// Text with the signs that XML keeps for itself written out; control characters, which it
/// cannot hold, left out.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\n' | '\t' => out.push(letter),
            control if control.is_control() => {}
            '\u{fffe}' | '\u{ffff}' => {}
            other => out.push(other),
        }
    }
    out
}
