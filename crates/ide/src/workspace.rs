//! The texts an editor has open, over those on the disk.

use crate::Analysis;
use crate::analysis::SourceFile;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The texts an editor has open, over those on the disk.
#[derive(Debug, Default)]
pub struct Workspace {
    open: Arc<BTreeMap<PathBuf, Arc<str>>>,
}

impl Workspace {
    /// A text is open in the editor: it counts, whatever the disk holds.
    pub fn set(&mut self, path: &Path, text: Arc<str>) {
        Arc::make_mut(&mut self.open).insert(path.to_path_buf(), text);
    }

    /// A text is no longer open: the disk counts again.
    pub fn unset(&mut self, path: &Path) {
        Arc::make_mut(&mut self.open).remove(path);
    }

    /// The text of an open document.
    pub fn text(&self, path: &Path) -> Option<Arc<str>> {
        self.open.get(path).cloned()
    }

    /// Whether a file lies in the workspace's folders.
    pub fn holds(&self, _path: &Path) -> bool {
        false
    }

    /// Everything as it is now.
    pub fn snapshot(&self) -> Snapshot {
        Snapshot {
            open: self.open.clone(),
        }
    }
}

/// A workspace at one moment; cheap to clone, answers from any thread.
#[derive(Clone, Debug)]
pub struct Snapshot {
    open: Arc<BTreeMap<PathBuf, Arc<str>>>,
}

impl Snapshot {
    /// The file at `path` with all it uses, resolved and checked.
    ///
    /// None where there is no such file, or `called_off` said so in the meantime.
    pub fn analysis(&self, path: &Path, called_off: &dyn Fn() -> bool) -> Option<Arc<Analysis>> {
        let text = self.open.get(path)?.clone();
        let file = SourceFile {
            id: quillet_syntax::FileId(0),
            path: path.to_path_buf(),
            text,
        };
        (!called_off()).then(|| {
            Arc::new(Analysis {
                files: vec![Arc::new(file)],
                ..Analysis::default()
            })
        })
    }
}
