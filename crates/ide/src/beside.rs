//! The files beside those that are open, where no folder is.

use crate::Snapshot;
use crate::disk::names_in;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Every design beside these files and beside what they use, not deeper; what is no file has none.
pub fn files_beside(snapshot: &Snapshot, files: &[PathBuf]) -> BTreeSet<PathBuf> {
    let used = files.iter().flat_map(|file| {
        let analysis = snapshot.analysis(file, &|| false);
        let files = analysis.iter().flat_map(|it| it.files().to_vec());
        files.map(|it| it.path.clone()).collect::<Vec<_>>()
    });
    let all = files.iter().cloned().chain(used);
    let folders = all.filter_map(|it| it.parent().map(Path::to_path_buf));
    let folders: BTreeSet<PathBuf> = folders.filter(|it| it.is_absolute()).collect();
    let beside = folders.iter().flat_map(|folder| {
        let names = names_in(folder).into_iter();
        names.map(|name| folder.join(name)).collect::<Vec<_>>()
    });
    beside.filter(|it| it.is_file()).collect()
}
