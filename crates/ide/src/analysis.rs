//! A file with all it uses, resolved and checked.

use quillet_syntax::{FileId, Finding};
use std::path::PathBuf;
use std::sync::Arc;

/// A file with all it uses, resolved and checked.
#[derive(Debug, Default)]
pub struct Analysis {
    /// Everything that was found, in order.
    pub findings: Vec<Finding>,
    /// Files it looked for in vain.
    pub missing: Vec<PathBuf>,
    pub(crate) files: Vec<Arc<SourceFile>>,
}

impl Analysis {
    /// The file asked for, then those it uses.
    pub fn files(&self) -> &[Arc<SourceFile>] {
        &self.files
    }

    /// The file of a number.
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files
            .iter()
            .find(|file| file.id == id)
            .map(AsRef::as_ref)
    }
}

/// Stands in for the model's.
#[derive(Debug)]
pub struct SourceFile {
    /// Its number.
    pub id: FileId,
    /// Its path.
    pub path: PathBuf,
    /// Its text.
    pub text: Arc<str>,
}
