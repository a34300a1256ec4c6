//! Which pens and parts of a design are meant.

use quillet_model::{Design, Part, Pen};
use std::collections::HashSet;
use std::sync::Arc;

/// The pens of the file asked for that are meant: the one named, or all it defines itself.
///
/// # Errors
///
/// A sentence that names the pens there are.
pub fn pens<'d>(design: &'d Design, name: Option<&str>) -> Result<Vec<&'d Pen>, String> {
    let root = design.root().map(|file| file.id);
    let Some(name) = name else {
        let own = design.pens.iter();
        return Ok(own.filter(|pen| Some(pen.span.file) == root).collect());
    };
    match design.pen(name) {
        Some(pen) => Ok(vec![pen]),
        None => {
            let known = design.pens.iter().map(|pen| &*pen.name.text);
            Err(unknown("pen", name, known))
        }
    }
}

/// A part with the pen that sees it so; none where it is in no pen.
pub type Chosen<'d> = (Option<&'d Pen>, &'d Arc<Part>);

/// The parts that are cut for some pens, each once however many pens share it; all those of the
/// file where there is no pen. With a name, the part of that name alone, bought or not.
///
/// # Errors
///
/// A sentence that names the parts there are.
pub fn parts<'d>(
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
