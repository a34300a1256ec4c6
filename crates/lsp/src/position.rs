//! Places as the protocol counts them: lines, and columns in the encoding agreed.

use quillet_syntax::{Encoding, LineIndex};
use std::ops::Range as Bytes;
use std::sync::Arc;
use tower_lsp::lsp_types::{ClientCapabilities, Position, PositionEncodingKind, Range};

/// The first of the editor's offers that is known; UTF-16 where it offers none.
pub(crate) fn agreed(editor: &ClientCapabilities) -> Encoding {
    let general = editor.general.as_ref();
    let offers = general.and_then(|general| general.position_encodings.as_ref());
    let known = |kind: &PositionEncodingKind| ALL.into_iter().find(|it| name(*it) == *kind);
    offers
        .into_iter()
        .flatten()
        .find_map(known)
        .unwrap_or_default()
}

/// The protocol's name for an encoding.
pub(crate) fn name(encoding: Encoding) -> PositionEncodingKind {
    match encoding {
        Encoding::Utf8 => PositionEncodingKind::UTF8,
        Encoding::Utf16 => PositionEncodingKind::UTF16,
        Encoding::Utf32 => PositionEncodingKind::UTF32,
    }
}

const ALL: [Encoding; 3] = [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32];

/// A text in which places are counted as agreed.
pub(crate) struct PositionMap {
    index: LineIndex,
    encoding: Encoding,
}

impl PositionMap {
    /// Finds the lines of a text.
    pub(crate) fn new(text: impl Into<Arc<str>>, encoding: Encoding) -> Self {
        Self {
            index: LineIndex::new(text),
            encoding,
        }
    }

    /// How many lines there are; an empty text has one.
    pub(crate) fn count(&self) -> u32 {
        self.index.line_count()
    }

    /// The place of a byte offset.
    pub(crate) fn position(&self, offset: usize) -> Position {
        let place = self.index.position(offset, self.encoding);
        Position {
            line: place.line,
            character: place.column,
        }
    }

    /// The range of some bytes.
    pub(crate) fn range(&self, bytes: Bytes<usize>) -> Range {
        Range {
            start: self.position(bytes.start),
            end: self.position(bytes.end),
        }
    }

    /// The byte offset of a place; a column past the end of its line is the end of the line, and
    /// the line just past the last is the end of the text. None for a line further out.
    pub(crate) fn offset(&self, place: Position) -> Option<usize> {
        if place.line == self.count() {
            return Some(self.index.text().len());
        }
        let place = quillet_syntax::Position {
            line: place.line,
            column: place.character,
        };
        self.index.offset(place, self.encoding)
    }

    /// The same for an edit: a line further out is the end of the text too. LSP 3.17, Position, lets a
    /// line past the last be the last; and an edit left out would let the text part from the editor's.
    pub(crate) fn clamped(&self, place: Position) -> usize {
        self.offset(place).unwrap_or(self.index.text().len())
    }
}
