//! The file by which a forge checks and compares every change; it only calls quillet.

use crate::{files, terminal};
use std::path::Path;

/// Where designs are reviewed.
#[derive(Clone, Copy, Debug, clap::ValueEnum)]
pub(super) enum Forge {
    /// .github/workflows/quillet.yml
    Github,
    /// .gitlab-ci.yml
    Gitlab,
    /// .forgejo/workflows/quillet.yml
    Forgejo,
}

impl Forge {
    /// Where the file stands, and what it says.
    fn file(self) -> (&'static str, &'static str) {
        match self {
            Forge::Github => (
                ".github/workflows/quillet.yml",
                include_str!("../starting/ci-workflow.yml"),
            ),
            Forge::Gitlab => (
                ".gitlab-ci.yml",
                include_str!("../starting/ci-pipeline.yml"),
            ),
            Forge::Forgejo => (
                ".forgejo/workflows/quillet.yml",
                include_str!("../starting/ci-workflow.yml"),
            ),
        }
    }
}

/// Writes the file into a folder; one that is there is never written over.
pub(super) fn write(forge: Forge, folder: &Path) -> Result<(), String> {
    let (name, text) = forge.file();
    let path = folder.join(name);
    if path.exists() {
        return Err(format!(
            "{} is there already; take it out of the way first",
            path.display()
        ));
    }
    let above = path.parent().unwrap_or(folder);
    std::fs::create_dir_all(above).map_err(|error| files::cannot(above, &error))?;
    files::put(&path, text.as_bytes())?;
    terminal::out(&format!(
        "{} written; next: say in it how quillet gets onto that machine (QUILLET_INSTALL)\n",
        path.display()
    ))
}
