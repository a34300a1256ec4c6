//! Places as a browser counts them: UTF-16 units from the beginning of a text.

use quillet_syntax::{Encoding, LineIndex, Position};
use std::ops::Range;
use std::sync::Arc;

/// A text in which places are counted so.
#[derive(Debug)]
pub(crate) struct Offsets {
    lines: LineIndex,
    /// The unit each line begins at.
    starts: Vec<usize>,
    /// How many units there are.
    end: usize,
}

impl Offsets {
    /// Counts the units of each line, once.
    pub(crate) fn of(text: Arc<str>) -> Self {
        let lines = LineIndex::new(text);
        let mut starts = Vec::with_capacity(lines.line_count() as usize);
        let mut end = 0;
        for line in 0..lines.line_count() {
            starts.push(end);
            let next = Position {
                line: line + 1,
                column: 0,
            };
            let text = lines.text();
            let from = lines.offset(Position { line, column: 0 }, Encoding::Utf8);
            let to = lines.offset(next, Encoding::Utf8).unwrap_or(text.len());
            let own = &text[from.unwrap_or(to)..to];
            end += match own.is_ascii() {
                true => own.len(),
                false => own.encode_utf16().count(),
            };
        }
        Self { lines, starts, end }
    }

    /// The unit of a byte.
    pub(crate) fn unit(&self, byte: usize) -> usize {
        let place = self.lines.position(byte, Encoding::Utf16);
        let start = self.starts.get(place.line as usize).copied();
        start.unwrap_or(self.end) + place.column as usize
    }

    /// The units of some bytes.
    pub(crate) fn units(&self, bytes: Range<usize>) -> (usize, usize) {
        (self.unit(bytes.start), self.unit(bytes.end))
    }

    /// The byte of a unit; past the end is the end.
    pub(crate) fn byte(&self, unit: usize) -> usize {
        let line = self.starts.partition_point(|it| *it <= unit).max(1) - 1;
        let column = unit.min(self.end) - self.starts.get(line).copied().unwrap_or(0);
        let place = Position {
            line: u32::try_from(line).unwrap_or(u32::MAX),
            column: u32::try_from(column).unwrap_or(u32::MAX),
        };
        let found = self.lines.offset(place, Encoding::Utf16);
        found.unwrap_or(self.lines.text().len())
    }
}

#[cfg(test)]
mod tests {
    use super::Offsets;

    #[test]
    fn every_character_is_where_a_browser_counts_it() {
        for text in ["", "a", "a\nb\n", "⌀1\n🐦 tern\n\nübä", "\u{feff}x\n"] {
            let offsets = Offsets::of(text.into());
            let mut unit = 0;
            for (byte, it) in text.char_indices() {
                assert_eq!(offsets.unit(byte), unit, "{text:?} at {byte}");
                assert_eq!(offsets.byte(unit), byte, "{text:?} at {unit}");
                unit += it.len_utf16();
            }
            assert_eq!(offsets.unit(text.len()), unit, "{text:?}");
            assert_eq!(offsets.byte(unit), text.len(), "{text:?}");
            assert_eq!(offsets.byte(unit + 9), text.len(), "{text:?}");
        }
    }
}
