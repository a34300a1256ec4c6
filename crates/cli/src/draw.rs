//! `quillet draw`: drawings of the parts.

mod over;
mod pictures;

use crate::at::At;
use crate::choice::{PenChoice, UnitsChoice};
use crate::output::{Output, called, ending, stem, wrong_ending};
use crate::warn::OmissionWarnings;
use crate::{terminal, warn};
use pictures::Pictures;
use quillet_export::draw::{self, Paper, PartTitle};
use quillet_export::scene::Scene;
use quillet_export::write::{Background, DrawingForm};
use quillet_model::Design;
use quillet_pen::Planned;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet draw` may be asked.
#[derive(clap::Args)]
pub(crate) struct DrawArgs {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// One part alone
    #[arg(long, value_name = "NAME")]
    part: Option<String>,
    /// The pen put together, without its parts one by one
    #[arg(long, conflicts_with = "part")]
    assembled: bool,
    /// The paper
    #[arg(long, value_enum, default_value_t)]
    paper: PaperName,
    #[command(flatten)]
    pictures: Pictures,
    #[command(flatten)]
    units: UnitsChoice,
    #[command(flatten)]
    output: Output,
}

/// A format of paper.
#[derive(Clone, Copy, Default, clap::ValueEnum)]
pub(crate) enum PaperName {
    /// 210 by 297 mm
    #[default]
    A4,
    /// 8½ by 11 in
    Letter,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Paper {
        match name {
            PaperName::A4 => Paper::A4,
            PaperName::Letter => Paper::Letter,
        }
    }
}

/// Draws; 0, 1 where something that is not known was left out, 2 with the reason where it fails.
pub(crate) fn run(args: &DrawArgs) -> ExitCode {
    terminal::ended_with(write(args))
}

fn write(args: &DrawArgs) -> Result<ExitCode, String> {
    let analysis = args.at.analysis(&args.file)?;
    let design = &analysis.design;
    warn::errors(analysis.examined());
    let mut left_out = OmissionWarnings::default();
    let named = called(&args.file, args.part.as_deref());
    let path = args.output.path(&args.file, &format!("{named}.pdf"));
    let (scenes, ground) = match pictures::wanted(args, &analysis, &mut left_out)? {
        Some(scenes) => (scenes, Background::Either),
        None => (scenes(args, design, &mut left_out)?, Background::Paper),
    };
    if scenes.is_empty() {
        terminal::aside("nothing is left to draw; quillet check says what is wrong");
        return Ok(left_out.code());
    }
    let title = stem(&args.file);
    let ending = ending(&path);
    let form = DrawingForm::named(&ending)
        .ok_or_else(|| wrong_ending("a drawing", &DrawingForm::endings(), &ending))?;
    let bytes = form.write(&title, &scenes, ground);
    let bytes = bytes.ok_or_else(|| holds_one(scenes.len()))?;
    args.output.write(&path, &bytes)?;
    Ok(left_out.code())
}

/// What is to be done where there are more drawings than a form holds.
fn holds_one(drawings: usize) -> String {
    format!(
        "this form holds one drawing and there are {drawings}; add --part NAME for one part or \
         --assembled for the pen put together, with --pen NAME where there are several, \
         or write a .pdf"
    )
}

fn scenes(
    args: &DrawArgs,
    design: &Design,
    left_out: &mut OmissionWarnings,
) -> Result<Vec<Scene>, String> {
    let pens = args.pen.pens(design)?;
    let mut parts = match args.assembled {
        true => Vec::new(),
        false => quillet_pen::parts(design, &pens, args.part.as_deref())?,
    };
    // In the order in which they are made, as on the sheet.
    let order: Vec<String> = pens
        .iter()
        .flat_map(|pen| {
            let routes = Planned::of_pen(design, pen).plan.routes;
            routes.into_iter().map(|it| it.part.name.text.to_string())
        })
        .collect();
    parts.sort_by_key(|(_, part)| order.iter().position(|it| **it == *part.name.text));
    parts.retain(|(_, part)| left_out.is_known(part, part.lacks_shape()));
    let mut assembled = if args.part.is_some() {
        Vec::new()
    } else {
        pens
    };
    assembled.retain(|pen| left_out.is_settled(pen));
    let count = assembled.len() + parts.len();
    let units = args.units.of(design);
    let put_together = assembled.iter().enumerate().map(|(at, pen)| {
        let title = PartTitle::of(design, (Some(pen), None), (at + 1, count), units);
        draw::pen(pen, args.paper.into(), &title).ok_or_else(|| without("the pen", &pen.name.text))
    });
    let drawn = parts.iter().enumerate().map(|(at, (pen, part))| {
        let sheet = (assembled.len() + at + 1, count);
        let title = PartTitle::of(design, (*pen, Some(part)), sheet, units);
        let drawn = draw::part(part, args.paper.into(), &title);
        drawn.ok_or_else(|| without("the part", &part.name.text))
    });
    put_together.chain(drawn).collect()
}

fn without(what: &str, name: &str) -> String {
    format!("{what} {name} has no shape yet; see what quillet check says")
}
