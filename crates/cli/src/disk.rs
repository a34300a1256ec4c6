//! Designs from the disk.

use crate::files;
use quillet_ide::{Snapshot, Workspace};
use quillet_model::Design;
use std::path::{Path, PathBuf};

/// The files of the disk, each read once.
pub(crate) fn source() -> Snapshot {
    Workspace::default().snapshot()
}

/// The files of the disk and, where `-` is among the paths, standard input under that name; what
/// it uses is looked for from the current folder.
///
/// # Errors
///
/// A sentence that says why standard input cannot be read.
pub(crate) fn source_of(paths: &[PathBuf]) -> Result<Snapshot, String> {
    let mut workspace = Workspace::default();
    let input = Path::new(files::STANDARD_INPUT);
    if paths.iter().any(|path| path == input) {
        workspace.set(input, files::read(input)?.into());
    }
    Ok(workspace.snapshot())
}

/// The design of a file and all it uses.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be read.
pub(crate) fn design(path: &Path) -> Result<Design, String> {
    let loaded = quillet_model::load(path, &source())
        .map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(quillet_model::resolve(&loaded))
}
