//! The top folder of a repository, from which all its paths are counted.

use quillet_model::tidy;
use std::path::{Path, PathBuf};

/// The top folder of a repository.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Top {
    /// The folder, links followed.
    pub folder: PathBuf,
}

impl Top {
    pub(crate) fn at(folder: &Path) -> Self {
        Self {
            folder: real(folder),
        }
    }

    /// A folder that is in no repository, as if it were one's top; none where it is not there.
    pub fn of_folder(folder: &Path) -> Option<Self> {
        folder.is_dir().then(|| Self::at(folder))
    }

    /// A path as seen from the top; a relative one is counted from the folder stood in. None where it
    /// lies elsewhere.
    pub fn path_in(&self, path: &Path) -> Option<PathBuf> {
        let inside = |path: &Path| Some(path.strip_prefix(&self.folder).ok()?.to_owned());
        let path = match path.is_absolute() {
            true => tidy(path),
            false => tidy(&real(Path::new(".")).join(path)),
        };
        inside(&path).or_else(|| inside(&real(&path)))
    }

    /// What a path is called as seen from the top; as it is where it lies elsewhere.
    pub fn called(&self, path: &Path) -> String {
        slashed(self.path_in(path).as_deref().unwrap_or(path))
    }
}

/// A path with its parts between slashes, as it is written everywhere.
pub fn slashed(path: &Path) -> String {
    let parts = path.components().map(|it| it.as_os_str().to_string_lossy());
    parts.collect::<Vec<_>>().join("/")
}

/// A path with the links on it followed, as far as it is there.
fn real(path: &Path) -> PathBuf {
    let known = path.ancestors().find_map(|above| {
        let rest = path.strip_prefix(above).ok()?;
        let above = std::fs::canonicalize(above).ok()?;
        // Nothing joined to a path would put a slash behind it.
        Some(if rest.as_os_str().is_empty() {
            above
        } else {
            above.join(rest)
        })
    });
    known.unwrap_or_else(|| path.to_owned())
}
