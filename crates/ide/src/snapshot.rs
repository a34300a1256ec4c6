//! A workspace at one moment.

use crate::analysis::Analysis;
use crate::disk;
use crate::file_cache::{FileCache, OpenText};
use crate::settings::Settings;
use quillet_model::{ReadError, Source, SourceFile};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A workspace at one moment; cheap to clone, answers from any thread.
#[derive(Clone, Debug)]
pub struct Snapshot {
    pub(crate) open: Arc<BTreeMap<PathBuf, Arc<OpenText>>>,
    pub(crate) members: Arc<BTreeSet<PathBuf>>,
    pub(crate) settings: Arc<Settings>,
    pub(crate) cache: Arc<FileCache>,
}

impl Snapshot {
    /// The file at `path` with all it uses, resolved.
    ///
    /// None where there is no such file, or `called_off` said so in the meantime.
    pub fn analysis(&self, path: &Path, called_off: &dyn Fn() -> bool) -> Option<Arc<Analysis>> {
        let bench = self.settings.bench.as_deref();
        let keep = |root: &Path| self.open.contains_key(root);
        let kept = &self.cache.analyses;
        let whole = kept.analysis(path, self, bench, &keep, called_off)?;
        Some(Arc::new(Analysis::seen(whole, self.settings.clone())))
    }

    /// What the maker has chosen.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// The file at a path, read and parsed.
    pub fn file(&self, path: &Path) -> Option<Arc<SourceFile>> {
        self.open(path).ok()
    }

    /// What is told of a file that is there and cannot be read as a design: in which text (that which is
    /// open, else an empty one), and what; none where it can be read, or is not there.
    pub fn unread(&self, path: &Path) -> Option<(Arc<str>, String)> {
        let told = match self.open(path).err()? {
            ReadError::Missing => return None,
            ReadError::TooLong => {
                "this file is longer than 16 MB, more than any design is: it is not \
                                   read\ntake the items it needs into a file of their own"
                    .to_owned()
            }
            other => format!("this file is not read: {other}"),
        };
        let open = self.open.get(path);
        Some((open.map_or_else(|| "".into(), |it| it.text.clone()), told))
    }

    /// Every file that is open or lies in the workspace's folders, in order.
    pub fn files(&self) -> BTreeSet<&Path> {
        self.open
            .keys()
            .chain(&*self.members)
            .map(PathBuf::as_path)
            .collect()
    }
}

impl Source for Snapshot {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        if let Some(open) = self.open.get(path) {
            return open.file();
        }
        let file = self.cache.read(path)?;
        // The editor may have it open by another path.
        let open = self
            .open
            .values()
            .find(|open| open.real_path() == file.real_path);
        open.map_or(Ok(file), |open| open.file())
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        let open = self
            .open
            .keys()
            .filter(|it| it.parent().unwrap_or(Path::new("")) == folder);
        let open = open.filter_map(|it| it.file_name()?.to_str());
        let mut names = disk::names_in(folder);
        names.extend(open.map(str::to_owned));
        names.sort();
        names.dedup();
        names
    }
}
