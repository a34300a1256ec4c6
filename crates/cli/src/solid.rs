//! `quillet solid`: parts as solids for other programs.

use crate::at::At;
use crate::choice::{self, Chosen, PenChoice};
use crate::output::{Output, called, ending, wrong_ending};
use crate::warn::OmissionWarnings;
use crate::{terminal, warn};
use quillet_export::solid::{self, Body, BrokenThrough, NamedMesh};
use quillet_model::{Configured, Part, Pen, Placement};
use std::collections::HashSet;
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

/// Between parts that lie one behind the other, mm.
const APART_MM: f64 = 10.0;
/// Between the seams of two bodies, rad: by the golden angle no two fall together.
const APART_RAD: f64 = 2.399_963;

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
    let mut parts = choice::parts(design, &pens, args.part.as_deref())?;
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
    let bodies = bodies(args, &pens, &parts, &mut left_out)?;
    let title = called(&args.file, args.part.as_deref());
    let path = args.output.path(&args.file, &format!("{title}.step"));
    let meshes = bodies.iter().enumerate().map(|(at, body)| NamedMesh {
        name: body.name.clone(),
        colour: body.colour,
        mesh: solid::mesh(body, args.tolerance).turned(at as f64 * APART_RAD),
    });
    let bytes = match ending(&path).as_str() {
        "step" | "stp" => solid::step(&title, &bodies).into_bytes(),
        "3mf" => {
            let colours = bodies.iter().filter_map(|body| body.colour);
            solid::threemf(&title, colours, meshes)
                .map_err(|_| "the model is longer than .3mf can hold; say a larger --tolerance")?
        }
        "stl" => solid::stl(meshes.map(|it| it.mesh)),
        other => {
            return Err(wrong_ending("a solid", ".step, .stl or .3mf", other));
        }
    };
    args.output.write(&path, &bytes)?;
    Ok(left_out.code())
}

/// All bodies, each where it lies.
fn bodies(
    args: &SolidArgs,
    pens: &[&Pen],
    parts: &[Chosen],
    left_out: &mut OmissionWarnings,
) -> Result<Vec<Body>, String> {
    let mut names = HashSet::new();
    let mut named = |pen: Option<&Pen>, part: &Part| {
        // The same part as another pen sees it.
        let before = !names.insert(part.name.text.clone());
        match pen.filter(|_| before) {
            Some(pen) => format!("{} ({})", part.name.text, pen.name.text),
            None => part.name.text.to_string(),
        }
    };
    let mut bodies: Vec<Body> = Vec::new();
    let mut end_mm = 0.0;
    for (pen, part) in parts {
        let place = match args.assembled {
            Some(held) => match in_pen(*pen, part, held.into())? {
                Some(place) => place,
                None => continue,
            },
            None => Placement {
                offset_mm: end_mm,
                reversed: false,
            },
        };
        let name = named(*pen, part);
        left_out.says_round(part);
        let broken = |broken: BrokenThrough| {
            let z_mm = place.station(broken.z_mm);
            format!("{name}: the bore breaks through the outside at {z_mm:.3} mm")
        };
        let own = solid::bodies(part, &name, place).map_err(broken)?;
        if own.is_empty() {
            return Err(format!(
                "{name} has no shape yet; see what quillet check says"
            ));
        }
        bodies.extend(own);
        end_mm += part.length.to_mm() + APART_MM;
    }
    // What is put together has its O-rings in their grooves.
    if let Some(held) = args.assembled.filter(|_| args.with_bought) {
        let settled = pens.iter().filter(|pen| pen.is_settled());
        let there = settled.filter_map(|pen| Some((pen, pen.assembly.configuration(held.into())?)));
        bodies.extend(there.flat_map(|(pen, held)| solid::rings(pen, held)));
    }
    Ok(bodies)
}

/// Where a part of a pen lies; none where it is not there, as a cap that is laid aside.
fn in_pen(pen: Option<&Pen>, part: &Part, held: Configured) -> Result<Option<Placement>, String> {
    let Some(pen) = pen else {
        return Err("there is no pen in this file to put together".into());
    };
    let name = &pen.name.text;
    let configuration = pen.assembly.configuration(held);
    let configuration = configuration
        .ok_or_else(|| format!("{name} cannot be shown {}: no joint says so", held.word()))?;
    let index = pen.part_id(&part.name.text);
    Ok(index.and_then(|index| configuration.places[index]))
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
