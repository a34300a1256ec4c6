//! The files of a folder.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Folders in which nobody keeps pens.
const PASSED_OVER: [&str; 2] = ["node_modules", "target"];

/// No folder of pens is deeper; a loop of mounts would be.
const DEEPEST: usize = 32;

/// Whether a path is that of a design, by its ending.
pub fn is_design(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "quillet")
}

/// Every design in the folders and the folders within; hidden ones and links are passed over.
pub fn files_in(folders: &[PathBuf]) -> BTreeSet<PathBuf> {
    let mut found = BTreeSet::new();
    for folder in folders {
        walk(folder, DEEPEST, &mut found);
    }
    found
}

/// The names of the designs that lie in a folder itself, in order.
pub(crate) fn names_in(folder: &Path) -> Vec<String> {
    let here = Path::new(".");
    let folder = if folder.as_os_str().is_empty() {
        here
    } else {
        folder
    };
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let names = entries.take(MOST_LISTED).map(|entry| entry.file_name());
    let designs = names.filter(|name| is_design(Path::new(name)));
    let mut names: Vec<String> = designs.filter_map(|name| name.into_string().ok()).collect();
    names.sort();
    names
}

/// So many entries of a folder are looked through for a name that is nearly right.
const MOST_LISTED: usize = 4_096;

fn walk(folder: &Path, depth: usize, found: &mut BTreeSet<PathBuf>) {
    // A folder that cannot be read holds nothing that can be shown.
    let Ok(entries) = std::fs::read_dir(folder) else {
        return;
    };
    for entry in entries.flatten() {
        let (path, name) = (entry.path(), entry.file_name());
        let name = name.to_string_lossy();
        match entry.file_type() {
            Ok(kind) if kind.is_dir() => {
                let passed = name.starts_with('.') || PASSED_OVER.contains(&&*name);
                if !passed && depth > 0 {
                    walk(&path, depth - 1, found);
                }
            }
            Ok(kind) if kind.is_file() && is_design(&path) => drop(found.insert(path)),
            _ => {}
        }
    }
}
