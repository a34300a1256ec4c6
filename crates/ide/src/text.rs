//! The text of a file: read only where it is one, and no further than a design is ever long.

use quillet_model::{LONGEST, ReadError};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// The text of the file at a path. Never waits: what is no file is not opened.
///
/// # Errors
/// When there is none, it is a folder, a device or a pipe, it is too long, or not UTF-8 text.
pub fn text_at(path: &Path) -> Result<String, ReadError> {
    let about = std::fs::metadata(path).map_err(|error| unread(&error))?;
    if about.is_dir() {
        return Err(ReadError::NotAFile("a folder"));
    }
    if !about.is_file() {
        return Err(ReadError::NotAFile("a device or a pipe"));
    }
    if about.len() > LONGEST {
        return Err(ReadError::TooLong);
    }
    text_of(File::open(path).map_err(|error| unread(&error))?)
}

/// The text that a reader gives.
///
/// # Errors
/// When it cannot be read, is too long, or is not UTF-8 text.
pub fn text_of(reader: impl Read) -> Result<String, ReadError> {
    let mut bytes = Vec::new();
    let read = reader.take(LONGEST + 1).read_to_end(&mut bytes);
    match read.map_err(|error| unread(&error))? {
        length if length as u64 > LONGEST => Err(ReadError::TooLong),
        _ => String::from_utf8(bytes)
            .map_err(|error| ReadError::NotUtf8(error.utf8_error().valid_up_to())),
    }
}

fn unread(error: &io::Error) -> ReadError {
    match error.kind() {
        io::ErrorKind::NotFound => ReadError::Missing,
        io::ErrorKind::PermissionDenied => ReadError::Unreadable("no permission".into()),
        _ => ReadError::Unreadable(error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_is_read_than_a_design_is_long() {
        let longest = usize::try_from(LONGEST).unwrap();
        let text = text_of(io::repeat(b' ').take(LONGEST));
        assert_eq!(text.unwrap().len(), longest);
        assert_eq!(text_of(io::repeat(b' ')), Err(ReadError::TooLong));
        assert_eq!(text_of(&b"\xe2\x8c"[..]), Err(ReadError::NotUtf8(0)));
    }
}
