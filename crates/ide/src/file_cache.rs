//! Files as read and parsed, kept so that none is read twice.
//!
//! Shared by all snapshots of a workspace; what is on it never changes, it is only
//! replaced. A file has the same number in every snapshot, so spans of different
//! analyses can be compared.

use crate::text::text_at;
use quillet_model::{LONGEST, ReadError, SourceFile};
use quillet_pen::Cache;
use quillet_syntax::FileId;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};
use std::time::SystemTime;

/// A text the editor has open; parsed when first asked for.
#[derive(Debug)]
pub(crate) struct OpenText {
    pub(crate) text: Arc<str>,
    path: PathBuf,
    real_path: PathBuf,
    id: FileId,
    parsed: OnceLock<Arc<SourceFile>>,
}

impl OpenText {
    /// The file, parsed.
    ///
    /// # Errors
    /// When it is too long: what is refused on the disk is not read because it is open.
    pub(crate) fn file(&self) -> Result<Arc<SourceFile>, ReadError> {
        if self.text.len() as u64 > LONGEST {
            return Err(ReadError::TooLong);
        }
        let parse = || {
            let (path, real_path) = (self.path.clone(), self.real_path.clone());
            Arc::new(SourceFile::new(self.id, path, real_path, self.text.clone()))
        };
        Ok(self.parsed.get_or_init(parse).clone())
    }

    /// Where it really lies.
    pub(crate) fn real_path(&self) -> &Path {
        &self.real_path
    }
}

/// See the module.
#[derive(Debug, Default)]
pub(crate) struct FileCache {
    ids: Mutex<BTreeMap<PathBuf, FileId>>,
    disk: Mutex<BTreeMap<PathBuf, Read>>,
    pub(crate) analyses: Cache,
}

/// A file as it was read.
#[derive(Debug)]
struct Read {
    stamp: Stamp,
    file: Result<Arc<SourceFile>, ReadError>,
}

/// What tells that a file has changed; none where there is no file.
type Stamp = Option<(SystemTime, u64)>;

impl FileCache {
    /// A text as the editor has it.
    pub(crate) fn open_text(&self, path: &Path, text: Arc<str>) -> OpenText {
        let real_path = real(path);
        let id = self.id(&real_path);
        OpenText {
            text,
            path: path.to_path_buf(),
            real_path,
            id,
            parsed: OnceLock::new(),
        }
    }

    /// The file on the disk; read again where it has changed.
    pub(crate) fn read(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        let stamp = stamp(path);
        if let Some(read) = lock(&self.disk)
            .get(path)
            .filter(|read| read.stamp == stamp)
        {
            return read.file.clone();
        }
        let file = self.load(path);
        // What is not there is not kept: while a path is typed there are many such.
        if stamp.is_some() {
            let read = Read {
                stamp,
                file: file.clone(),
            };
            lock(&self.disk).insert(path.to_path_buf(), read);
        }
        file
    }

    /// A file is to be read again.
    pub(crate) fn forget(&self, path: &Path) {
        lock(&self.disk).remove(path);
    }

    fn load(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        let text = text_at(path)?;
        let real_path = real(path);
        let id = self.id(&real_path);
        let file = SourceFile::new(id, path.to_path_buf(), real_path, text.into());
        Ok(Arc::new(file))
    }

    fn id(&self, real_path: &Path) -> FileId {
        let mut ids = lock(&self.ids);
        let next = FileId(u32::try_from(ids.len()).unwrap_or(u32::MAX));
        *ids.entry(real_path.to_path_buf()).or_insert(next)
    }
}

/// Where a file really lies; as it is said where it does not lie anywhere.
fn real(path: &Path) -> PathBuf {
    std::fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf())
}

fn stamp(path: &Path) -> Stamp {
    let about = std::fs::metadata(path).ok()?;
    Some((about.modified().ok()?, about.len()))
}

fn lock<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    // What is kept here is only ever replaced whole, so a panic elsewhere left it sound.
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}
