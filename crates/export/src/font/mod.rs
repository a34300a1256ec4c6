//! The font of every drawing and sheet: DejaVu Sans Condensed, regular and bold, as the crate
//! `dejavu` carries it. Its own metrics say what room a text takes in every output.

mod subset;
mod web;

pub use subset::Subset;
pub use web::{FAMILY, data_uri};

use std::sync::OnceLock;
use ttf_parser::GlyphId;

/// A face of the font.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Regular, weight 400.
    #[default]
    Regular,
    /// Bold, weight 700.
    Bold,
}

/// Height of a capital over the font size (outline of H: 1493 of 2048).
pub(crate) const CAP_HEIGHT_EM: f64 = 1493.0 / 2048.0;
/// Depth of a descender over the font size (outline of p: 426 of 2048).
pub(crate) const DESCENT_EM: f64 = 426.0 / 2048.0;
/// Height of an x over the font size (outline of x: 1120 of 2048).
pub const X_HEIGHT_EM: f64 = 1120.0 / 2048.0;

/// What stands for a letter that the font lacks.
const LACKING: char = '□';

impl Face {
    /// Both.
    pub const ALL: [Face; 2] = [Face::Regular, Face::Bold];

    /// The whole font file.
    pub(crate) fn file(self) -> &'static [u8] {
        match self {
            Face::Regular => dejavu::sans_condensed::regular(),
            Face::Bold => dejavu::sans_condensed::bold(),
        }
    }

    /// Its weight, as style sheets count it.
    pub fn weight(self) -> u16 {
        match self {
            Face::Regular => 400,
            Face::Bold => 700,
        }
    }

    /// The file read; none only where the dependency is broken.
    pub(crate) fn parsed(self) -> Option<&'static ttf_parser::Face<'static>> {
        static READ: [OnceLock<Option<ttf_parser::Face<'static>>>; 2] =
            [OnceLock::new(), OnceLock::new()];
        let read = || ttf_parser::Face::parse(self.file(), 0).ok();
        READ[self as usize].get_or_init(read).as_ref()
    }

    /// The glyph of a letter, or of the box that stands for one it lacks.
    pub(crate) fn glyph(self, letter: char) -> GlyphId {
        let of = |letter| self.parsed()?.glyph_index(letter);
        of(letter).or_else(|| of(LACKING)).unwrap_or(GlyphId(0))
    }

    /// The width of a letter in thousandths of the font size.
    pub(crate) fn advance(self, glyph: GlyphId) -> f64 {
        let width = |face: &ttf_parser::Face| {
            let width = face.glyph_hor_advance(glyph)?;
            Some(1000.0 * f64::from(width) / f64::from(face.units_per_em()))
        };
        self.parsed().and_then(width).unwrap_or(600.0)
    }
}

/// The width of a text over its font size.
pub fn width_em(face: Face, words: &str) -> f64 {
    let letters = words.chars();
    letters.map(|it| width(face, it)).sum::<f64>() / 1000.0
}

/// The width of a letter in thousandths; those most used are looked up once.
fn width(face: Face, letter: char) -> f64 {
    static COMMON: [OnceLock<Vec<f64>>; 2] = [OnceLock::new(), OnceLock::new()];
    let of = |letter| face.advance(face.glyph(letter));
    let common = COMMON[face as usize].get_or_init(|| ('\0'..'\u{180}').map(of).collect());
    match common.get(letter as usize) {
        Some(width) => *width,
        None => of(letter),
    }
}

/// The letters of a text that the font lacks: each is set as □.
pub fn lacking(words: &str) -> impl Iterator<Item = char> + '_ {
    let has = |letter| {
        Face::Regular
            .parsed()
            .is_some_and(|it| it.glyph_index(letter).is_some())
    };
    words
        .chars()
        .filter(move |it| !it.is_control() && !has(*it))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_is_as_wide_and_the_signs_are_there() {
        for face in Face::ALL {
            let one = width_em(face, "1");
            assert!(
                "0123456789"
                    .chars()
                    .all(|it| width(face, it) == 1000.0 * one)
            );
            // 1172 and 1282 of 2048: the tables hmtx of the two files.
            let known = match face {
                Face::Regular => 0.572,
                Face::Bold => 0.626,
            };
            assert!((one - known).abs() < 1e-3, "{one}");
        }
        assert_eq!(lacking("⌀ ▲ ▼ ✓ → ≤ ≥ ¼ ½ ¾ − – × ° · ‹ › □").count(), 0);
        assert_eq!(lacking("ab 笔").collect::<Vec<_>>(), ['笔']);
        assert_eq!(width_em(Face::Bold, "笔"), width_em(Face::Bold, "□"));
    }

    #[test]
    fn capitals_are_as_high_as_the_outlines_say() {
        let face = Face::Regular.parsed().expect("the dependency carries it");
        let top = |letter| {
            let glyph = face.glyph_index(letter)?;
            Some(f64::from(face.glyph_bounding_box(glyph)?.y_max) / 2048.0)
        };
        assert_eq!(top('H'), Some(CAP_HEIGHT_EM));
        assert_eq!(top('x'), Some(X_HEIGHT_EM));
    }
}
