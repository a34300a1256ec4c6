//! Files of the language: found, read and replaced.

use crate::whole;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use walkdir::WalkDir;

/// The ending of a file in the language.
const ENDING: &str = "quillet";

/// What stands for standard input among paths.
pub(crate) const STANDARD_INPUT: &str = "-";

/// What paths name.
#[derive(Debug, Default)]
pub(crate) struct FileList {
    /// The files, in order and each once.
    pub(crate) files: Vec<PathBuf>,
    /// What could not be looked into, each a sentence that names it.
    pub(crate) problems: Vec<String>,
}

/// The files that paths name: a file as it is, a folder with every `*.quillet` in it and below.
/// Folders and files whose names begin with a dot are passed over. What cannot be looked into, or
/// holds nothing, is told and keeps nothing else from being found.
pub(crate) fn find(paths: &[PathBuf]) -> FileList {
    let mut found = FileList::default();
    for path in paths {
        if path.as_os_str() == STANDARD_INPUT {
            found.files.push(path.clone());
            continue;
        }
        match fs::metadata(path) {
            Err(error) => found.problems.push(cannot(path, &error)),
            Ok(about) if about.is_dir() => find_below(path, &mut found),
            Ok(_) => found.files.push(path.clone()),
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    let new = |path: &PathBuf| seen.insert(fs::canonicalize(path).unwrap_or_else(|_| path.clone()));
    found.files.retain(new);
    found
}

fn find_below(folder: &Path, found: &mut FileList) {
    let before = (found.files.len(), found.problems.len());
    let entries = WalkDir::new(folder)
        .follow_links(true)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(|entry| entry.depth() == 0 || !is_hidden(entry.path()));
    for entry in entries {
        match entry {
            Ok(entry) if entry.file_type().is_dir() || !is_design(entry.path()) => {}
            Ok(entry) if entry.file_type().is_file() => found.files.push(entry.into_path()),
            Ok(entry) => found.problems.push(format!(
                "{}: a device or a pipe, not a file",
                entry.path().display()
            )),
            // A link that leads back to where it hangs has nothing new behind it.
            Err(error) if error.loop_ancestor().is_some() => {}
            // Editors leave such beside a file that is being edited.
            Err(error) if error.depth() > 0 && error.path().is_some_and(is_hidden) => {}
            Err(error) => {
                let path = error.path().unwrap_or(folder).to_owned();
                let why = match fs::read_link(&path) {
                    Ok(to) => format!(
                        "{}: a link to {}, which is not there",
                        path.display(),
                        to.display()
                    ),
                    Err(_) => cannot(&path, &error.into()),
                };
                found.problems.push(why);
            }
        }
    }
    if before == (found.files.len(), found.problems.len()) {
        found.problems.push(format!(
            "{}: no *.{ENDING} file in this folder",
            folder.display()
        ));
    }
}

/// The folder a path names or lies in; of one that is gone, the nearest above it that is there.
pub(crate) fn folder_of(path: &Path) -> &Path {
    let there = path.ancestors().find(|it| it.is_dir());
    there.unwrap_or(Path::new(""))
}

/// Whether a path ends as a file of the language does.
pub(crate) fn is_design(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == ENDING)
}

fn is_hidden(path: &Path) -> bool {
    path.file_name()
        .is_some_and(|name| name.to_string_lossy().starts_with('.'))
}

/// The text of a file, or of standard input for `-`.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be read; text is UTF-8, and no more of it is
/// read than a design is ever long.
pub(crate) fn read(path: &Path) -> Result<String, String> {
    let text = match path {
        _ if path.as_os_str() == STANDARD_INPUT => quillet_ide::text_of(io::stdin()),
        _ if is_stream(path) => match fs::File::open(path) {
            Ok(stream) => quillet_ide::text_of(stream),
            Err(error) => return Err(cannot(path, &error)),
        },
        _ => quillet_ide::text_at(path),
    };
    text.map_err(|error| format!("{}: {error}", path.display()))
}

/// Whether a path is standard input or what a shell hands over in its place, as `<(…)` does.
pub(crate) fn is_stream(path: &Path) -> bool {
    let handed = ["/dev/fd", "/dev/stdin", "/proc/self/fd"];
    path.as_os_str() == STANDARD_INPUT
        || handed.iter().any(|it| path.starts_with(it)) && !path.is_file()
}

/// Replaces a file whole or not at all; it keeps its mode, owner and names.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be replaced; it is then as it was.
pub(crate) fn replace(path: &Path, text: &str) -> Result<(), String> {
    let there =
        fs::metadata(path).and_then(|_| whole::write(path, |out| out.write_all(text.as_bytes())));
    there.map_err(|error| cannot(path, &error))
}

/// Writes a file, there already or not, whole or not at all, as [`replace`] does.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be written; what was there is as it was.
pub(crate) fn put(path: &Path, bytes: &[u8]) -> Result<(), String> {
    put_with(path, |out| out.write_all(bytes))
}

/// Writes a file that the maker goes on with; none is ever written over.
///
/// # Errors
///
/// As [`put`], and where it is there already.
pub(crate) fn put_new(path: &Path, bytes: &[u8]) -> Result<(), String> {
    match path.exists() {
        true => Err(format!(
            "{} is there already; choose another name",
            path.display()
        )),
        false => put(path, bytes),
    }
}

/// Whether a name can be a file's and that of what it defines: small letters, figures and hyphens.
pub(crate) fn is_plain(name: &str) -> bool {
    let plain =
        |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-';
    name.starts_with(|first: char| first.is_ascii_lowercase()) && name.chars().all(plain)
}

/// Writes a file as its content comes, whole or not at all, as [`replace`] does.
///
/// # Errors
///
/// As [`put`], and where the content cannot be told.
pub(crate) fn put_with(
    path: &Path,
    content: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), String> {
    whole::write(path, content).map_err(|error| cannot(path, &error))
}

pub(crate) fn cannot(path: &Path, error: &io::Error) -> String {
    let why = match error.kind() {
        io::ErrorKind::NotFound => "no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "no permission".to_owned(),
        io::ErrorKind::IsADirectory => "a folder, not a file".to_owned(),
        _ => error.to_string(),
    };
    format!("{}: {why}", path.display())
}
