//! What a file is called by those who were not here: its path from the top of the repository.

use crate::files;
use quillet_history::{Repository, Top, slashed};
use quillet_model::SourceFile;
use std::path::{Path, PathBuf};

/// The folder from which paths are counted: the top of the repository, else the folder stood in.
#[derive(Debug)]
pub(crate) struct Rooted {
    top: Option<Top>,
    /// The folder stood in, links followed.
    here: Option<PathBuf>,
}

impl Rooted {
    /// For files that paths name.
    pub(crate) fn around(paths: &[PathBuf]) -> Self {
        let first = paths.first().map_or(Path::new(""), |it| it);
        let repository = Repository::around(files::folder_of(first));
        let top = repository.ok().map(|it| it.top);
        let here = Top::of_folder(Path::new("."));
        Self {
            here: here.as_ref().map(|it| it.folder.clone()),
            top: top.or(here),
        }
    }

    /// The path of a file, its parts between slashes; as it was asked for where it lies elsewhere.
    pub(crate) fn name(&self, file: &SourceFile) -> String {
        self.of_path(&file.path)
    }

    /// The same of a path.
    pub(crate) fn of_path(&self, path: &Path) -> String {
        let whole = self.here.as_ref().map(|it| it.join(path));
        let whole = whole.as_deref().unwrap_or(path);
        let inside = self.top.as_ref().and_then(|top| top.path_in(whole));
        slashed(inside.as_deref().unwrap_or(path))
    }
}
