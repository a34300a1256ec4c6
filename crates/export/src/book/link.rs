//! An address that holds the files of a design, for the page that has the checker in it.

use base64::Engine;
use base64::prelude::BASE64_URL_SAFE_NO_PAD;
use flate2::Compression;
use flate2::write::DeflateEncoder;
use std::io::Write;

/// The page at an address with files opened in it, the first one shown: `#q1=` and base64url of raw DEFLATE
/// of `name NUL text NUL …`.
pub fn link<'t>(page: &str, files: impl Iterator<Item = (String, &'t str)>) -> String {
    let mut packed = DeflateEncoder::new(Vec::new(), Compression::best());
    for (name, text) in files {
        // Into memory nothing can fail to be written.
        let _ = packed.write_all(format!("{name}\0{text}\0").as_bytes());
    }
    let packed = packed.finish().unwrap_or_default();
    let page = page.split('#').next().unwrap_or_default();
    format!("{page}#q1={}", BASE64_URL_SAFE_NO_PAD.encode(packed))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    #[test]
    fn a_link_holds_the_files_and_nothing_else() {
        let files = [
            ("heron.quillet".to_owned(), "use \"a\"\n"),
            ("a.quillet".to_owned(), "é"),
        ];
        let link = link("https://example.org/bench/#old", files.into_iter());
        let packed = link.strip_prefix("https://example.org/bench/#q1=").unwrap();
        let packed = BASE64_URL_SAFE_NO_PAD.decode(packed).unwrap();
        let mut text = String::new();
        flate2::read::DeflateDecoder::new(&packed[..])
            .read_to_string(&mut text)
            .unwrap();
        assert_eq!(text, "heron.quillet\0use \"a\"\n\0a.quillet\0é\0");
    }
}
