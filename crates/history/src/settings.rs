//! What git is told of a clone: its settings, and where its files lie.

use crate::listing::path_of;
use crate::{HistoryError, Repository};
use std::path::{Path, PathBuf};

impl Repository {
    /// What a setting of this clone says; none where it is not set. `everywhere`: what the user's
    /// other settings say counts too.
    ///
    /// # Errors
    ///
    /// Where git cannot be run.
    pub fn setting(&self, key: &str, everywhere: bool) -> Result<Option<String>, HistoryError> {
        let words: &[&str] = match everywhere {
            true => &["config", "--get", key],
            false => &["config", "--local", "--get", key],
        };
        let answer = self.git.ask(words)?;
        let value = String::from_utf8_lossy(&answer.out);
        let value = value.strip_suffix('\n').unwrap_or(&value);
        Ok(answer.good.then(|| value.to_owned()))
    }

    /// Sets a setting of this clone.
    ///
    /// # Errors
    ///
    /// Where git cannot be run, or says no.
    pub fn set(&self, key: &str, value: &str) -> Result<(), HistoryError> {
        self.git.ask(&["config", "--local", key, value])?.out()?;
        Ok(())
    }

    /// Takes a setting of this clone out.
    ///
    /// # Errors
    ///
    /// Where git cannot be run, or says no.
    pub fn unset(&self, key: &str) -> Result<(), HistoryError> {
        self.git
            .ask(&["config", "--local", "--unset", key])?
            .out()?;
        Ok(())
    }

    /// Where a file of git's own lies, as `hooks/pre-commit`: in a worktree it may be elsewhere.
    ///
    /// # Errors
    ///
    /// Where git cannot be run.
    pub fn git_path(&self, name: &str) -> Result<PathBuf, HistoryError> {
        let out = self.git.ask(&["rev-parse", "--git-path", name])?.out()?;
        let path = path_of(out.strip_suffix(b"\n").unwrap_or(&out));
        Ok(self.top.folder.join(path))
    }
}

/// Merges two texts that come from one, each in a file, by `git merge-file`; whether no place was
/// changed by both. Markers are `marks` letters long.
///
/// # Errors
///
/// Where git cannot be run, or cannot merge them.
pub fn merged(
    base: &Path,
    ours: &Path,
    theirs: &Path,
    marks: usize,
) -> Result<(Vec<u8>, bool), HistoryError> {
    let marks = format!("--marker-size={marks}");
    let mut words: Vec<&std::ffi::OsStr> = vec!["merge-file".as_ref(), "-p".as_ref()];
    words.push(marks.as_ref());
    for label in ["ours", "base", "theirs"] {
        words.extend([std::ffi::OsStr::new("-L"), label.as_ref()]);
    }
    words.extend([ours.as_os_str(), base.as_os_str(), theirs.as_os_str()]);
    let answer = crate::git::Git::in_folder(Path::new("")).ask(&words)?;
    // It ends with the number of places that both changed, and says something where it fails.
    match answer.good || answer.error.is_empty() {
        true => Ok((answer.out, answer.good)),
        false => Err(HistoryError::Git(answer.error)),
    }
}
