//! A picture of the pen or part at the cursor, with its measures.

use crate::facts::{configurations, greatest_dia, mass_in_short, state_in_short};
use crate::sizes::Sizes;
use crate::{Analysis, Cursor};
use quillet_check::{JudgedWant, PartView};
use quillet_export::picture::{self, Captioned};
use quillet_export::write::{Background, svg};
use quillet_model::{Design, End, Part, Pen, Units};
use std::sync::Arc;

/// A picture with its measures.
#[derive(Clone, Debug, PartialEq)]
pub struct Preview {
    /// The pen or part.
    pub name: String,
    /// Its title, or its name where it has none.
    pub title: String,
    /// The pen in its colours, in each way it is held, and in section; or the pen that a part is in, the
    /// part as it looks, and in section.
    pub pictures: Vec<Picture>,
    /// What the numbers in the section of a pen point at.
    pub legend: Vec<String>,
    /// What was measured: what it is, and its value with its unit.
    pub measures: Vec<(String, String)>,
}

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// What it shows, with its length.
    pub name: String,
    /// SVG, on a card of its own; it can be read in a narrow panel.
    pub svg: String,
}

/// The pen or part the cursor is in; where it is in neither, the file's last pen or part.
pub fn preview(cursor: Cursor<'_>) -> Option<Preview> {
    let analysis = cursor.analysis;
    let design = &analysis.design;
    let here =
        |span: quillet_syntax::Span| span.file == cursor.file.id && span.touches(cursor.offset);
    let own = |span: quillet_syntax::Span| span.file == cursor.file.id;
    if let Some(part) = design.parts.iter().find(|part| here(part.span)) {
        return of_part(analysis, part);
    }
    let mut pens = design.pens.iter();
    if let Some(pen) = pens
        .clone()
        .find(|pen| here(pen.span))
        .or_else(|| pens.rfind(|pen| own(pen.span)))
    {
        return of_pen(analysis, pen);
    }
    design
        .parts
        .iter()
        .rfind(|part| own(part.span))
        .and_then(|part| of_part(analysis, part))
}

/// The pen or part of a name.
pub fn preview_of(analysis: &Analysis, name: &str) -> Option<Preview> {
    let design = &analysis.design;
    let pen = design.pen(name).and_then(|pen| of_pen(analysis, pen));
    pen.or_else(|| design.part(name).and_then(|part| of_part(analysis, part)))
}

fn of_part(analysis: &Analysis, part: &Arc<Part>) -> Option<Preview> {
    let design = &analysis.design;
    let sizes = analysis.sizes();
    let mut measures = vec![("length".to_owned(), sizes.one(part.length))];
    let mut report = |what: &str, value: String| measures.push((what.to_owned(), value));
    if let Some(dia) = greatest_dia(part) {
        report("greatest ⌀", sizes.one(dia));
    }
    report("mass", mass_in_short(part, 2));
    if let Some(mass) = part.weigh() {
        report(
            "balance",
            format!(
                "{} from the {}",
                sizes.worked_out(mass.centre_mm, 1),
                part.end_name(End::First)
            ),
        );
    }
    let view = PartView::new(design, None, part);
    if let Some(wall) = view
        .reported_walls()
        .iter()
        .filter(|_| !part.is_bought())
        .min_by_key(|wall| wall.least)
    {
        let (outer, inner) = (wall.outer_words(part), wall.inner_words(part));
        let [outer, inner] = [outer, inner].map(|it| it.in_units(sizes.units()));
        let least = sizes.one(wall.least);
        report(
            "least wall",
            format!(
                "{least}, {outer} over {inner}, at station {}",
                sizes.figure(wall.at.to_mm(), 2)
            ),
        );
    }
    let examined = analysis.examined();
    let mut seen = std::collections::BTreeSet::new();
    let wants = examined.wants_of_part(&part.name.text);
    measures.extend(
        wants
            .filter(|it| seen.insert(it.span))
            .map(|it| wanted(design, it, sizes)),
    );
    Some(Preview {
        name: part.name.text.to_string(),
        title: title(part.title(), &part.name.text),
        pictures: pictures(design, part, sizes.units())?,
        legend: Vec::new(),
        measures,
    })
}

fn of_pen(analysis: &Analysis, pen: &Pen) -> Option<Preview> {
    let sizes = analysis.sizes();
    let states =
        configurations(pen).map(|(which, it)| (which.word().to_owned(), state_in_short(it, sizes)));
    let mut measures: Vec<_> = states.collect();
    let examined = analysis.examined();
    let wants = examined.wants_of_pen(&pen.name.text);
    measures.extend(wants.map(|it| wanted(&analysis.design, it, sizes)));
    let units = sizes.units();
    let mut pictures = picture::seen(pen, units);
    let (section, legend) = picture::numbered(pen, units).unzip();
    pictures.extend(section);
    let cut = pen.parts.iter().filter(|part| !part.is_bought());
    pictures.extend(cut.filter_map(|part| picture::sized(part, units)));
    if pictures.is_empty() {
        return None;
    }
    Some(Preview {
        name: pen.name.text.to_string(),
        title: title(pen.title.as_ref(), &pen.name.text),
        pictures: pictures.into_iter().map(shown).collect(),
        legend: legend.unwrap_or_default(),
        measures,
    })
}

/// What is wanted, as it is written, and what it comes to.
fn wanted(design: &Design, want: &JudgedWant, sizes: Sizes) -> (String, String) {
    let verdict = want.verdict();
    let message = match want.measured.rendered() {
        Some(value) => {
            let value = value.in_units(sizes.units());
            format!("{value}, {verdict}")
        }
        None => verdict,
    };
    (design.text(want.span).to_owned(), message)
}

/// The pen that a part is in, as it looks, and the part; none where its shape is not known.
fn pictures(design: &Design, part: &Arc<Part>, units: Units) -> Option<Vec<Picture>> {
    let own = |pen: &&Pen| pen.parts.iter().any(|it| Arc::ptr_eq(it, part));
    let pen = design.pens.iter().find(own);
    let whole = pen.and_then(|pen| picture::seen(pen, units).into_iter().next());
    let alone = picture::part(pen, part, units);
    if alone.is_empty() {
        return None;
    }
    Some(whole.into_iter().chain(alone).map(shown).collect())
}

fn shown(it: Captioned) -> Picture {
    Picture {
        name: it.says,
        svg: svg(&it.scene, Background::Picture),
    }
}

fn title(title: Option<&quillet_syntax::ast::Text>, name: &str) -> String {
    title.map_or(name, |title| &title.text).to_owned()
}
