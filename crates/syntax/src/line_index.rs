//! Offsets to lines and columns and back.

use std::ops::Range;
use std::sync::Arc;

/// What a column counts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// UTF-16 code units; a character past U+FFFF counts two.
    #[default]
    Utf16,
    /// Characters (Unicode scalar values).
    Utf32,
}

impl Encoding {
    fn length(self, text: &str) -> usize {
        // Most lines are plain, and counting bytes is fast even where a line is a whole file.
        match self {
            Encoding::Utf8 => text.len(),
            _ if text.is_ascii() => text.len(),
            Encoding::Utf16 => text.encode_utf16().count(),
            Encoding::Utf32 => text.chars().count(),
        }
    }

    fn width(self, c: char) -> usize {
        match self {
            Encoding::Utf8 => c.len_utf8(),
            Encoding::Utf16 => c.len_utf16(),
            Encoding::Utf32 => 1,
        }
    }
}

/// A line and a column, both from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Position {
    /// The line, from 0.
    pub line: u32,
    /// The column in units of an [`Encoding`], from 0. A tab counts one, a byte-order mark too.
    pub column: u32,
}

/// A text and where its lines begin. `\n`, `\r\n` and a lone `\r` end a line.
#[derive(Clone, Debug)]
pub struct LineIndex {
    text: Arc<str>,
    /// The offset of each line's first byte; the first is 0.
    starts: Vec<usize>,
}

impl LineIndex {
    /// Finds the lines of a text.
    pub fn new(text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let bytes = text.as_bytes();
        let ends = bytes.iter().enumerate().filter(|&(at, byte)| match byte {
            b'\n' => true,
            b'\r' => bytes.get(at + 1) != Some(&b'\n'),
            _ => false,
        });
        let starts = std::iter::once(0)
            .chain(ends.map(|(at, _)| at + 1))
            .collect();
        Self { text, starts }
    }

    /// The text.
    pub fn text(&self) -> &Arc<str> {
        &self.text
    }

    /// How many lines there are: one more than there are line ends.
    pub fn line_count(&self) -> u32 {
        as_u32(self.starts.len())
    }

    /// The bytes of a line without its end; none past the last line.
    pub fn line(&self, line: u32) -> Option<Range<usize>> {
        let start = *self.starts.get(line as usize)?;
        let end = self.starts.get(line as usize + 1);
        let end = end.map_or(self.text.len(), |&end| end);
        let line = &self.text[start..end];
        let content = line.strip_suffix('\n').unwrap_or(line);
        let content = content.strip_suffix('\r').unwrap_or(content);
        Some(start..start + content.len())
    }

    /// The position of a byte offset. Within a character it is the character's; within a line's
    /// end it is the end of the line; past the text it is the end of the text.
    pub fn position(&self, offset: usize, encoding: Encoding) -> Position {
        let offset = offset.min(self.text.len());
        let line = self.starts.partition_point(|&start| start <= offset) - 1;
        let content = self.line(as_u32(line)).unwrap_or_default();
        let mut end = offset.min(content.end);
        while !self.text.is_char_boundary(end) {
            end -= 1;
        }
        Position {
            line: as_u32(line),
            column: as_u32(encoding.length(&self.text[content.start..end])),
        }
    }

    /// The byte offset of a position. A column past the line's end is the end of the line, one
    /// within a character is the character's start; a line past the last is none.
    pub fn offset(&self, position: Position, encoding: Encoding) -> Option<usize> {
        let content = self.line(position.line)?;
        let mut column = 0;
        for (at, c) in self.text[content.clone()].char_indices() {
            column += encoding.width(c);
            if column > position.column as usize {
                return Some(content.start + at);
            }
        }
        Some(content.end)
    }
}

fn as_u32(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use Encoding::*;
    use proptest::prelude::*;

    fn at(line: u32, column: u32) -> Position {
        Position { line, column }
    }

    #[test]
    fn a_column_counts_what_the_encoding_says() {
        let index = LineIndex::new("a⌀🪶°b");
        for (offset, utf8, utf16, utf32) in [
            (0, 0, 0, 0),
            (1, 1, 1, 1),
            (4, 4, 2, 2),
            (8, 8, 4, 3),
            (10, 10, 5, 4),
            (11, 11, 6, 5),
        ] {
            for (encoding, column) in [(Utf8, utf8), (Utf16, utf16), (Utf32, utf32)] {
                assert_eq!(index.position(offset, encoding), at(0, column));
                assert_eq!(index.offset(at(0, column), encoding), Some(offset));
            }
        }
    }

    #[test]
    fn within_a_character_is_its_start() {
        let index = LineIndex::new("a🪶b");
        assert_eq!(index.offset(at(0, 2), Utf16), Some(1));
        assert_eq!(index.offset(at(0, 3), Utf8), Some(1));
        assert_eq!(index.position(3, Utf16), at(0, 1));
    }

    #[test]
    fn past_the_end_is_the_end_or_nothing() {
        let index = LineIndex::new("ab\r\ncd\re\n");
        assert_eq!(index.line_count(), 4);
        assert_eq!(index.offset(at(0, 99), Utf16), Some(2));
        assert_eq!(index.offset(at(1, 99), Utf16), Some(6));
        assert_eq!(index.offset(at(3, 0), Utf16), Some(9));
        assert_eq!(index.offset(at(4, 0), Utf16), None);
        assert_eq!(index.offset(at(u32::MAX, u32::MAX), Utf8), None);
        assert_eq!(index.position(3, Utf16), at(0, 2));
        assert_eq!(index.position(99, Utf16), at(3, 0));
        assert_eq!(LineIndex::new("").position(0, Utf8), at(0, 0));
        assert_eq!(LineIndex::new("").line(0), Some(0..0));
    }

    #[test]
    fn a_byte_order_mark_counts_as_the_text_holds_it() {
        let index = LineIndex::new("\u{feff}a");
        assert_eq!(index.position(3, Utf16), at(0, 1));
        assert_eq!(index.offset(at(0, 1), Utf8), Some(0));
    }

    proptest! {
        #[test]
        fn an_offset_comes_back(text in "(\\PC|[\r\n\t -~🪶]){0,60}") {
            let index = LineIndex::new(text.as_str());
            for (offset, _) in text.char_indices() {
                // Between \r and \n lies no position of its own.
                if text[..offset].ends_with('\r') && text[offset..].starts_with('\n') {
                    continue;
                }
                for encoding in [Utf8, Utf16, Utf32] {
                    let position = index.position(offset, encoding);
                    prop_assert_eq!(index.offset(position, encoding), Some(offset));
                }
            }
        }
    }
}
