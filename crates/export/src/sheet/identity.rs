//! Which design a sheet is of.

use quillet_model::Design;

/// The name of the file asked for, without its folders.
pub(super) fn file(design: &Design) -> String {
    let name = design.root().and_then(|it| it.path.file_name());
    name.map_or_else(String::new, |it| it.to_string_lossy().into_owned())
}

/// The first eight hexadecimal digits of a hash of all files used, as the formatter writes them: the same
/// text has the same mark, whatever its blanks and wherever it lies.
pub(super) fn design_mark(design: &Design) -> String {
    // FNV-1a of 64 bits (Fowler, Noll, Vo), the files parted by a zero.
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for file in &design.files {
        let text = quillet_syntax::format(&file.text);
        for byte in text.bytes().chain([0]) {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    let digits = format!("{:016x}", hash);
    format!("{} {}", &digits[..4], &digits[4..8])
}
