//! What a tree or the index holds: each path, and what lies there.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// What lies at a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EntryKind {
    /// A file.
    File,
    /// A link; what it holds is where it leads.
    Link,
    /// Another repository.
    Submodule,
    /// A file of which a merge has left more than one version.
    Unmerged,
}

/// What lies at a path of a tree or the index.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What it is.
    pub kind: EntryKind,
    /// The number of its object, hexadecimal; two that hold the same have the same.
    pub object: String,
}

/// The entries by path from the repository's top.
pub(crate) type Listing = BTreeMap<PathBuf, Entry>;

/// The entries of `git ls-tree -r -z`: `MODE TYPE OBJECT\tPATH\0`.
pub(crate) fn of_tree(listed: &[u8]) -> Listing {
    let each = records(listed).filter_map(|(about, path)| {
        let [mode, _, object] = words(about)?;
        let kind = kind_of(mode);
        Some((path, Entry { kind, object }))
    });
    each.collect()
}

/// The entries of `git ls-files -s -z`: `MODE OBJECT STAGE\tPATH\0`.
pub(crate) fn of_index(listed: &[u8]) -> Listing {
    let each = records(listed).filter_map(|(about, path)| {
        let [mode, object, stage] = words(about)?;
        let kind = match stage.as_str() {
            "0" => kind_of(mode),
            _ => EntryKind::Unmerged,
        };
        Some((path, Entry { kind, object }))
    });
    each.collect()
}

fn kind_of(mode: String) -> EntryKind {
    match mode.as_str() {
        "120000" => EntryKind::Link,
        "160000" => EntryKind::Submodule,
        _ => EntryKind::File,
    }
}

/// Each record: what stands before its first tab, and the path behind it.
fn records(listed: &[u8]) -> impl Iterator<Item = (&[u8], PathBuf)> {
    listed.split(|byte| *byte == 0).filter_map(|record| {
        let tab = record.iter().position(|byte| *byte == b'\t')?;
        Some((&record[..tab], path_of(&record[tab + 1..])))
    })
}

fn words(about: &[u8]) -> Option<[String; 3]> {
    let about = std::str::from_utf8(about).ok()?;
    let words: Vec<_> = about.split_ascii_whitespace().map(str::to_owned).collect();
    words.try_into().ok()
}

/// A path as git writes it: bytes, between slashes.
pub(crate) fn path_of(bytes: &[u8]) -> PathBuf {
    name_of(bytes).into()
}

#[cfg(unix)]
fn name_of(bytes: &[u8]) -> OsString {
    use std::os::unix::ffi::OsStringExt;
    OsString::from_vec(bytes.to_vec())
}

#[cfg(not(unix))]
fn name_of(bytes: &[u8]) -> OsString {
    String::from_utf8_lossy(bytes).into_owned().into()
}

/// Where a path leads once the links on it are followed.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Place<'a> {
    /// To a file; the path it really has.
    File(PathBuf, &'a Entry),
    /// To a folder.
    Folder,
    /// To nothing.
    Nothing,
    /// To what is not read; what that is.
    Shut(&'static str),
}

impl Place<'_> {
    /// To somewhere no revision knows.
    pub(crate) const OUTSIDE: Self = Place::Shut("it lies outside the repository");
}

/// The most links that are followed on the way to a file.
const HOPS: usize = 5;

/// Where a path from the top leads; `target` gives what a link holds.
pub(crate) fn place<'a>(
    listing: &'a Listing,
    path: &Path,
    target: &dyn Fn(&Entry) -> Option<PathBuf>,
) -> Place<'a> {
    let mut path = path.to_owned();
    for _ in 0..=HOPS {
        if !path.is_relative() || path.starts_with("..") {
            return Place::OUTSIDE;
        }
        let Some((at, entry)) = on_the_way(listing, &path) else {
            return match path.as_os_str().is_empty() || has_below(listing, &path) {
                true => Place::Folder,
                false => Place::Nothing,
            };
        };
        match entry.kind {
            EntryKind::Submodule => return Place::Shut("it lies in a submodule"),
            EntryKind::Unmerged => return Place::Shut("its merge is not finished"),
            EntryKind::File if at == path => return Place::File(path, entry),
            EntryKind::File => return Place::Nothing,
            EntryKind::Link => {
                let Some(target) = target(entry) else {
                    return Place::Nothing;
                };
                let folder = at.parent().unwrap_or(Path::new(""));
                let rest = path.strip_prefix(&at).unwrap_or(Path::new(""));
                path = quillet_model::tidy(&folder.join(target).join(rest));
            }
        }
    }
    Place::Shut("too many links lead to it")
}

/// The entry at a path or at a folder above it: a link, say.
fn on_the_way<'a>(listing: &'a Listing, path: &Path) -> Option<(PathBuf, &'a Entry)> {
    let found = path.ancestors().find_map(|at| Some((at, listing.get(at)?)));
    found.map(|(at, entry)| (at.to_owned(), entry))
}

fn has_below(listing: &Listing, folder: &Path) -> bool {
    below(listing, folder).next().is_some()
}

/// The entries in a folder and below it, in order.
pub(crate) fn below<'a>(
    listing: &'a Listing,
    folder: &'a Path,
) -> impl Iterator<Item = (&'a PathBuf, &'a Entry)> {
    let from = listing.range(folder.to_owned()..);
    from.take_while(move |(path, _)| path.starts_with(folder))
        .filter(move |(path, _)| *path != folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn listing() -> Listing {
        let listed = b"100644 blob aa\theron.quillet\x00120000 blob bb\there\0\
            100755 blob cc\twith \"quotes\"\nand more.quillet\x00160000 commit dd\tother\0\
            120000 blob ee\tround\0";
        of_tree(listed)
    }

    fn target(entry: &Entry) -> Option<PathBuf> {
        Some(match entry.object.as_str() {
            "bb" => "./heron.quillet".into(),
            _ => "round".into(),
        })
    }

    #[test]
    fn a_name_may_hold_anything_but_nothing() {
        let odd = Path::new("with \"quotes\"\nand more.quillet");
        assert_eq!(listing()[odd].object, "cc");
        assert_eq!(listing().len(), 5);
    }

    #[test]
    fn links_are_followed_and_given_up() {
        let listing = listing();
        let place = |path: &str| place(&listing, Path::new(path), &target);
        let heron = &listing[Path::new("heron.quillet")];
        assert_eq!(place("here"), Place::File("heron.quillet".into(), heron));
        assert_eq!(place("round"), Place::Shut("too many links lead to it"));
        assert_eq!(
            place("other/x.quillet"),
            Place::Shut("it lies in a submodule")
        );
        assert_eq!(place("../x"), Place::Shut("it lies outside the repository"));
        assert_eq!(place("heron.quillet/x"), Place::Nothing);
        assert_eq!(place("egret.quillet"), Place::Nothing);
    }

    #[test]
    fn what_a_merge_left_open_is_not_read() {
        let listed =
            b"100644 aa 0\ta.quillet\x00100644 bb 2\tb.quillet\x00100644 cc 3\tb.quillet\0";
        let listing = of_index(listed);
        let place = |path: &str| place(&listing, Path::new(path), &target);
        assert!(matches!(place("a.quillet"), Place::File(..)));
        assert_eq!(place("b.quillet"), Place::Shut("its merge is not finished"));
    }
}
