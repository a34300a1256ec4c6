//! What is taken to the lathe, or to another program: sheets, solids, drawings.

use crate::opened::Opened;
use crate::question::{Made, Paper, Sheet};
use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use quillet_export::draw::{self, PartTitle};
use quillet_export::scene::Scene;
use quillet_export::sheet as sheets;
use quillet_export::solid::{self, SolidForm};
use quillet_export::write::{Background, DrawingForm};
use quillet_model::{Configured, Design, Pen};
use serde::Serialize;

/// How far the faces of a mesh may stray, mm.
const TOLERANCE_MM: f64 = 0.01;

/// A file to be saved.
#[derive(Serialize)]
pub(super) struct FileAnswer {
    name: String,
    /// Its bytes, as base64.
    bytes: String,
}

impl FileAnswer {
    fn of(name: &str, form: &str, bytes: &[u8]) -> Self {
        Self {
            name: format!("{name}.{form}"),
            bytes: BASE64_STANDARD.encode(bytes),
        }
    }
}

/// The sheet of a pen as PDF.
///
/// # Errors
///
/// Where there is no such pen, or it has errors.
pub(super) fn sheet(open: &Opened, asked: &Sheet) -> Result<FileAnswer, String> {
    let design = &open.analysis.design;
    let pen =
        pen(design, asked.pen.as_deref())?.ok_or("there is no pen here; a sheet is a pen's")?;
    let judged = open.analysis.examined();
    let name = &*pen.name.text;
    let errors = judged.of_pen(name).errors();
    if errors > 0 {
        let errors = quillet_model::words::errors(errors);
        return Err(format!("{name} has {errors} and gets no sheet"));
    }
    let content = sheets::content(design, pen, judged, design.units());
    let pdf = sheets::pdf(&content, asked.paper.into());
    Ok(FileAnswer::of(name, "pdf", &pdf))
}

/// A part as a solid; without one, the parts of a pen put together.
///
/// # Errors
///
/// Where there is no such part, it has no shape, or that is no form of a solid.
pub(super) fn solid(open: &Opened, asked: &Made) -> Result<FileAnswer, String> {
    let form = SolidForm::named(&asked.form)
        .ok_or_else(|| format!("a solid is a step, stl or 3mf, not {:?}", asked.form))?;
    let design = &open.analysis.design;
    let pen = pen(design, asked.pen.as_deref())?;
    let pens: Vec<&Pen> = pen.into_iter().collect();
    let parts = quillet_pen::parts(design, &pens, asked.part.as_deref())?;
    let held = pen.filter(|it| asked.part.is_none() && it.is_settled());
    let bodies = solid::laid(&pens, &parts, held.map(|_| Configured::Capped), false)?;
    let name = called(asked, pen);
    let mut bytes = Vec::new();
    solid::write(&name, &bodies, form, TOLERANCE_MM, &mut bytes)
        .map_err(|error| format!("the model is {error}"))?;
    Ok(FileAnswer::of(&name, &asked.form, &bytes))
}

/// A drawing of a part; without one, of a pen put together.
///
/// # Errors
///
/// Where there is no such part or pen, it has no shape, or that is no form of a drawing.
pub(super) fn draw(open: &Opened, asked: &Made) -> Result<FileAnswer, String> {
    let design = &open.analysis.design;
    let pen = pen(design, asked.pen.as_deref())?;
    let scene = scene(design, pen, asked)?;
    let scene = scene.ok_or("it has no shape yet; see what is found")?;
    let name = called(asked, pen);
    let bytes = DrawingForm::named(&asked.form)
        .and_then(|form| form.write(&name, &[scene], Background::Paper))
        .ok_or_else(|| {
            let endings = DrawingForm::endings();
            format!("a drawing is written as {endings}, not {:?}", asked.form)
        })?;
    Ok(FileAnswer::of(&name, &asked.form, &bytes))
}

fn scene(design: &Design, pen: Option<&Pen>, asked: &Made) -> Result<Option<Scene>, String> {
    let (paper, units) = (asked.paper.into(), design.units());
    let title = |part| PartTitle::of(design, (pen, part), (1, 1), units);
    let Some(name) = asked.part.as_deref() else {
        let pen = pen.ok_or("there is no pen here to be put together")?;
        return Ok(draw::pen(pen, paper, &title(None)));
    };
    let pens: Vec<&Pen> = pen.into_iter().collect();
    let parts = quillet_pen::parts(design, &pens, Some(name))?;
    let part = parts.first().map(|it| &**it.1);
    Ok(part.and_then(|it| draw::part(it, paper, &title(Some(it)))))
}

/// The pen of a name; without one, the file's first.
fn pen<'d>(design: &'d Design, name: Option<&str>) -> Result<Option<&'d Pen>, String> {
    Ok(quillet_pen::pens(design, name)?.first().copied())
}

fn called(asked: &Made, pen: Option<&Pen>) -> String {
    let pen = pen.map(|it| it.name.text.to_string());
    asked.part.clone().or(pen).unwrap_or_default()
}

impl From<Paper> for draw::Paper {
    fn from(paper: Paper) -> Self {
        match paper {
            Paper::A4 => draw::Paper::A4,
            Paper::Letter => draw::Paper::Letter,
        }
    }
}
