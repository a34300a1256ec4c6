//! `quillet made`: a file in which to write what the caliper reads, size by size.

use crate::at::At;
use crate::choice::PenChoice;
use crate::{files, terminal};
use quillet_export::report::made_file;
use quillet_pen::Analysis;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet made` may be asked.
#[derive(clap::Args)]
pub(crate) struct MadeArgs {
    /// The file that the pen is drawn in
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// What the one that is made is called, as ida-1; NAME.quillet is written beside the file
    #[arg(long, value_name = "NAME")]
    name: String,
}

/// Writes the file; 0, or 2 with the reason where there is none.
pub(crate) fn run(args: &MadeArgs) -> ExitCode {
    terminal::ended(write(args))
}

fn write(args: &MadeArgs) -> Result<(), String> {
    let analysis = args.at.analysis(&args.file)?;
    let pen = args.pen.one(&analysis.design)?;
    if let Some(made) = &pen.made {
        return Err(format!(
            "{} is itself one that was made; name the drawn pen {}",
            pen.name.text, made.of.text
        ));
    }
    let errors = analysis.examined().of_pen(&pen.name.text).errors();
    if errors > 0 || !pen.is_settled() {
        return Err(format!(
            "{} has errors; quillet check says what is wrong",
            pen.name.text
        ));
    }
    let name = args.name.strip_suffix(".quillet").unwrap_or(&args.name);
    let used = args.file.file_name().unwrap_or_default().to_string_lossy();
    let path = args.file.with_file_name(format!("{name}.quillet"));
    if !is_free(&analysis, name) {
        return Err(format!(
            "{name:?} cannot name what is made; use small letters, figures and hyphens, and no name of the \
             design, as ida-1"
        ));
    }
    let text = made_file(&analysis.design, pen, name, &used);
    files::put_new(&path, text.as_bytes())?;
    let shown = path.strip_prefix(Path::new(".")).unwrap_or(&path);
    terminal::out(&format!(
        "{0} written; when a size is cut, write it there, then: quillet check {0}\n",
        shown.display()
    ))
}

/// Whether a name is plain, and nothing in the design bears it.
fn is_free(analysis: &Analysis, name: &str) -> bool {
    let is_plain = files::is_plain(name) && !name.ends_with('-') && !name.contains("--");
    let names = &analysis.design.names.definitions;
    let mut taken = names.iter().filter(|it| it.owner.is_none());
    is_plain
        && !quillet_syntax::grammar::RESERVED.contains(&name)
        && !taken.any(|it| *it.name == *name)
}
