//! `quillet spread`: how many pens of those that a hand makes pass, and what they come to.

use crate::at::At;
use crate::choice::{NO_PEN, PenChoice};
use crate::progress::Progress;
use crate::room::{Format, Until};
use crate::terminal;
use quillet_export::report::{Spreads, rounded};
use quillet_room::spread::{Case, Hands, USUAL_CASES, USUAL_SEED};
use rayon::prelude::*;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet spread` may be asked.
#[derive(clap::Args)]
pub(crate) struct SpreadArgs {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// How many pens are made
    #[arg(long, value_name = "COUNT", default_value_t = USUAL_CASES)]
    cases: u32,
    /// What the draws begin from: the same seed gives the same pens
    #[arg(long, default_value_t = USUAL_SEED)]
    seed: u64,
    /// What fails a pen: findings as grave as this
    #[arg(long, value_enum, default_value_t)]
    until: Until,
    /// How to print it
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// Prints how many pass; 0, or 2 with the reason where a pen has errors already as it is drawn.
pub(crate) fn run(args: &SpreadArgs) -> ExitCode {
    terminal::ended(work(args))
}

fn work(args: &SpreadArgs) -> Result<(), String> {
    let analysis = args.at.analysis(&args.file)?;
    let design = &analysis.design;
    let pens = args.pen.pens(design)?;
    if pens.is_empty() {
        return Err(NO_PEN.to_owned());
    }
    let until = args.until.into();
    let mut made = Vec::new();
    for pen in &pens {
        let hands = Hands::of(design, pen, (args.cases, args.seed), until)
            .map_err(|it| format!("{}: {it}", pen.name.text))?;
        made.push((*pen, hands));
    }
    let made: Vec<_> = made
        .iter()
        .map(|(pen, hands)| (*pen, hands, cases(hands)))
        .collect();
    let spreads = Spreads::of(design, until, &made);
    match args.format {
        Format::Text => terminal::out(&spreads.text()),
        Format::Json => terminal::json(&rounded(&spreads)),
        Format::Csv => terminal::out(&spreads.csv()),
    }
}

/// All cases in their order, whatever thread made them.
fn cases(hands: &Hands<'_>) -> Vec<Case> {
    let progress = Progress::of(hands.cases().len(), "pens");
    let all = hands.cases().into_par_iter();
    all.map_init(
        || hands.workplace(),
        |workplace, nth| {
            let case = hands.case(workplace, nth);
            progress.step();
            case
        },
    )
    .collect()
}
