//! Why a revision cannot be had.

use std::path::PathBuf;
use std::time::Duration;

/// How long git is waited for.
pub const PATIENCE: Duration = Duration::from_secs(30);

/// Why a revision, or anything of git's, cannot be had; each is a sentence for the maker.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HistoryError {
    /// There is no git on this machine, or it cannot be run; why.
    NoGit(String),
    /// A folder lies in no repository.
    NoRepository(PathBuf),
    /// The repository has no working folder.
    Bare(PathBuf),
    /// There is no revision of this name; whether the clone is shallow, so that it may only be here
    /// not.
    Unknown {
        /// The name asked for.
        revision: String,
        /// Whether older revisions are cut off.
        shallow: bool,
    },
    /// Nothing has been committed yet.
    Unborn,
    /// It took longer than [`PATIENCE`](crate::PATIENCE); what was asked.
    TooSlow(String),
    /// What git said itself.
    Git(String),
}

impl std::fmt::Display for HistoryError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NoGit(why) => write!(
                f,
                "git cannot be run ({why}); install it, or name two folders"
            ),
            Self::NoRepository(folder) => write!(
                f,
                "{} is in no git repository; name two folders, or begin one with: git init",
                shown(folder)
            ),
            Self::Bare(folder) => write!(
                f,
                "{} is a bare repository, without a folder of files; clone it and ask there",
                shown(folder)
            ),
            Self::Unknown {
                revision,
                shallow: false,
            } => write!(
                f,
                "there is no revision {revision:?} here; git branch -a and git tag list the names"
            ),
            Self::Unknown {
                revision,
                shallow: true,
            } => write!(
                f,
                "there is no revision {revision:?} in this shallow clone; fetch the rest with: \
                 git fetch --unshallow"
            ),
            Self::Unborn => write!(f, "nothing has been committed here yet"),
            Self::TooSlow(what) => write!(
                f,
                "git {what} gave no answer in {} s; try again",
                crate::PATIENCE.as_secs()
            ),
            Self::Git(written) => write!(f, "git says: {written}"),
        }
    }
}

impl std::error::Error for HistoryError {}

fn shown(folder: &std::path::Path) -> String {
    match folder.as_os_str().is_empty() {
        true => "this folder".to_owned(),
        false => folder.display().to_string(),
    }
}
