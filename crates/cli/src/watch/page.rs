//! What the page shows, worked out anew when a file has changed.

use crate::disk;
use quillet_export::live;
use quillet_ide::{Snapshot, Workspace};
use quillet_model::{ReadError, Source, SourceFile};
use quillet_pen::Analysis;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::hash::{BuildHasher, Hasher, RandomState};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;

/// A file with all it uses, as last seen.
pub(super) struct WatchedFiles {
    path: PathBuf,
    /// Each path that was looked at, whether or not anything was there.
    seen: BTreeMap<PathBuf, Stamp>,
    body: String,
    /// Changes whenever the body does.
    version: u64,
    /// No other process can guess the version a page asks by.
    salt: u64,
}

impl WatchedFiles {
    /// Looks at a file for the first time.
    ///
    /// # Errors
    ///
    /// A sentence that names the file and why it cannot be read.
    pub(super) fn new(path: &Path) -> Result<WatchedFiles, String> {
        let salt = RandomState::new().build_hasher().finish();
        let mut watched = WatchedFiles {
            path: path.to_owned(),
            seen: BTreeMap::new(),
            body: String::new(),
            version: 0,
            salt,
        };
        let analysis = watched.read()?;
        watched.show(&analysis);
        Ok(watched)
    }

    /// Looks again if a file has been written, has come or gone, or lies elsewhere since.
    pub(super) fn look(&mut self) {
        if self.seen.iter().all(|(path, then)| stamp(path) == *then) {
            return;
        }
        match self.read() {
            Ok(analysis) => self.show(&analysis),
            // An editor may be in the middle of writing; the next look sees it whole.
            Err(reason) => {
                self.body = live::unreadable(reason);
                self.version += 1;
            }
        }
    }

    /// Reads all anew and notes what was looked at.
    fn read(&mut self) -> Result<Analysis, String> {
        let source = RecordingSource {
            source: Workspace::default().snapshot(),
            seen: RefCell::default(),
        };
        let analysis = disk::analysis_from(&self.path, &source);
        self.seen = source.seen.into_inner();
        analysis
    }

    fn show(&mut self, analysis: &Analysis) {
        self.body = live::body(&analysis.design, &analysis.examined().findings);
        self.version += 1;
    }

    pub(super) fn body(&self) -> &str {
        &self.body
    }

    /// What a page says it has, to be told whether there is newer.
    pub(super) fn version(&self) -> String {
        format!("{:x}-{}", self.salt, self.version)
    }

    pub(super) fn title(&self) -> String {
        self.path
            .file_name()
            .unwrap_or(self.path.as_os_str())
            .to_string_lossy()
            .into_owned()
    }
}

/// What tells that a file is another or has changed; none where there is none. Where it really
/// lies is part of it: a link may be pointed at another file that was written at the same time.
type Stamp = Option<(PathBuf, SystemTime, u64)>;

fn stamp(path: &Path) -> Stamp {
    let about = fs::metadata(path).ok()?;
    Some((
        fs::canonicalize(path).ok()?,
        about.modified().ok()?,
        about.len(),
    ))
}

/// The disk, and what was looked at on it.
struct RecordingSource {
    source: Snapshot,
    seen: RefCell<BTreeMap<PathBuf, Stamp>>,
}

impl Source for RecordingSource {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        // Noted before it is read: what is written meanwhile is seen at the next look.
        self.seen
            .borrow_mut()
            .entry(path.to_owned())
            .or_insert_with(|| stamp(path));
        self.source.open(path)
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        self.source.beside(folder)
    }
}
