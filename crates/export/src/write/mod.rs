//! A drawing as bytes of an open format, one a file; a row here each.

mod dxf;
mod pdf;
mod pdf_font;
mod pdf_stream;
mod svg;

pub use dxf::dxf;
pub use pdf::pdf;
pub(crate) use quillet_geometry::number;
pub(crate) use svg::Shades;
pub use svg::{Background, layer_styles, svg};

use crate::scene::Scene;

/// An open format that drawings are written in.
#[derive(Clone, Copy)]
pub struct DrawingForm {
    ending: &'static str,
    writer: Writer,
}

/// How drawings are written: each a file, or all in one under a title.
#[derive(Clone, Copy)]
enum Writer {
    One(fn(&Scene, Background) -> String),
    Many(fn(&str, &[Scene]) -> Vec<u8>),
}

/// Every form, the one first that is written where none is asked for.
const FORMS: [DrawingForm; 3] = [
    DrawingForm::many("pdf", pdf),
    DrawingForm::one("svg", svg),
    DrawingForm::one("dxf", |scene, _| dxf(scene)),
];

impl DrawingForm {
    const fn one(ending: &'static str, writer: fn(&Scene, Background) -> String) -> Self {
        let writer = Writer::One(writer);
        DrawingForm { ending, writer }
    }

    const fn many(ending: &'static str, writer: fn(&str, &[Scene]) -> Vec<u8>) -> Self {
        let writer = Writer::Many(writer);
        DrawingForm { ending, writer }
    }

    /// The form of files whose names end so, in lower case and without a dot.
    pub fn named(ending: &str) -> Option<Self> {
        FORMS.into_iter().find(|it| it.ending == ending)
    }

    /// The endings of all forms, as they are told: `.pdf, .svg or .dxf`.
    pub fn endings() -> String {
        let [before @ .., last] = FORMS.map(|it| format!(".{}", it.ending));
        format!("{} or {last}", before.join(", "))
    }

    /// Drawings as bytes; none where the form holds one drawing and there are others than one.
    pub fn write(self, title: &str, scenes: &[Scene], ground: Background) -> Option<Vec<u8>> {
        match (self.writer, scenes) {
            (Writer::Many(write), _) => Some(write(title, scenes)),
            (Writer::One(write), [scene]) => Some(write(scene, ground).into_bytes()),
            (Writer::One(_), _) => None,
        }
    }
}

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
