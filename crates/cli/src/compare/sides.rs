//! What is compared with what: a revision, a file, a folder, the working folder.

use super::CompareArgs;
use crate::rooted::Rooted;
use crate::{at, disk, files};
use quillet_history::{Repository, Revision, slashed};
use quillet_ide::Snapshot;
use quillet_model::{Source, SourceFile, load, tidy};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Both sides, and from where their files are named.
pub(super) struct Sides {
    pub(super) old: Side,
    pub(super) new: Side,
    rooted: Rooted,
}

/// One side.
pub(super) struct Side {
    /// As it was asked for.
    pub(super) called: String,
    from: From,
    /// The file or folder; empty for all of the folder stood in.
    path: PathBuf,
    /// What the file is called on both sides, where two of other names are compared.
    alias: Option<String>,
    /// Files are named from here, where that is not the top of a repository.
    base: Option<PathBuf>,
    only: Vec<PathBuf>,
}

enum From {
    Disk(Snapshot),
    Git(Box<Revision>),
}

/// What one word of the command line asks for.
enum Word<'a> {
    Path(&'a str),
    Revision(&'a str, &'a str),
}

/// What is compared where nothing is said. In a bare repository a file bears that name.
const HEAD: Word = Word::Revision("HEAD", "");

impl Sides {
    /// As the command line says; a path that is there wins over a revision of that name.
    ///
    /// # Errors
    ///
    /// A sentence that says why a side cannot be had.
    pub(super) fn of(args: &CompareArgs) -> Result<Sides, String> {
        let rooted = Rooted::around(&[]);
        let only = &args.paths;
        let (old, new) = match (
            args.old.as_deref().map_or(HEAD, word),
            args.new.as_deref().map(word),
        ) {
            // Two pens of one state.
            (Word::Path(path), None) if args.with.is_some() => {
                (Side::disk(path, only)?, Side::disk(path, only)?)
            }
            (Word::Path(path), None) => {
                let why = "compare it with a revision or another file";
                return Err(format!(
                    "{path} alone is one side; {why}: quillet compare HEAD:{path} {path}"
                ));
            }
            (old, None) => {
                let path = match &old {
                    Word::Revision(_, path) => *path,
                    Word::Path(path) => path,
                };
                (Side::of(&old, only)?, Side::disk(path, only)?)
            }
            (old, Some(new)) => (Side::of(&old, only)?, Side::of(&new, only)?),
        };
        let mut sides = Sides { old, new, rooted };
        sides.align();
        Ok(sides)
    }

    /// Two folders or files of other names are the same file where they lie alike.
    fn align(&mut self) {
        let is_git = |side: &Side| matches!(side.from, From::Git(_));
        if self.old.path == self.new.path
            || is_git(&self.old) && is_git(&self.new) && self.old.path.as_os_str().is_empty()
        {
            return;
        }
        let alias = self
            .new
            .path
            .file_name()
            .map(|it| it.to_string_lossy().into_owned());
        for side in [&mut self.old, &mut self.new] {
            let is_file = side.path.extension().is_some_and(|it| it == "quillet");
            let folder = if is_file {
                side.path.parent()
            } else {
                Some(side.path.as_path())
            };
            side.base = folder.map(Path::to_owned);
            side.alias = alias.clone().filter(|_| is_file);
        }
    }
}

/// A path where something lies there or it ends as a file of the language does, else a revision.
fn word(asked: &str) -> Word<'_> {
    let there = Path::new(asked).exists();
    let is_drive = asked.get(1..3).is_some_and(|it| it == ":\\" || it == ":/");
    let (name, path) = match asked.split_once(':') {
        Some(parts) if !is_drive => parts,
        _ => (asked, ""),
    };
    let looks_like_one = path.is_empty() && files::is_design(Path::new(asked));
    match there || is_drive || looks_like_one || asked.ends_with('/') {
        true => Word::Path(asked),
        false => Word::Revision(name, path),
    }
}

impl Side {
    fn of(word: &Word, only: &[PathBuf]) -> Result<Side, String> {
        match word {
            Word::Path(path) => Side::disk(path, only),
            Word::Revision(name, path) => Side::revision(name, path, only),
        }
    }

    fn disk(path: &str, only: &[PathBuf]) -> Result<Side, String> {
        let (mut none, mut problems) = (Vec::new(), Vec::new());
        let source = disk::source_of(&mut none, &mut problems);
        if !path.is_empty() {
            std::fs::metadata(path).map_err(|error| files::cannot(Path::new(path), &error))?;
        }
        Ok(Side {
            called: if path.is_empty() {
                "the working folder"
            } else {
                path
            }
            .to_owned(),
            from: From::Disk(source),
            path: tidy(Path::new(path)),
            alias: None,
            base: None,
            only: only.to_vec(),
        })
    }

    fn revision(name: &str, path: &str, only: &[PathBuf]) -> Result<Side, String> {
        let repository = Repository::around(files::folder_of(Path::new(path)));
        let revision = repository.and_then(|it| it.revision(name));
        let revision = revision.map_err(|error| error.to_string())?;
        if !path.is_empty()
            && revision.entry(Path::new(path)).is_none()
            && !revision.is_folder(Path::new(path))
        {
            return Err(format!(
                "{path} is not in {name}; git ls-tree -r --name-only {name} lists what is"
            ));
        }
        Ok(Side {
            called: if path.is_empty() {
                name.to_owned()
            } else {
                format!("{name}:{path}")
            },
            from: From::Git(Box::new(revision)),
            path: tidy(Path::new(path)),
            alias: None,
            base: None,
            only: only.to_vec(),
        })
    }

    /// Where its files are read.
    pub(super) fn source(&self) -> &(dyn Source + Sync) {
        match &self.from {
            From::Disk(source) => source,
            From::Git(revision) => revision.as_ref(),
        }
    }

    /// The files asked for, each with all it uses; with paths behind `--`, those that are such a file or
    /// use one.
    ///
    /// # Errors
    ///
    /// A sentence that names what cannot be looked into.
    pub(super) fn files(&self, sides: &Sides) -> Result<Vec<PathBuf>, String> {
        let asked = match self.path.as_os_str().is_empty() {
            true => PathBuf::from("."),
            false => self.path.clone(),
        };
        let found = match &self.from {
            From::Disk(_) => files::find(std::slice::from_ref(&asked)),
            From::Git(revision) => at::find(revision, std::slice::from_ref(&asked)),
        };
        // A side without any file is one on which every pen is new, or gone.
        let mut all: Vec<PathBuf> = match found.files.is_empty() {
            true if self.path.as_os_str().is_empty() => Vec::new(),
            true => return Err(found.problems.into_iter().next().unwrap_or_default()),
            false => match found.problems.into_iter().next() {
                Some(problem) => return Err(problem),
                None => found.files.iter().map(|it| tidy(it)).collect(),
            },
        };
        if !self.only.is_empty() {
            let wanted: BTreeSet<String> = self
                .only
                .iter()
                .map(|it| sides.rooted.of_path(it))
                .collect();
            all.retain(|path| self.touches(path, &wanted, sides));
        }
        Ok(all)
    }

    /// Whether a file is one of those wanted, lies below one or uses one.
    fn touches(&self, path: &Path, wanted: &BTreeSet<String>, sides: &Sides) -> bool {
        let Ok(loaded) = load(path, self.source()) else {
            return wanted.contains(&sides.rooted.of_path(path));
        };
        let below = |name: &str, folder: &str| {
            name == folder || folder.is_empty() || name.starts_with(&format!("{folder}/"))
        };
        loaded.files.iter().any(|file| {
            let name = sides.rooted.name(file);
            wanted.iter().any(|it| below(&name, it))
        })
    }

    /// What each of its files is called, alike on both sides.
    pub(super) fn namer<'s>(
        &'s self,
        sides: &'s Sides,
    ) -> impl Fn(&SourceFile) -> String + Sync + 's {
        move |file| {
            if let Some(alias) = self.alias.as_ref().filter(|_| file.path == self.path) {
                return alias.clone();
            }
            let inside = self
                .base
                .as_ref()
                .and_then(|it| file.path.strip_prefix(it).ok());
            match inside {
                Some(inside) => slashed(inside),
                None => sides.rooted.name(file),
            }
        }
    }
}
