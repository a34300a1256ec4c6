//! `quillet draw --over`, `--with`: an old design under the new one.

use super::DrawArgs;
use crate::disk;
use quillet_export::draw;
use quillet_export::picture::{self, PartOf};
use quillet_export::scene::Scene;
use quillet_model::{Design, Part, Pen};
use quillet_pen::Analysis;
use std::sync::Arc;

/// Each part that is asked for and differs, over its old shape.
///
/// # Errors
///
/// A sentence that says what there is instead.
pub(super) fn over(args: &DrawArgs, new: &Analysis, pens: &[&Pen]) -> Result<Vec<Scene>, String> {
    let asked = &args.pictures;
    let read: Analysis;
    let (old, from) = match (&asked.over, &asked.with) {
        (Some(path), _) => {
            read = disk::analysis(path)?;
            (&read, path.display().to_string())
        }
        (None, with) => (new, with.clone().unwrap_or_default()),
    };
    let before = Before::of(
        &old.design,
        asked.with.as_deref().or(args.pen.pen.as_deref()),
    )?;
    let now = quillet_pen::parts(&new.design, pens, args.part.as_deref())?;
    let now: Vec<&Arc<Part>> = now.into_iter().map(|it| it.1).collect();
    let pairs = now
        .iter()
        .filter_map(|part| Some((before.part(&part.name.text)?, *part)));
    let pairs: Vec<(&Arc<Part>, &Arc<Part>)> = pairs.collect();
    if pairs.is_empty() {
        return Err(before.lacks(&from, &now));
    }
    let shapeless = pairs
        .iter()
        .flat_map(|pair| [pair.0, pair.1])
        .find(|it| it.profiles.is_none());
    if let Some(part) = shapeless {
        let name = &part.name.text;
        return Err(format!(
            "{name} has no shape yet; see what quillet check says"
        ));
    }
    let differing = pairs.into_iter().filter(|(was, is)| draw::differs(was, is));
    let units = args.units.of(&new.design);
    let scenes = differing.filter_map(|(was, is)| {
        let (old, new) = ((old, was), (new, is));
        let [old, new] = [old, new].map(|(analysis, part)| PartOf { analysis, part });
        picture::overlay(old, new, units)
    });
    let scenes: Vec<Scene> = scenes.collect();
    match scenes.is_empty() {
        true => Err(format!(
            "there is nothing to show: no shape differs from {from}"
        )),
        false => Ok(scenes),
    }
}

/// Where the old shapes are.
struct Before<'a> {
    design: &'a Design,
    pen: Option<&'a Pen>,
}

impl<'a> Before<'a> {
    /// A design, or a pen of it where it has one of that name; its first pen's where no name is said.
    fn of(design: &'a Design, name: Option<&str>) -> Result<Before<'a>, String> {
        let pen = name.and_then(|it| design.pen(it));
        match name {
            Some(name) if pen.is_none() => {
                let pens: Vec<&str> = design.pens.iter().map(|it| &*it.name.text).collect();
                Err(format!(
                    "there is no pen {name} to compare with; there is {}",
                    pens.join(", ")
                ))
            }
            _ => Ok(Before { design, pen }),
        }
    }

    fn part(&self, name: &str) -> Option<&'a Arc<Part>> {
        let own = |pen: &'a Pen| pen.parts.iter().find(|it| *it.name.text == *name);
        match self.pen {
            Some(pen) => own(pen),
            None => self
                .design
                .pens
                .iter()
                .find_map(own)
                .or_else(|| self.design.part(name)),
        }
    }

    fn lacks(&self, from: &str, now: &[&Arc<Part>]) -> String {
        let names = |parts: &mut dyn Iterator<Item = &Arc<Part>>| {
            parts
                .map(|it| it.name.text.to_string())
                .collect::<Vec<_>>()
                .join(", ")
        };
        let now = names(&mut now.iter().copied());
        let before = match self.pen {
            Some(pen) => names(&mut pen.parts.iter()),
            None => names(&mut self.design.parts.iter()),
        };
        format!("no part of {from} bears the same name: it has {before}; here there is {now}")
    }
}
