//! The mark that every file of ours carries near its beginning or end.

use std::io::{self, ErrorKind, Read};

/// Stands in every file written here, so that a later run knows it may write over it.
pub const MARK: &str = "written by quillet; edit the design, not this file";

/// So much is looked through at a time, bytes.
const BLOCK: usize = 1 << 18;

/// True for the bytes of a file written here; most are known by their first block.
///
/// A 3MF is a zip archive: its comment holds the mark.
///
/// # Errors
///
/// Where it cannot be read.
pub fn is_ours(mut from: impl Read) -> io::Result<bool> {
    let mark = MARK.as_bytes();
    let mut block = vec![0; BLOCK];
    let mut filled = 0;
    loop {
        match from.read(&mut block[filled..]) {
            Ok(0) => return Ok(false),
            Ok(more) => filled += more,
            Err(error) if error.kind() == ErrorKind::Interrupted => continue,
            Err(error) => return Err(error),
        }
        if block[..filled].windows(mark.len()).any(|it| it == mark) {
            return Ok(true);
        }
        // The mark may have begun at its end.
        let kept = filled.min(mark.len() - 1);
        block.copy_within(filled - kept..filled, 0);
        filled = kept;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_is_found_wherever_it_stands() {
        for before in [0, 1, BLOCK - MARK.len(), BLOCK - 3, BLOCK, 3 * BLOCK + 7] {
            let bytes = [&vec![b'w'; before], MARK.as_bytes(), b"..."].concat();
            assert!(is_ours(bytes.as_slice()).unwrap(), "after {before}");
            assert!(!is_ours(&bytes[..before + MARK.len() - 1]).unwrap());
        }
    }
}
