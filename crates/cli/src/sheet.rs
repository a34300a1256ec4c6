//! `quillet sheet`: all that the maker takes to the lathe.

use crate::at::At;
use crate::choice::{PenChoice, UnitsChoice};
use crate::draw::PaperName;
use crate::output::{Output, ending, wrong_ending};
use crate::terminal;
use quillet_export::draw::Paper;
use quillet_export::scene::Scene;
use quillet_export::sheet;
use quillet_model::{Pen, words};
use quillet_pen::Analysis;
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet sheet` may be asked.
#[derive(clap::Args)]
pub(crate) struct SheetArgs {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// One that was made: what is made is ticked, what goes into it is asked to suit; said in the file, or in
    /// NAME.quillet beside it
    #[arg(long, value_name = "NAME", conflicts_with = "pen")]
    made: Option<String>,
    /// The paper
    #[arg(long, value_enum, default_value_t)]
    paper: PaperName,
    /// Write a sheet although the pen has errors; every page then says so
    #[arg(long)]
    anyway: bool,
    #[command(flatten)]
    units: UnitsChoice,
    #[command(flatten)]
    output: Output,
}

/// Writes sheets; 0, 1 where a pen has errors and gets none, 2 with the reason where it fails.
pub(crate) fn run(args: &SheetArgs) -> ExitCode {
    match write(args) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(reason) => terminal::ended(Err(reason)),
    }
}

/// Whether every pen got its sheet.
fn write(args: &SheetArgs) -> Result<bool, String> {
    let mut analysis = args.at.analysis(&args.file)?;
    if let Some(name) = &args.made
        && analysis.design.pen(name).is_none()
    {
        analysis = beside(args, name)?;
    }
    let pens = match &args.made {
        Some(name) => vec![made(&analysis, name)?],
        None => args.pen.pens(&analysis.design)?,
    };
    if pens.is_empty() {
        return Err(format!(
            "{} has no pen; a sheet is a pen's",
            args.file.display()
        ));
    }
    let several = pens.len() > 1;
    let judged = analysis.examined();
    let mut all = true;
    for pen in pens {
        let errors = judged.of_pen(&pen.name.text).errors();
        if errors > 0 && !args.anyway {
            let count = words::errors(errors);
            terminal::aside(format!(
                "{} has {count} and gets no sheet; quillet check says what is wrong, --anyway writes one all the same",
                pen.name.text
            ));
            all = false;
            continue;
        }
        write_one(args, &analysis, (pen, several))?;
    }
    Ok(all)
}

/// The file beside, named after the one that was made.
fn beside(args: &SheetArgs, name: &str) -> Result<Analysis, String> {
    let path = args.file.with_file_name(format!("{name}.quillet"));
    args.at.analysis(&path).map_err(|_| {
        let file = args.file.display();
        format!(
            "{file} says nothing of {name}, and {} could not be read; quillet made {file} writes one",
            path.display()
        )
    })
}

/// The one of a name that was made.
fn made<'a>(analysis: &'a Analysis, name: &str) -> Result<&'a Pen, String> {
    let made = |it: &&Pen| it.made.is_some();
    let found = analysis.design.pen(name);
    found.filter(made).ok_or_else(|| {
        let pens = analysis.design.pens.iter();
        let names: Vec<&str> = pens.filter(made).map(|it| &*it.name.text).collect();
        match names.is_empty() {
            true => format!("{name} is not one that was made, and there is none"),
            false => format!(
                "{name} is not one that was made; there is {}",
                names.join(", ")
            ),
        }
    })
}

fn write_one(
    args: &SheetArgs,
    analysis: &Analysis,
    (pen, several): (&Pen, bool),
) -> Result<(), String> {
    let path = args.output.path_of(&args.file, &pen.name.text, several)?;
    let paper: Paper = args.paper.into();
    let form = ending(&path);
    if !["html", "htm", "pdf", "txt", "json"].contains(&form.as_str()) {
        return Err(wrong_ending("a sheet", ".html, .pdf, .txt or .json", &form));
    }
    let (design, judged) = (&analysis.design, analysis.examined());
    let content = sheet::content(design, pen, judged, args.units.of(design));
    let bytes = match form.as_str() {
        "pdf" => {
            let pages = sheet::pages(&content, paper);
            note_lacking(&pages);
            quillet_export::write::pdf(&content.title, &pages)
        }
        "txt" => sheet::text(&content).into_bytes(),
        "json" => sheet::json(&content).into_bytes(),
        _ => {
            note_lacking(&sheet::pages(&content, paper));
            sheet::html(&content, paper).into_bytes()
        }
    };
    args.output.write(&path, &bytes)
}

/// Says which letters the font lacks.
fn note_lacking(pages: &[Scene]) {
    let lacking: BTreeSet<char> = pages.iter().flat_map(Scene::lacking).collect();
    if !lacking.is_empty() {
        let letters: Vec<String> = lacking.iter().map(char::to_string).collect();
        terminal::aside(format!(
            "the sheet's font has no {}; □ stands for it",
            letters.join(" ")
        ));
    }
}
