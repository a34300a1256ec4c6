//! Analyses of what lies on the disk.

use crate::files;
use quillet_ide::{Snapshot, Workspace};
use quillet_model::Source;
use quillet_pen::Analysis;
use std::path::{Path, PathBuf};

/// The files of the disk, each read once; what is read as a stream, as standard input `-`, is
/// read now and stands under its name, and what it uses is looked for from there. A stream that
/// cannot be read is taken out of `paths`, and `problems` says why.
pub(crate) fn source_of(paths: &mut Vec<PathBuf>, problems: &mut Vec<String>) -> Snapshot {
    let mut workspace = Workspace::default();
    paths.retain(|path| {
        if !files::is_stream(path) {
            return true;
        }
        match files::read(path) {
            Ok(text) => workspace.set(path, text.into()),
            Err(reason) => {
                problems.push(reason);
                return false;
            }
        }
        true
    });
    workspace.snapshot()
}

/// The analysis of a file, or of standard input for `-`, and all it uses.
///
/// # Errors
///
/// A sentence that names the file and why it cannot be read.
pub(crate) fn analysis(path: &Path) -> Result<Analysis, String> {
    let (mut paths, mut problems) = (vec![path.to_owned()], Vec::new());
    let source = source_of(&mut paths, &mut problems);
    match problems.pop() {
        Some(problem) => Err(problem),
        None => analysis_from(path, &source),
    }
}

/// The analysis of a file and all it uses, from a source.
///
/// # Errors
///
/// As [`analysis`].
pub(crate) fn analysis_from(path: &Path, source: &dyn Source) -> Result<Analysis, String> {
    let analysis = Analysis::of(path, source, None);
    analysis.map_err(|error| format!("{}: {error}", path.display()))
}
