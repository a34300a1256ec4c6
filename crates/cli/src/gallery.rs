//! `quillet gallery`: the pens of a folder on one page.

use crate::output::Output;
use crate::{disk, files, terminal};
use quillet_export::book::{self, Card};
use quillet_model::Pen;
use quillet_pen::Analysis;
use quillet_syntax::{Finding, Severity};
use rayon::prelude::*;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What `quillet gallery` may be asked.
#[derive(clap::Args)]
pub(crate) struct GalleryArgs {
    /// Files, or folders with all files in and below them
    #[arg(required = true)]
    paths: Vec<PathBuf>,
    /// Where the page of the checker stands: each card then has a link that opens its pen there
    #[arg(long, value_name = "ADDRESS")]
    page: Option<String>,
    #[command(flatten)]
    output: Output,
}

/// Writes the page; 0, or 2 with the reason where there is none or a file is left out.
pub(crate) fn run(args: &GalleryArgs) -> ExitCode {
    terminal::ended_with(write(args))
}

fn write(args: &GalleryArgs) -> Result<ExitCode, String> {
    let mut found = files::find(&args.paths);
    let source = disk::source_of(&mut found.files, &mut found.problems);
    found.problems.iter().for_each(terminal::aside);
    let read = found.files.par_iter();
    let cards: Vec<Vec<Card>> = read
        .map(|path| {
            let shown = shown(path, &args.paths);
            match disk::analysis_from(path, &source) {
                Ok(analysis) => cards(&shown, &analysis, args.page.as_deref()),
                Err(reason) => vec![empty(&shown, reason)],
            }
        })
        .collect();
    let cards = cards.into_iter().flatten().map(|card| Card {
        wrong: card.wrong.map(|it| without_folders(&it, &args.paths)),
        ..card
    });
    let cards: Vec<Card> = cards.collect();
    if cards.is_empty() {
        return Err("there is no pen to show; name a folder that holds one".into());
    }
    let folder = args.paths.first().and_then(|it| it.file_name());
    let title = folder.map_or_else(|| "Pens".into(), |it| it.to_string_lossy().into_owned());
    let path = args.output.path(Path::new("gallery"), "gallery.html");
    args.output
        .write(&path, book::gallery(&title, &cards).as_bytes())?;
    Ok(match found.problems.is_empty() {
        true => ExitCode::SUCCESS,
        false => ExitCode::from(2),
    })
}

/// A card for each pen that a file writes; one for a file that is to have pens and cannot be read.
fn cards(shown: &str, analysis: &Analysis, page: Option<&str>) -> Vec<Card> {
    let design = &analysis.design;
    let found = &analysis.examined().findings;
    let errors: Vec<&Finding> = found
        .iter()
        .filter(|it| it.severity == Severity::Error)
        .collect();
    let pens = quillet_pen::pens(design, None).unwrap_or_default();
    if let ([], [first, ..]) = (&pens[..], &errors[..]) {
        return vec![empty(shown, first.message.to_string())];
    }
    let link = page.map(|page| {
        let files = analysis.files().iter();
        book::link(page, files.map(|it| (name(&it.path), &*it.text)))
    });
    let of = |pen: &Pen| Card {
        wrong: (!errors.is_empty()).then(|| count(errors.len())),
        file: Some(shown.to_owned()),
        link: link.clone(),
        ..Card::of(pen, design.units())
    };
    pens.into_iter().map(of).collect()
}

fn count(errors: usize) -> String {
    match errors {
        1 => "1 error; quillet check says which".into(),
        many => format!("{many} errors; quillet check says which"),
    }
}

/// A file as the page calls it, which may be read elsewhere: from the last name of the folder that was given.
fn shown(path: &Path, given: &[PathBuf]) -> String {
    let below = given.iter().find_map(|it| {
        let beside = it.parent().filter(|_| it.file_name().is_some());
        path.strip_prefix(it).ok()?;
        path.strip_prefix(beside.unwrap_or(it)).ok()
    });
    below.unwrap_or(path).display().to_string()
}

/// The same for a sentence that names files.
fn without_folders(words: &str, given: &[PathBuf]) -> String {
    let above = given.iter().filter_map(|it| it.parent());
    let above = above.filter(|it| it.parent().is_some());
    let above = above.map(|it| it.join("").display().to_string());
    above.fold(words.to_owned(), |words, it| words.replace(&it, ""))
}

fn empty(shown: &str, wrong: String) -> Card {
    Card {
        title: shown.to_owned(),
        file: None,
        drawing: None,
        figures: Vec::new(),
        note: None,
        wrong: Some(wrong),
        link: None,
    }
}

fn name(path: &Path) -> String {
    path.file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned()
}
