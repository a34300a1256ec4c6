//! Which pen or part of a file a command is about.

use quillet_model::{Design, Part, Pen};
use std::sync::Arc;

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

    /// The one pen that is meant; none where the file has none.
    ///
    /// # Errors
    ///
    /// As [`PenChoice::pens`], and where there are several.
    pub(crate) fn pen<'d>(&self, design: &'d Design) -> Result<Option<&'d Pen>, String> {
        let pens = self.pens(design)?;
        match pens[..] {
            [] => Ok(None),
            [pen] => Ok(Some(pen)),
            _ => {
                let names: Vec<&str> = pens.iter().map(|pen| &*pen.name.text).collect();
                Err(format!(
                    "there are several pens; say --pen {}",
                    names.join(" or --pen ")
                ))
            }
        }
    }
}

/// The part of a name, as a pen sees it.
///
/// # Errors
///
/// A sentence that names the parts there are.
pub(crate) fn part<'d>(
    design: &'d Design,
    pen: Option<&'d Pen>,
    name: &str,
) -> Result<&'d Arc<Part>, String> {
    let in_pen = pen.and_then(|pen| pen.parts.get(pen.part_index(name)?));
    in_pen.or_else(|| design.part(name)).ok_or_else(|| {
        unknown(
            "part",
            name,
            design.parts.iter().map(|part| &*part.name.text),
        )
    })
}

fn unknown<'a>(what: &str, name: &str, known: impl Iterator<Item = &'a str>) -> String {
    let known: Vec<&str> = known.collect();
    match known[..] {
        [] => format!("there is no {what} {name}; the file has none"),
        _ => format!("there is no {what} {name}; there is {}", known.join(", ")),
    }
}

/// The parts that the maker cuts: the pen's, or the file's where it has no pen.
pub(crate) fn cut_parts<'d>(design: &'d Design, pen: Option<&'d Pen>) -> Vec<&'d Arc<Part>> {
    let parts = pen.map_or(&design.parts, |pen| &pen.parts);
    parts.iter().filter(|part| !part.bought).collect()
}
