//! Which file uses which.

use crate::Snapshot;
use quillet_model::{Source, SourceFile, tidy};
use quillet_syntax::ast::{ItemKind, Text};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The `use` lines of a file and the paths they name.
pub(crate) fn used(file: &SourceFile) -> impl Iterator<Item = (&Text, PathBuf)> {
    let folder = file.path.parent().unwrap_or(Path::new(""));
    file.parsed
        .tree
        .items
        .iter()
        .filter_map(move |item| match &item.kind {
            ItemKind::Use(path) => Some((path, tidy(&folder.join(&*path.text)))),
            _ => None,
        })
}

/// Every file of the workspace that uses a file, directly or through others, in order.
pub fn users(snapshot: &Snapshot, file: &Path) -> BTreeSet<PathBuf> {
    let mut graph: BTreeMap<PathBuf, Vec<PathBuf>> = BTreeMap::new();
    for user in snapshot.files() {
        let Ok(read) = snapshot.open(user) else {
            continue;
        };
        for (_, path) in used(&read) {
            graph.entry(path).or_default().push(user.to_path_buf());
        }
    }
    let mut found = BTreeSet::new();
    let mut next = vec![file.to_path_buf()];
    while let Some(file) = next.pop() {
        for user in graph.get(&file).into_iter().flatten() {
            if found.insert(user.clone()) {
                next.push(user.clone());
            }
        }
    }
    found
}

/// A replacement in a file: the new text of a string, quotes left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PathEdit {
    /// The file.
    pub path: PathBuf,
    /// The string with its quotes.
    pub span: quillet_syntax::Span,
    /// The new text, with quotes.
    pub text: String,
}

/// What must change in `use` lines when files are given other paths.
pub fn renamed(snapshot: &Snapshot, renames: &[(PathBuf, PathBuf)]) -> Vec<PathEdit> {
    let moved = |path: &Path| {
        renames.iter().find_map(|(old, new)| {
            // A folder may be renamed with all that is in it.
            let rest = path.strip_prefix(old).ok()?;
            Some(if rest.as_os_str().is_empty() {
                new.clone()
            } else {
                new.join(rest)
            })
        })
    };
    let mut edits = Vec::new();
    for user in snapshot.files() {
        let Ok(read) = snapshot.open(user) else {
            continue;
        };
        let home = moved(user).unwrap_or_else(|| user.to_path_buf());
        for (written, path) in used(&read) {
            let there = moved(&path).unwrap_or_else(|| path.clone());
            // An absolute path names the same file from any folder.
            if there == path && (home == *user || Path::new(&*written.text).is_absolute()) {
                continue;
            }
            let text = relative(home.parent().unwrap_or(Path::new("")), &there);
            if text != *written.text {
                let path = user.to_path_buf();
                edits.push(PathEdit {
                    path,
                    span: written.span,
                    text: format!("\"{text}\""),
                });
            }
        }
    }
    edits
}

/// A path as it is written from a folder, with `/` between its parts.
pub(crate) fn relative(folder: &Path, file: &Path) -> String {
    let (from, to): (Vec<_>, Vec<_>) = (folder.components().collect(), file.components().collect());
    let shared = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
    let up = std::iter::repeat_n("..".to_owned(), from.len() - shared);
    let down = to[shared..]
        .iter()
        .map(|part| part.as_os_str().to_string_lossy().into_owned());
    up.chain(down).collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_written_from_its_folder() {
        let from = Path::new("/pens/slim");
        assert_eq!(
            relative(from, Path::new("/pens/slim/bought.quillet")),
            "bought.quillet"
        );
        assert_eq!(
            relative(from, Path::new("/pens/bench/tools.quillet")),
            "../bench/tools.quillet"
        );
    }
}
