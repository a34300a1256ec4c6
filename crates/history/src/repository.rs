//! Where a folder lies in a repository, and which revisions that has.

use crate::blobs::Blobs;
use crate::git::Git;
use crate::listing::{self, Listing, path_of};
use crate::{HistoryError, Revision, Top};
use std::path::{Path, PathBuf};

/// What is asked for instead of a revision: what would be committed.
pub const INDEX: &str = "index";

/// The repository a folder lies in.
#[derive(Clone, Debug)]
pub struct Repository {
    pub(crate) git: Git,
    /// Its top folder.
    pub top: Top,
}

impl Repository {
    /// The repository that a folder lies in; an empty path is the folder stood in.
    ///
    /// # Errors
    ///
    /// Where there is no git, no repository, or one without a working folder.
    pub fn around(folder: &Path) -> Result<Self, HistoryError> {
        let answer = Git::in_folder(folder).ask(&["rev-parse", "--show-toplevel"])?;
        if !answer.good {
            return Err(match &answer.error {
                written if written.contains("work tree") => HistoryError::Bare(folder.to_owned()),
                written if written.contains("not a git repository") => {
                    HistoryError::NoRepository(folder.to_owned())
                }
                written => HistoryError::Git(written.clone()),
            });
        }
        let top = path_of(answer.out.strip_suffix(b"\n").unwrap_or(&answer.out));
        let top = Top::at(&top);
        let git = Git::in_folder(&top.folder);
        Ok(Self { git, top })
    }

    /// A revision by any name git knows, or what would be committed for [`INDEX`].
    ///
    /// # Errors
    ///
    /// Where there is none of that name, or git fails.
    pub fn revision(&self, name: &str) -> Result<Revision, HistoryError> {
        match name {
            INDEX => {
                let listed = self.git.ask(&["ls-files", "-s", "-z"])?.out()?;
                self.listed(INDEX, listing::of_index(&listed))
            }
            _ => self.of_tree(&self.tree(name)?),
        }
    }

    /// The revision whose tree bears a number, as [`Repository::tree`] gives it.
    ///
    /// # Errors
    ///
    /// Where git fails.
    pub fn of_tree(&self, tree: &str) -> Result<Revision, HistoryError> {
        let words = ["ls-tree", "-r", "-z", "--full-tree", tree];
        let listed = self.git.ask(&words)?.out()?;
        self.listed(tree, listing::of_tree(&listed))
    }

    fn listed(&self, tree: &str, listing: Listing) -> Result<Revision, HistoryError> {
        Ok(Revision::new(
            &self.top,
            tree,
            listing,
            Blobs::of(&self.git)?,
        ))
    }

    /// Where git keeps what is of this working folder: its `HEAD`, its index.
    ///
    /// # Errors
    ///
    /// Where git fails.
    pub fn git_folder(&self) -> Result<PathBuf, HistoryError> {
        let folder = self.git.ask(&["rev-parse", "--absolute-git-dir"])?.out()?;
        Ok(path_of(folder.strip_suffix(b"\n").unwrap_or(&folder)))
    }

    /// The number of a revision's tree; two revisions that hold the same have the same.
    ///
    /// # Errors
    ///
    /// As [`Repository::revision`].
    pub fn tree(&self, name: &str) -> Result<String, HistoryError> {
        let of_tree = format!("{name}^{{tree}}");
        let words = [
            "rev-parse",
            "--verify",
            "--quiet",
            "--end-of-options",
            &of_tree,
        ];
        let answer = self.git.ask(&words)?;
        let tree = String::from_utf8_lossy(&answer.out).trim().to_owned();
        match answer.good && !tree.is_empty() {
            true => Ok(tree),
            false => Err(self.unknown(name)),
        }
    }

    fn unknown(&self, name: &str) -> HistoryError {
        let message = |words: &[&str]| {
            let answer = self.git.ask(words).ok().filter(|it| it.good);
            answer.map(|it| String::from_utf8_lossy(&it.out).trim().to_owned())
        };
        let head = message(&["rev-parse", "--verify", "--quiet", "HEAD"]);
        if head.is_none() && name == "HEAD" {
            return HistoryError::Unborn;
        }
        let shallow = message(&["rev-parse", "--is-shallow-repository"]);
        HistoryError::Unknown {
            revision: name.to_owned(),
            shallow: shallow.is_some_and(|it| it == "true"),
        }
    }
}
