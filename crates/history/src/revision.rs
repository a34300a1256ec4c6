//! A revision as a source of files.

use crate::Top;
use crate::blobs::Blobs;
use crate::listing::{Entry, Listing, Place, below, path_of, place};
use quillet_model::{ReadError, Source, SourceFile, tidy};
use quillet_syntax::FileId;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// The files of a revision, or of git's index, under the paths they have in the working folder.
#[derive(Debug)]
pub struct Revision {
    /// The number of its tree; `index` for the index.
    pub tree: String,
    top: Top,
    listing: Listing,
    blobs: Blobs,
    opened: Mutex<BTreeMap<PathBuf, Arc<SourceFile>>>,
}

impl Revision {
    pub(crate) fn new(top: &Top, tree: &str, listing: Listing, blobs: Blobs) -> Self {
        Self {
            tree: tree.to_owned(),
            top: top.clone(),
            listing,
            blobs,
            opened: Mutex::default(),
        }
    }

    /// What lies at a path, links followed; none where that is no file.
    pub fn entry(&self, path: &Path) -> Option<&Entry> {
        match self.place(path) {
            Place::File(_, entry) => Some(entry),
            _ => None,
        }
    }

    /// The files in a folder and below it that end as one of the language's does, in order, by paths
    /// that begin as the folder's. Names that begin with a dot are passed over.
    pub fn designs_below(&self, folder: &Path) -> Vec<PathBuf> {
        let Some(at) = self.top.path_in(folder) else {
            return Vec::new();
        };
        let inside = below(&self.listing, &at).filter_map(|(path, _)| {
            let rest = path.strip_prefix(&at).ok()?;
            let hidden = rest.iter().any(|it| it.to_string_lossy().starts_with('.'));
            let design = rest.extension().is_some_and(|it| it == "quillet");
            (design && !hidden).then(|| tidy(&folder.join(rest)))
        });
        inside.collect()
    }

    /// Whether a path leads to a folder.
    pub fn is_folder(&self, path: &Path) -> bool {
        self.place(path) == Place::Folder
    }

    fn place(&self, path: &Path) -> Place<'_> {
        let target = |link: &Entry| Some(path_of(&self.blobs.content(&link.object).ok()?));
        match self.top.path_in(path) {
            Some(path) => place(&self.listing, &path, &target),
            None => Place::OUTSIDE,
        }
    }

    fn read(&self, path: &Path) -> Result<(PathBuf, String), ReadError> {
        let (real, entry) = match self.place(path) {
            Place::File(real, entry) => (real, entry),
            Place::Folder => return Err(ReadError::NotAFile("a folder")),
            Place::Nothing => return Err(ReadError::Missing),
            Place::Shut(why) => return Err(ReadError::Unreadable(why.to_owned())),
        };
        let bytes = self.blobs.content(&entry.object)?;
        let text = String::from_utf8(bytes);
        let text = text.map_err(|error| ReadError::NotUtf8(error.utf8_error().valid_up_to()))?;
        Ok((self.top.folder.join(real), text))
    }
}

impl Source for Revision {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        let opened = || self.opened.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = opened().get(path) {
            return Ok(known.clone());
        }
        let (real, text) = self.read(path)?;
        let mut opened = opened();
        // Two that asked at once get the same file.
        if let Some(known) = opened.get(path) {
            return Ok(known.clone());
        }
        let same = opened.values().find(|it| it.real_path == real);
        let next = FileId(u32::try_from(opened.len()).unwrap_or(u32::MAX));
        let id = same.map_or(next, |it| it.id);
        let file = Arc::new(SourceFile::new(id, path.to_owned(), real, text.into()));
        opened.insert(path.to_owned(), file.clone());
        Ok(file)
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        let here = self.designs_below(folder).into_iter();
        let here = here.filter(|path| path.parent().unwrap_or(Path::new("")) == folder);
        here.filter_map(|path| Some(path.file_name()?.to_str()?.to_owned()))
            .collect()
    }
}
