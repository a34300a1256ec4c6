//! The glyphs that one document uses.

use super::Face;
use std::collections::BTreeMap;
use subsetter::GlyphRemapper;

/// The letters of a face that one document uses, and their glyphs under new numbers.
pub struct Subset {
    face: Face,
    mapper: GlyphRemapper,
    letters: BTreeMap<char, u16>,
}

impl Subset {
    /// Of all letters of some texts; those the font lacks share the box's glyph.
    pub fn of<'a>(face: Face, texts: impl IntoIterator<Item = &'a str>) -> Subset {
        let mut all: Vec<char> = texts.into_iter().flat_map(str::chars).collect();
        all.sort_unstable();
        all.dedup();
        let mut mapper = GlyphRemapper::new();
        let letters = all
            .into_iter()
            .map(|letter| (letter, mapper.remap(face.glyph(letter).0)))
            .collect();
        Subset {
            face,
            mapper,
            letters,
        }
    }

    /// Its letters with their new glyph numbers, in the order of the letters.
    pub fn letters(&self) -> &BTreeMap<char, u16> {
        &self.letters
    }

    /// A text as big-endian glyph numbers.
    pub fn codes(&self, words: &str) -> Vec<u8> {
        let glyphs = words.chars().filter_map(|it| self.letters.get(&it));
        glyphs.flat_map(|it| it.to_be_bytes()).collect()
    }

    /// The widths of its glyphs in thousandths of the font size, in the order of their numbers.
    pub fn widths(&self) -> Vec<f32> {
        let glyphs = self.mapper.remapped_gids();
        glyphs
            .map(|it| self.face.advance(ttf_parser::GlyphId(it)) as f32)
            .collect()
    }

    /// The font file of its glyphs alone, as PDF wants it: without a table of letters. Empty only
    /// where the dependency is broken.
    pub fn file(&self) -> Vec<u8> {
        subsetter::subset(self.face.file(), 0, &self.mapper).unwrap_or_default()
    }

    /// A tag of six capitals that tells it from other subsets (ISO 32000-1, 9.6.4).
    pub fn tag(&self) -> String {
        let seed = self.letters.keys().fold(17_u64, |hash, letter| {
            hash.wrapping_mul(1_099_511_628_211) ^ u64::from(*letter)
        });
        let letter = |at: u32| char::from(b'A' + ((seed >> (8 * at)) % 26) as u8);
        (0..6).map(letter).collect()
    }

    pub(super) fn face(&self) -> Face {
        self.face
    }
}
