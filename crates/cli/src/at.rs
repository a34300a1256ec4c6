//! `--at REV`: files as they are in a revision, or in what would be committed.

use crate::disk;
use crate::files::{self, FileList};
use quillet_history::{Repository, Revision};
use quillet_pen::Analysis;
use std::path::{Path, PathBuf};

/// When the files are read.
#[derive(clap::Args)]
pub(crate) struct At {
    /// Read the files as they are in a revision of git; "index" is what would be committed
    #[arg(long, value_name = "REV")]
    at: Option<String>,
}

impl At {
    /// As if this revision had been asked for.
    pub(crate) fn revision_named(name: &str) -> Self {
        Self {
            at: Some(name.to_owned()),
        }
    }

    /// Whether a revision was named.
    pub(crate) fn is_given(&self) -> bool {
        self.at.is_some()
    }

    /// The revision that was named, of the repository in which a path lies; none where the disk is
    /// meant.
    ///
    /// # Errors
    ///
    /// A sentence that says why it cannot be had.
    pub(crate) fn revision(&self, path: &Path) -> Result<Option<Revision>, String> {
        let Some(name) = &self.at else {
            return Ok(None);
        };
        let repository = Repository::around(files::folder_of(path));
        let revision = repository.and_then(|it| it.revision(name));
        revision.map(Some).map_err(|error| error.to_string())
    }

    /// The analysis of a file and all it uses.
    ///
    /// # Errors
    ///
    /// A sentence that names the file and why it cannot be read.
    pub(crate) fn analysis(&self, path: &Path) -> Result<Analysis, String> {
        match self.revision(path)? {
            Some(revision) => disk::analysis_from(path, &revision),
            None => disk::analysis(path),
        }
    }
}

/// The files of a revision that paths name, as [`files::find`] finds them on the
/// disk.
pub(crate) fn find(revision: &Revision, paths: &[PathBuf]) -> FileList {
    let mut found = FileList::default();
    for path in paths {
        if !revision.is_folder(path) {
            found.files.push(path.clone());
            continue;
        }
        match revision.designs_below(path) {
            none if none.is_empty() => found.problems.push(format!(
                "{}: no *.quillet file in this folder, at that revision",
                path.display()
            )),
            files => found.files.extend(files),
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    found.files.retain(|path| seen.insert(path.clone()));
    found
}
