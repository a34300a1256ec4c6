//! What was looked at on the way to an analysis.

use quillet_model::{ReadError, Source, SourceFile};
use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A path that was asked for, and what was there.
#[derive(Debug)]
pub(crate) struct ReadPath {
    pub(crate) path: PathBuf,
    pub(crate) found: Result<Arc<SourceFile>, ReadError>,
}

impl ReadPath {
    /// Whether the same is there in another source.
    pub(crate) fn holds_in(&self, source: &dyn Source) -> bool {
        match (&self.found, source.open(&self.path)) {
            (Ok(then), Ok(now)) => Arc::ptr_eq(then, &now),
            (Err(then), Err(now)) => *then == now,
            _ => false,
        }
    }
}

/// Notes what is asked for on the way to another source.
pub(crate) struct Recorder<'a> {
    source: &'a dyn Source,
    looked_at: RefCell<Vec<ReadPath>>,
}

impl<'a> Recorder<'a> {
    pub(crate) fn of(source: &'a dyn Source) -> Self {
        Self {
            source,
            looked_at: RefCell::default(),
        }
    }

    pub(crate) fn into_looked_at(self) -> Vec<ReadPath> {
        self.looked_at.into_inner()
    }
}

impl Source for Recorder<'_> {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        let found = self.source.open(path);
        let looked = ReadPath {
            path: path.to_path_buf(),
            found: found.clone(),
        };
        self.looked_at.borrow_mut().push(looked);
        found
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        self.source.beside(folder)
    }
}
