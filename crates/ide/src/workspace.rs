//! The texts an editor has open, over the files on the disk.

use crate::file_cache::{FileCache, OpenText};
use crate::settings::Settings;
use crate::snapshot::Snapshot;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The texts an editor has open, over the files on the disk.
#[derive(Debug, Default)]
pub struct Workspace {
    open: Arc<BTreeMap<PathBuf, Arc<OpenText>>>,
    members: Arc<BTreeSet<PathBuf>>,
    settings: Arc<Settings>,
    cache: Arc<FileCache>,
}

impl Workspace {
    /// A text is open in the editor: it counts, whatever the disk holds.
    pub fn set(&mut self, path: &Path, text: Arc<str>) {
        let text = Arc::new(self.cache.open_text(path, text));
        Arc::make_mut(&mut self.open).insert(path.to_path_buf(), text);
    }

    /// A text is no longer open: the disk counts again.
    pub fn unset(&mut self, path: &Path) {
        Arc::make_mut(&mut self.open).remove(path);
        self.cache.forget(path);
    }

    /// The text of an open document.
    pub fn text(&self, path: &Path) -> Option<Arc<str>> {
        self.open.get(path).map(|open| open.text.clone())
    }

    /// A file has changed on the disk.
    pub fn stale(&mut self, path: &Path) {
        self.cache.forget(path);
    }

    /// The files that lie in the workspace's folders.
    pub fn members(&self) -> impl Iterator<Item = &Path> {
        self.members.iter().map(PathBuf::as_path)
    }

    /// Whether a file lies in the workspace's folders.
    pub fn holds(&self, path: &Path) -> bool {
        self.members.contains(path)
    }

    /// These files, and no others, lie in the workspace's folders.
    pub fn set_members(&mut self, members: BTreeSet<PathBuf>) {
        self.members = Arc::new(members);
    }

    /// A file has come to the workspace's folders.
    pub fn add_member(&mut self, path: &Path) {
        Arc::make_mut(&mut self.members).insert(path.to_path_buf());
    }

    /// A file has gone from the workspace's folders.
    pub fn remove_member(&mut self, path: &Path) {
        Arc::make_mut(&mut self.members).remove(path);
    }

    /// What the maker has chosen.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// The maker has chosen anew.
    pub fn set_settings(&mut self, settings: Settings) {
        self.settings = Arc::new(settings);
    }

    /// Everything as it is now.
    pub fn snapshot(&self) -> Snapshot {
        Snapshot {
            open: self.open.clone(),
            members: self.members.clone(),
            settings: self.settings.clone(),
            cache: self.cache.clone(),
        }
    }
}
