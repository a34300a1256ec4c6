//! Widths of the standard PDF fonts, so that text takes the same room in every output.

use std::collections::BTreeMap;
use std::sync::OnceLock;

/// A face of the drawing's font.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Face {
    /// Helvetica.
    #[default]
    Regular,
    /// Helvetica Bold.
    Bold,
}

/// Height of a capital over the font size (Helvetica, Adobe metrics).
pub(crate) const CAP_HEIGHT_EM: f64 = 0.718;
/// Depth of a descender over the font size (Helvetica, Adobe metrics).
pub(crate) const DESCENT_EM: f64 = 0.207;

/// Characters that come from one font, in that font's codes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// They are of the Symbol font.
    pub symbol: bool,
    /// Their codes: WinAnsi, or Symbol's own.
    pub codes: Vec<u8>,
}

/// The width of a text over its font size.
pub fn width_em(face: Face, words: &str) -> f64 {
    let thousandths: u32 = words.chars().map(|letter| glyph(letter).width(face)).sum();
    f64::from(thousandths) / 1000.0
}

/// A text as codes of the standard fonts. A letter that they lack becomes its plain Latin base
/// where it has one, else a question mark.
pub fn runs(words: &str) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    for glyph in words.chars().map(glyph) {
        match runs.last_mut() {
            Some(run) if run.symbol == glyph.symbol => run.codes.push(glyph.code),
            _ => runs.push(Run {
                symbol: glyph.symbol,
                codes: vec![glyph.code],
            }),
        }
    }
    runs
}

#[derive(Clone, Copy)]
struct Glyph {
    symbol: bool,
    code: u8,
    regular: u16,
    bold: u16,
}

impl Glyph {
    fn width(self, face: Face) -> u32 {
        u32::from(if face == Face::Bold {
            self.bold
        } else {
            self.regular
        })
    }
}

fn glyph(letter: char) -> Glyph {
    static GLYPHS: OnceLock<BTreeMap<char, Glyph>> = OnceLock::new();
    let glyphs = GLYPHS.get_or_init(read);
    let known = |letter: char| glyphs.get(&letter).copied();
    known(letter)
        .or_else(|| known(plain(letter)))
        .or_else(|| known('?'))
        .unwrap_or(Glyph {
            symbol: false,
            code: b'?',
            regular: 556,
            bold: 611,
        })
}

/// A letter that says the same and that the fonts have.
fn plain(letter: char) -> char {
    const BASES: [(&str, char); 30] = [
        ("ĀĂĄ", 'A'),
        ("āăą", 'a'),
        ("ĆĈĊČ", 'C'),
        ("ćĉċč", 'c'),
        ("ĎĐ", 'D'),
        ("ďđ", 'd'),
        ("ĒĔĖĘĚ", 'E'),
        ("ēĕėęě", 'e'),
        ("ĜĞĠĢ", 'G'),
        ("ĝğġģ", 'g'),
        ("ĨĪĬĮİ", 'I'),
        ("ĩīĭįı", 'i'),
        ("ĹĻĽŁ", 'L'),
        ("ĺļľł", 'l'),
        ("ŃŅŇ", 'N'),
        ("ńņň", 'n'),
        ("ŌŎŐ", 'O'),
        ("ōŏő", 'o'),
        ("ŔŖŘ", 'R'),
        ("ŕŗř", 'r'),
        ("ŚŜŞȘ", 'S'),
        ("śŝşș", 's'),
        ("ŢŤȚ", 'T'),
        ("ţťț", 't'),
        ("ŨŪŬŮŰŲ", 'U'),
        ("ũūŭůűų", 'u'),
        ("ŹŻ", 'Z'),
        ("źż", 'z'),
        ("⌀∅", 'Ø'),
        ("\u{2009}\u{202f}\u{2002}\u{2003}", ' '),
    ];
    BASES
        .iter()
        .find(|(letters, _)| letters.contains(letter))
        .map_or(letter, |(_, base)| *base)
}

fn read() -> BTreeMap<char, Glyph> {
    let rows = include_str!("../../data/font_widths.csv").lines();
    rows.filter(|row| !row.starts_with('#'))
        .skip(1)
        .filter_map(read_row)
        .collect()
}

fn read_row(row: &str) -> Option<(char, Glyph)> {
    let mut cells = row.split(',');
    let mut next = || cells.next();
    let symbol = next()? == "s";
    let code = next()?.parse().ok()?;
    let letter = char::from_u32(u32::from_str_radix(next()?, 16).ok()?)?;
    let (regular, bold) = (next()?.parse().ok()?, next()?.parse().ok()?);
    Some((
        letter,
        Glyph {
            symbol,
            code,
            regular,
            bold,
        },
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_read() {
        let rows = include_str!("../../data/font_widths.csv").lines();
        assert_eq!(
            read().len(),
            rows.filter(|row| !row.starts_with('#')).count() - 1
        );
    }

    #[test]
    fn signs_outside_the_text_font_come_from_the_symbol_font() {
        let found = runs("Ø13 ≤ 2");
        let text = |codes: &[u8]| Run {
            symbol: false,
            codes: codes.to_vec(),
        };
        // Oslash is D8 in WinAnsi, lessequal A3 in Symbol (Adobe metrics).
        let symbol = Run {
            symbol: true,
            codes: vec![0xA3],
        };
        assert_eq!(found, [text(b"\xD813 "), symbol, text(b" 2")]);
        assert_eq!(runs("Łódź 笔"), [text(b"L\xF3dz ?")]);
    }
}
