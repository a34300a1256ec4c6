//! A picture of the pen or part at the cursor, with its measures.

use crate::facts::{configurations, round};
use crate::{Analysis, Cursor};
use quillet_export::draw;
use quillet_export::write::{Ground, svg};
use quillet_model::{Part, Pen};

/// A picture with its measures.
#[derive(Clone, Debug, PartialEq)]
pub struct Preview {
    /// The pen or part.
    pub name: String,
    /// Its title, or its name where it has none.
    pub title: String,
    /// The part; or the pen put together, where it can be, and then each of its parts.
    pub pictures: Vec<Picture>,
    /// What was measured: what it is, and its value with its unit.
    pub measures: Vec<(String, String)>,
}

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The part or pen.
    pub name: String,
    /// SVG, dark or light as the viewer prefers.
    pub svg: String,
}

/// How wide a picture is drawn.
const WIDTH_MM: f64 = 160.0;

/// The pen or part the cursor is in; where it is in neither, the file's last pen or part.
pub fn preview(cursor: Cursor<'_>) -> Option<Preview> {
    let design = &cursor.analysis.design;
    let here =
        |span: quillet_syntax::Span| span.file == cursor.file.id && span.touches(cursor.offset);
    let own = |span: quillet_syntax::Span| span.file == cursor.file.id;
    if let Some(part) = design.parts.iter().find(|part| here(part.span)) {
        return of_part(part);
    }
    let mut pens = design.pens.iter();
    if let Some(pen) = pens
        .clone()
        .find(|pen| here(pen.span))
        .or_else(|| pens.rfind(|pen| own(pen.span)))
    {
        return of_pen(pen);
    }
    design
        .parts
        .iter()
        .rfind(|part| own(part.span))
        .and_then(|part| of_part(part))
}

/// The pen or part of a name.
pub fn preview_of(analysis: &Analysis, name: &str) -> Option<Preview> {
    let pen = analysis.design.pen(name).and_then(of_pen);
    pen.or_else(|| analysis.design.part(name).and_then(|part| of_part(part)))
}

fn of_part(part: &Part) -> Option<Preview> {
    let mut measures = vec![("length".to_owned(), part.length.to_string())];
    if let Some(mass) = part.weigh() {
        measures.push(("mass".into(), format!("{} g", round(mass.mass_g, 2))));
    }
    Some(Preview {
        name: part.name.text.to_string(),
        title: title(part.title.as_ref(), &part.name.text),
        pictures: vec![picture(part)?],
        measures,
    })
}

fn of_pen(pen: &Pen) -> Option<Preview> {
    let mut measures = Vec::new();
    for (which, it) in configurations(pen) {
        let word = which.word();
        measures.push((
            format!("length {word}"),
            format!("{} mm", round(it.length_mm, 1)),
        ));
        measures.push((
            format!("mass {word}"),
            format!("{} g", round(it.filled.mass_g, 1)),
        ));
        measures.push((
            format!("balance {word}"),
            format!("{} mm", round(it.filled.centre_mm, 1)),
        ));
    }
    let whole = draw::overview(pen, WIDTH_MM).map(|overview| Picture {
        name: pen.name.text.to_string(),
        svg: svg(&overview.scene, Ground::Picture),
    });
    let parts = pen.parts.iter().filter_map(|part| picture(part));
    Some(Preview {
        name: pen.name.text.to_string(),
        title: title(pen.title.as_ref(), &pen.name.text),
        pictures: whole.into_iter().chain(parts).collect(),
        measures,
    })
}

fn picture(part: &Part) -> Option<Picture> {
    let scene = draw::preview(part, WIDTH_MM)?;
    Some(Picture {
        name: part.name.text.to_string(),
        svg: svg(&scene, Ground::Picture),
    })
}

fn title(title: Option<&quillet_syntax::ast::Text>, name: &str) -> String {
    title.map_or(name, |title| &title.text).to_owned()
}
