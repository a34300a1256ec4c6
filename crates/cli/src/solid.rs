//! `quillet solid`: parts as solids for other programs.

use crate::choice::{self, PenChoice};
use crate::output::{Output, ending, stem};
use crate::{disk, warn};
use quillet_export::solid::{self, Body, Mesh};
use quillet_model::Part;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet solid` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    pen: PenChoice,
    /// One part alone
    #[arg(long, value_name = "NAME")]
    part: Option<String>,
    /// How far the faces of a mesh (.stl, .3mf) may stray, mm
    #[arg(long, default_value_t = 0.01, value_name = "MM")]
    tolerance: f64,
    #[command(flatten)]
    output: Output,
}

/// Writes solids; 0, or 2 with the reason where there is none.
pub(crate) fn run(args: &Args) -> ExitCode {
    warn::ended(write(args))
}

fn write(args: &Args) -> Result<(), String> {
    if !(args.tolerance > 0.0 && args.tolerance <= 1.0) {
        return Err("--tolerance is a length above 0 and at most 1 mm, as 0.01".into());
    }
    let design = disk::design(&args.file)?;
    warn::errors(&design);
    let pens = args.pen.pens(&design)?;
    let parts = choice::parts(&design, &pens, args.part.as_deref())?;
    let named = |at: usize| {
        let (pen, part) = parts[at];
        let before = parts[..at]
            .iter()
            .any(|(_, other)| other.name.text == part.name.text);
        // The same part as another pen sees it.
        match pen.filter(|_| before) {
            Some(pen) => format!("{} ({})", part.name.text, pen.name.text),
            None => part.name.text.to_string(),
        }
    };
    let bodies = parts
        .iter()
        .enumerate()
        .map(|(at, (_, part))| body(part, named(at)));
    let bodies: Vec<Body> = bodies.collect::<Result<_, _>>()?;
    let name = args
        .part
        .as_ref()
        .map_or_else(String::new, |part| format!("-{part}"));
    let path = args
        .output
        .path(&args.file, &format!("{}{name}.step", stem(&args.file)));
    let title = format!("{}{name}", stem(&args.file));
    let meshes = || -> Vec<(String, Mesh)> {
        let mesh = |body: &Body| (body.name.clone(), solid::mesh(body, args.tolerance));
        bodies.iter().map(mesh).collect()
    };
    let bytes = match ending(&path).as_str() {
        "step" | "stp" => solid::step(&title, &bodies).into_bytes(),
        "3mf" => solid::threemf(&title, &meshes()),
        "stl" => {
            let meshes: Vec<Mesh> = meshes().into_iter().map(|(_, mesh)| mesh).collect();
            solid::stl(&meshes)
        }
        other => {
            return Err(format!(
                "a solid is written as .step, .stl or .3mf, not {other:?}"
            ));
        }
    };
    args.output.write(&path, &bytes)
}

fn body(part: &Part, name: String) -> Result<Body, String> {
    let profiles = part
        .profiles
        .as_ref()
        .ok_or_else(|| format!("{name} has no shape yet; see what quillet check says"))?;
    let metal = &profiles.metal;
    Body::new(name.clone(), &metal.outer, &metal.inner).map_err(|broken| {
        format!(
            "{name}: the bore breaks through the outside at {:.3} mm",
            broken.z_mm
        )
    })
}
