//! Designs from the disk.

use quillet_ide::{Snapshot, Workspace};
use quillet_model::Design;
use std::path::Path;

/// The files of the disk, each read once.
pub(crate) fn source() -> Snapshot {
    Workspace::default().snapshot()
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
