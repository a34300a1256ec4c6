//! `quillet solid`: parts as solids for other programs.

use crate::at::At;
use crate::choice::PenChoice;
use crate::output::{Output, called, ending, wrong_ending};
use crate::warn::OmissionWarnings;
use crate::{terminal, warn};
use quillet_export::solid::{self, SolidForm};
use quillet_model::{Configured, Pen};
use quillet_pen::Chosen;
use std::io::{self, ErrorKind, Write};
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;

/// What `quillet solid` may be asked.
#[derive(clap::Args)]
pub(crate) struct SolidArgs {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    at: At,
    #[command(flatten)]
    pen: PenChoice,
    /// One part alone
    #[arg(long, value_name = "NAME")]
    part: Option<String>,
    /// The pen put together, instead of its parts one behind the other
    #[arg(
        long,
        value_enum,
        conflicts_with = "part",
        num_args = 0..=1,
        require_equals = true,
        default_missing_value = "capped"
    )]
    assembled: Option<HeldPen>,
    /// What is bought too, each as a body of its own
    #[arg(long, conflicts_with = "part")]
    with_bought: bool,
    /// How far the faces of a mesh (.stl, .3mf) may stray, mm: from 0.001 to 1
    #[arg(long, default_value_t = 0.01, value_name = "MM")]
    tolerance: f64,
    #[command(flatten)]
    output: Output,
}

/// How a pen that is put together is held.
#[derive(Clone, Copy, clap::ValueEnum)]
enum HeldPen {
    /// Closed
    Capped,
    /// Open, the cap laid aside
    Uncapped,
    /// Open, the cap on the tail
    Posted,
}

impl From<HeldPen> for Configured {
    fn from(held: HeldPen) -> Configured {
        match held {
            HeldPen::Capped => Configured::Capped,
            HeldPen::Uncapped => Configured::Uncapped,
            HeldPen::Posted => Configured::Posted,
        }
    }
}

/// Writes solids; 0, 1 where something that is not known was left out, 2 with the reason where there
/// is none.
pub(crate) fn run(args: &SolidArgs) -> ExitCode {
    terminal::ended_with(write(args))
}

fn write(args: &SolidArgs) -> Result<ExitCode, String> {
    // Finer, a mesh would take more memory than there is and no machine could follow it.
    if !(0.001..=1.0).contains(&args.tolerance) {
        return Err("--tolerance is a length from 0.001 to 1 mm, as 0.01".into());
    }
    let analysis = args.at.analysis(&args.file)?;
    let design = &analysis.design;
    warn::errors(analysis.examined());
    let pens = args.pen.pens(design)?;
    let mut parts = quillet_pen::parts(design, &pens, args.part.as_deref())?;
    if args.with_bought {
        let bought = bought(&pens, &parts);
        parts.extend(bought);
    }
    let mut left_out = OmissionWarnings::default();
    let assembled = args.assembled.is_some();
    parts.retain(|(pen, part)| match pen.filter(|_| assembled) {
        Some(pen) => left_out.is_settled(pen),
        None => left_out.is_known(part, part.lacks_shape()),
    });
    if parts.is_empty() {
        terminal::aside("there is no solid left to write; quillet check says what is wrong");
        return Ok(left_out.code());
    }
    let held = args.assembled.map(Configured::from);
    let bodies = solid::laid(&pens, &parts, held, args.with_bought)?;
    let title = called(&args.file, args.part.as_deref());
    let path = args.output.path(&args.file, &format!("{title}.step"));
    let form = ending(&path);
    let form = SolidForm::named(&form)
        .ok_or_else(|| wrong_ending("a solid", ".step, .stl or .3mf", &form))?;
    parts.iter().for_each(|it| left_out.says_round(it.1, form));
    let solid = |out: &mut dyn Write| {
        solid::write(&title, &bodies, form, args.tolerance, out).map_err(|error| {
            match error.kind() {
                // It cannot be written in any other place either.
                ErrorKind::FileTooLarge => {
                    io::Error::other(format!("{error}; say a larger --tolerance"))
                }
                _ => error,
            }
        })
    };
    args.output.write_with(&path, solid)?;
    Ok(left_out.code())
}

/// What the pens have that is bought, O-rings in their grooves too, each once.
fn bought<'d>(pens: &[&'d Pen], parts: &[Chosen<'d>]) -> Vec<Chosen<'d>> {
    let mut found: Vec<Chosen> = Vec::new();
    for pen in pens {
        let rings = pen.assembly.rings.iter().map(|it| &it.ring);
        for part in pen.parts.iter().filter(|it| it.is_bought()).chain(rings) {
            let known = parts.iter().chain(&found);
            if known.into_iter().all(|it| !Arc::ptr_eq(it.1, part)) {
                found.push((Some(pen), part));
            }
        }
    }
    found
}
