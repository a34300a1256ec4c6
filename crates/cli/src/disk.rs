//! Files from the disk, as the model asks for them.

use quillet_model::{Design, ReadError, Source, SourceFile};
use quillet_syntax::FileId;
use std::cell::RefCell;
use std::path::Path;
use std::sync::Arc;

/// The disk; a file opened twice by whatever path keeps its number.
#[derive(Debug, Default)]
pub(crate) struct Disk {
    files: RefCell<Vec<Arc<SourceFile>>>,
}

impl Source for Disk {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        let unreadable = |error: std::io::Error| match error.kind() {
            std::io::ErrorKind::NotFound => ReadError::Missing,
            _ => ReadError::Unreadable(error.to_string()),
        };
        let real_path = std::fs::canonicalize(path).map_err(unreadable)?;
        let mut files = self.files.borrow_mut();
        if let Some(known) = files.iter().find(|file| file.real_path == real_path) {
            return Ok(known.clone());
        }
        let bytes = std::fs::read(&real_path).map_err(unreadable)?;
        let text = String::from_utf8(bytes)
            .map_err(|error| ReadError::NotUtf8(error.utf8_error().valid_up_to()))?;
        let id = FileId(u32::try_from(files.len()).unwrap_or(u32::MAX));
        let parsed = quillet_syntax::parse(id, &text);
        let text = text.into();
        let file = Arc::new(SourceFile {
            id,
            path: path.to_owned(),
            real_path,
            text,
            parsed,
        });
        files.push(file.clone());
        Ok(file)
    }
}

/// The design of a file and all it uses.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be read.
pub(crate) fn design(path: &Path) -> Result<Design, String> {
    let loaded = quillet_model::load(path, &Disk::default())
        .map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(quillet_model::resolve(&loaded))
}
