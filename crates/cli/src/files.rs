//! Files of the language: found, read and replaced.

use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use walkdir::WalkDir;

/// The ending of a file in the language.
const ENDING: &str = "quillet";

/// What stands for standard input among paths.
pub(crate) const STANDARD_INPUT: &str = "-";

/// The files that paths name, in order and each once: a file as it is, a folder with every
/// `*.quillet` in it and below. Folders and files whose names begin with a dot are passed over.
///
/// # Errors
///
/// A sentence that names the path which does not exist or cannot be looked into, or the folder
/// in which there is nothing to find.
pub(crate) fn find(paths: &[PathBuf]) -> Result<Vec<PathBuf>, String> {
    let mut found = Vec::new();
    for path in paths {
        if path.as_os_str() == STANDARD_INPUT {
            found.push(path.clone());
            continue;
        }
        let about = fs::metadata(path).map_err(|error| cannot(path, &error))?;
        if !about.is_dir() {
            found.push(path.clone());
            continue;
        }
        let before = found.len();
        find_below(path, &mut found)?;
        if found.len() == before {
            return Err(format!(
                "{}: no *.{ENDING} file in this folder",
                path.display()
            ));
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    found.retain(|path| seen.insert(fs::canonicalize(path).unwrap_or_else(|_| path.clone())));
    Ok(found)
}

fn find_below(folder: &Path, found: &mut Vec<PathBuf>) -> Result<(), String> {
    let entries = WalkDir::new(folder)
        .follow_links(true)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(|entry| entry.depth() == 0 || !is_hidden(entry.path()));
    for entry in entries {
        match entry {
            Ok(entry) => {
                if entry.file_type().is_file() && is_design(entry.path()) {
                    found.push(entry.into_path());
                }
            }
            // A link that leads back to where it hangs has nothing new behind it.
            Err(error) if error.loop_ancestor().is_some() => {}
            Err(error) => {
                let path = error.path().unwrap_or(folder).to_owned();
                return Err(cannot(&path, &error.into()));
            }
        }
    }
    Ok(())
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
/// A sentence that names the file and why it cannot be read; text is UTF-8.
pub(crate) fn read(path: &Path) -> Result<String, String> {
    let bytes = match path.as_os_str() == STANDARD_INPUT {
        true => {
            let mut bytes = Vec::new();
            io::stdin().read_to_end(&mut bytes).map(|_| bytes)
        }
        false => fs::read(path),
    };
    let bytes = bytes.map_err(|error| cannot(path, &error))?;
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        format!(
            "{}: not UTF-8 at byte {at}; save the file as UTF-8 text",
            path.display()
        )
    })
}

/// Replaces a file whole or not at all: the text is written beside it and takes its place, with
/// the same permissions. Of a link it is the file behind it.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be replaced; it is then as it was.
pub(crate) fn replace(path: &Path, text: &str) -> Result<(), String> {
    let there = fs::metadata(path).and_then(|_| write_whole(path, text.as_bytes()));
    there.map_err(|error| cannot(path, &error))
}

/// Writes a file, there already or not, whole or not at all, as [`replace`] does.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be written; what was there is as it was.
pub(crate) fn put(path: &Path, bytes: &[u8]) -> Result<(), String> {
    write_whole(path, bytes).map_err(|error| cannot(path, &error))
}

fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut beside = tempfile::Builder::new()
        .prefix(".quillet-")
        .tempfile_in(folder)?;
    beside.write_all(bytes)?;
    match fs::metadata(&path) {
        Ok(about) if about.permissions().readonly() => {
            return Err(io::ErrorKind::PermissionDenied.into());
        }
        Ok(about) => beside.as_file().set_permissions(about.permissions())?,
        Err(_) => let_others_read(beside.as_file())?,
    }
    beside.as_file().sync_all()?;
    beside.persist(&path)?;
    Ok(())
}

/// A temporary file is its owner's alone; a new file is to be an ordinary one.
#[cfg(unix)]
fn let_others_read(file: &fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn let_others_read(_: &fs::File) -> io::Result<()> {
    Ok(())
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
