//! The same glyphs as a font for browsers: they want a table of letters too.

use super::{Face, Subset};

/// What style sheets call it.
pub const FAMILY: &str = "quillet-sheet";

/// A `@font-face` source that needs nothing else: `data:font/ttf;base64,…`.
pub fn data_uri(subset: &Subset) -> String {
    format!("data:font/ttf;base64,{}", base64(&file(subset)))
}

/// The subset's own tables, its letters as `cmap` and the `OS/2` of the whole font (the OpenType
/// specification 1.9, "Required tables").
fn file(subset: &Subset) -> Vec<u8> {
    let bare = subset.file();
    let mut tables = tables(&bare);
    let os2 = tables_of(subset.face());
    tables.extend(os2);
    tables.push((*b"cmap", cmap(subset)));
    tables.sort_by_key(|it| it.0);
    tables.dedup_by_key(|it| it.0);
    sfnt(&tables)
}

type Table = ([u8; 4], Vec<u8>);

/// `OS/2` of the whole font.
fn tables_of(face: Face) -> Option<Table> {
    let tag = ttf_parser::Tag::from_bytes(b"OS/2");
    let data = face.parsed()?.raw_face().table(tag)?;
    Some((*b"OS/2", data.to_vec()))
}

/// The tables of a font file.
fn tables(file: &[u8]) -> Vec<Table> {
    let Ok(raw) = ttf_parser::RawFace::parse(file, 0) else {
        return Vec::new();
    };
    let each = raw.table_records.into_iter().filter_map(|record| {
        let data = raw.table(record.tag)?;
        Some((record.tag.to_bytes(), data.to_vec()))
    });
    each.collect()
}

/// One table of format 12: every letter by itself.
fn cmap(subset: &Subset) -> Vec<u8> {
    let letters = subset.letters();
    let count = letters.len() as u32;
    let mut out = Vec::new();
    let mut short = |values: &[u16]| values.iter().for_each(|it| out.extend(it.to_be_bytes()));
    // Version, one table: platform 3 (Windows), encoding 10 (all of Unicode), 12 bytes on.
    short(&[0, 1, 3, 10, 0, 12, 12, 0]);
    let mut long = |value: u32| out.extend(value.to_be_bytes());
    long(16 + 12 * count);
    long(0);
    long(count);
    for (letter, glyph) in letters {
        long(*letter as u32);
        long(*letter as u32);
        long(u32::from(*glyph));
    }
    out
}

/// A font file of tables that are sorted by their tags.
fn sfnt(tables: &[Table]) -> Vec<u8> {
    let count = tables.len() as u16;
    let power = count.checked_ilog2().unwrap_or(0) as u16;
    let range = 16 << power;
    let mut out = vec![0, 1, 0, 0];
    for it in [count, range, power, 16 * count - range] {
        out.extend(it.to_be_bytes());
    }
    let mut at = 12 + 16 * u32::from(count);
    for (tag, data) in tables {
        out.extend(tag);
        for it in [checksum(data), at, data.len() as u32] {
            out.extend(it.to_be_bytes());
        }
        at += (data.len() as u32).next_multiple_of(4);
    }
    for (_, data) in tables {
        out.extend(data);
        out.resize(out.len().next_multiple_of(4), 0);
    }
    out
}

fn checksum(data: &[u8]) -> u32 {
    let word = |part: &[u8]| {
        let mut four = [0; 4];
        four[..part.len()].copy_from_slice(part);
        u32::from_be_bytes(four)
    };
    data.chunks(4).map(word).fold(0, u32::wrapping_add)
}

/// RFC 4648, 4.
fn base64(data: &[u8]) -> String {
    const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(data.len().div_ceil(3) * 4);
    for three in data.chunks(3) {
        let byte = |at: usize| u32::from(three.get(at).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for at in 0..4 {
            let sign = SIGNS[(bits >> (18 - 6 * at) & 63) as usize];
            out.push(if at <= three.len() {
                char::from(sign)
            } else {
                '='
            });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_browser_finds_every_letter_in_it() {
        let subset = Subset::of(Face::Bold, ["M13×0.8 ⌀9.3", "ab"]);
        let file = file(&subset);
        let read = ttf_parser::Face::parse(&file, 0).expect("it is a font");
        for letter in "M13×0.8 ⌀ab".chars() {
            let glyph = read.glyph_index(letter).expect("it is in it");
            let whole = Face::Bold.advance(Face::Bold.glyph(letter));
            let width = f64::from(read.glyph_hor_advance(glyph).expect("it has a width"));
            assert!((width * 1000.0 / 2048.0 - whole).abs() < 1e-9);
        }
        assert_eq!(read.glyph_index('z'), None);
        assert!(file.len() < 20_000, "{} bytes", file.len());
    }

    /// The test vectors of RFC 4648, 10.
    #[test]
    fn bytes_as_letters() {
        for (bytes, letters) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(bytes.as_bytes()), letters);
        }
    }
}
