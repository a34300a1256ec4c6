//! `quillet merge-file`: merges two texts of a design for git, whatever their columns.

use crate::temp_file::TempFile;
use crate::{files, terminal};
use quillet_history::merged;
use quillet_syntax::{format, loosened};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet merge-file` may be asked; git fills it in.
#[derive(clap::Args)]
pub(crate) struct MergeFileArgs {
    /// The text that both come from (%O)
    base: PathBuf,
    /// Ours, which is written over with the merged text (%A)
    ours: PathBuf,
    /// Theirs (%B)
    theirs: PathBuf,
    /// How long the markers of a place are that both have changed (%L)
    #[arg(default_value_t = 7)]
    marks: usize,
}

/// Merges; 0, 1 where both changed one place and its markers are in the text, 2 where it fails and
/// ours is as it was. Git takes anything but 0 as a file to be merged by hand.
pub(crate) fn run(args: &MergeFileArgs) -> ExitCode {
    match merge(args) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(reason) => terminal::ended(Err(reason)),
    }
}

fn merge(args: &MergeFileArgs) -> Result<bool, String> {
    let folder = args.ours.parent().unwrap_or(Path::new(""));
    // A side whose columns are others, as those once were, would have changed lines nobody meant to.
    let loose = |path: &PathBuf| {
        let loose = loosened(&files::read(path)?);
        let mut scrap = TempFile::in_folder(folder, true).map_err(|it| files::cannot(path, &it))?;
        scrap
            .fill(|out| out.write_all(loose.as_bytes()))
            .map_err(|it| files::cannot(path, &it))?;
        Ok::<TempFile, String>(scrap)
    };
    let (base, ours, theirs) = (loose(&args.base)?, loose(&args.ours)?, loose(&args.theirs)?);
    let merged = merged(base.path(), ours.path(), theirs.path(), args.marks);
    let (text, clean) = merged.map_err(|error| error.to_string())?;
    let text = String::from_utf8_lossy(&text);
    // What holds markers stays as it is.
    files::replace(&args.ours, &format(&text))?;
    Ok(clean)
}
