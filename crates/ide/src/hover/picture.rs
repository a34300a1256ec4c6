//! A small picture of a part in section, as Markdown that editors with pictures show.

use quillet_export::draw::preview;
use quillet_export::write::{Background, svg};
use quillet_model::Part;
use std::fmt::Write;

/// How wide it is drawn.
const WIDTH_MM: f64 = 90.0;

/// A part in half section; none where its shape is not known.
pub(super) fn of(part: &Part) -> Option<String> {
    let scene = preview(part, WIDTH_MM)?;
    let picture = svg(&scene, Background::Picture);
    Some(format!(
        "![{} in section](data:image/svg+xml,{})",
        part.name.text,
        encoded(&picture)
    ))
}

/// Percent-encoded (RFC 3986), parentheses too, which would end the link.
fn encoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len() * 2);
    for byte in text.bytes() {
        match byte {
            b'a'..=b'z'
            | b'A'..=b'Z'
            | b'0'..=b'9'
            | b'-'
            | b'_'
            | b'.'
            | b'~'
            | b'/'
            | b':'
            | b'='
            | b',' => {
                out.push(char::from(byte));
            }
            // Writing to a string cannot fail.
            _ => drop(write!(out, "%{byte:02X}")),
        }
    }
    out
}
