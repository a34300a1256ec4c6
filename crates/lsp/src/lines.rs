//! The lines of a text, to count places as the protocol does.

use crate::position::Encoding;
use std::ops::Range as Bytes;
use tower_lsp::lsp_types::{Position, Range};

/// A text with the offsets at which its lines begin.
pub(crate) struct Lines<'a> {
    text: &'a str,
    starts: Vec<usize>,
    encoding: Encoding,
}

impl<'a> Lines<'a> {
    /// Finds the lines: `\n`, `\r\n` and a lone `\r` end one.
    pub(crate) fn new(text: &'a str, encoding: Encoding) -> Self {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        for (at, byte) in bytes.iter().enumerate() {
            let lone = *byte == b'\r' && bytes.get(at + 1) != Some(&b'\n');
            if *byte == b'\n' || lone {
                starts.push(at + 1);
            }
        }
        Self {
            text,
            starts,
            encoding,
        }
    }

    /// How many lines there are; an empty text has one.
    pub(crate) fn count(&self) -> usize {
        self.starts.len()
    }

    /// The place of a byte offset; inside a character, that of the character.
    pub(crate) fn position(&self, offset: usize) -> Position {
        let mut offset = offset.min(self.text.len());
        while !self.text.is_char_boundary(offset) {
            offset -= 1;
        }
        let line = self.starts.partition_point(|start| *start <= offset) - 1;
        let before = &self.text[self.starts[line]..offset];
        let column = match self.encoding {
            Encoding::Utf8 => before.len(),
            Encoding::Utf16 => before.encode_utf16().count(),
            Encoding::Utf32 => before.chars().count(),
        };
        Position {
            line: count(line),
            character: count(column),
        }
    }

    /// The range of a span of bytes.
    pub(crate) fn range(&self, bytes: Bytes<usize>) -> Range {
        Range {
            start: self.position(bytes.start),
            end: self.position(bytes.end),
        }
    }

    /// The byte offset of a place: columns past the end of the line clamp to it, one inside a
    /// character moves to its start, and the line just past the last is the end of the text.
    ///
    /// None for a line further out.
    pub(crate) fn offset(&self, place: Position) -> Option<usize> {
        let line = place.line as usize;
        if line == self.starts.len() {
            return Some(self.text.len());
        }
        let start = *self.starts.get(line)?;
        let end = self
            .starts
            .get(line + 1)
            .copied()
            .unwrap_or(self.text.len());
        let content = self.text[start..end].trim_end_matches(['\r', '\n']);
        let column = place.character as usize;
        let mut counted = 0;
        for (at, character) in content.char_indices() {
            counted += match self.encoding {
                Encoding::Utf8 => character.len_utf8(),
                Encoding::Utf16 => character.len_utf16(),
                Encoding::Utf32 => 1,
            };
            if counted > column {
                return Some(start + at);
            }
        }
        Some(start + content.len())
    }
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
