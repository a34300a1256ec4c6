//! Which pen or part of a file a command is about.

use quillet_model::{Design, Part, Pen, Units};
use std::collections::HashSet;
use std::sync::Arc;

/// What sizes are told in.
#[derive(clap::Args)]
pub(crate) struct UnitsChoice {
    /// What sizes are told in, whatever the file is in; JSON is always in mm
    #[arg(long, value_enum, value_name = "UNIT")]
    units: Option<UnitsName>,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum UnitsName {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

impl UnitsChoice {
    /// What was asked for, else the file's own.
    pub(crate) fn of(&self, design: &Design) -> Units {
        match self.units {
            Some(UnitsName::Mm) => Units::Millimetres,
            Some(UnitsName::In) => Units::Inches,
            None => design.units(),
        }
    }
}

/// Which pen of a file.
#[derive(clap::Args)]
pub(crate) struct PenChoice {
    /// The pen, where the file has several
    #[arg(long, value_name = "NAME")]
    pub(crate) pen: Option<String>,
}

impl PenChoice {
    /// The pens of the file asked for that are meant: the one named, or all it defines itself.
    ///
    /// # Errors
    ///
    /// A sentence that names the pens there are.
    pub(crate) fn pens<'d>(&self, design: &'d Design) -> Result<Vec<&'d Pen>, String> {
        let root = design.root().map(|file| file.id);
        let own: Vec<&Pen> = design
            .pens
            .iter()
            .filter(|pen| Some(pen.span.file) == root)
            .collect();
        match &self.pen {
            None => Ok(own),
            Some(name) => match design.pen(name) {
                Some(pen) => Ok(vec![pen]),
                None => Err(unknown(
                    "pen",
                    name,
                    design.pens.iter().map(|pen| &*pen.name.text),
                )),
            },
        }
    }
}

/// A part with the pen that sees it so; none where it is in no pen.
pub(crate) type Chosen<'d> = (Option<&'d Pen>, &'d Arc<Part>);

/// The parts that are cut for some pens, each once however many pens share it; all those of the
/// file where there is no pen. With a name, the part of that name alone, bought or not.
///
/// # Errors
///
/// A sentence that names the parts there are.
pub(crate) fn parts<'d>(
    design: &'d Design,
    pens: &[&'d Pen],
    name: Option<&str>,
) -> Result<Vec<Chosen<'d>>, String> {
    let in_pens = pens
        .iter()
        .flat_map(|pen| pen.parts.iter().map(|part| (Some(*pen), part)));
    let alone = design
        .parts
        .iter()
        .map(|part| (None, part))
        .filter(|_| pens.is_empty() || name.is_some());
    let wanted = |part: &Part| match name {
        Some(name) => &*part.name.text == name,
        None => !part.is_bought(),
    };
    let mut found: Vec<Chosen> = Vec::new();
    let (mut same, mut names) = (HashSet::new(), HashSet::new());
    for (pen, part) in in_pens.chain(alone).filter(|(_, part)| wanted(part)) {
        let new = same.insert(Arc::as_ptr(part));
        let named = !names.insert(&*part.name.text);
        if new && (pen.is_some() || !named) {
            found.push((pen, part));
        }
    }
    match (name, found.is_empty()) {
        (Some(name), true) => Err(unknown(
            "part",
            name,
            design.parts.iter().map(|part| &*part.name.text),
        )),
        (None, true) => Err("there is no part in this file that is cut".into()),
        _ => Ok(found),
    }
}

fn unknown<'a>(what: &str, name: &str, known: impl Iterator<Item = &'a str>) -> String {
    let known: Vec<&str> = known.collect();
    match known[..] {
        [] => format!("there is no {what} {name}; the file has none"),
        _ => format!("there is no {what} {name}; there is {}", known.join(", ")),
    }
}
