//! The sheet as one page of HTML that needs nothing else.

use super::content::{Content, PartSheet};
use super::page::{self, Field, TICK_MM};
use crate::draw::{Paper, labelled_small};
use crate::font::{FAMILY, Face, Subset, data_uri};
use crate::mark::MARK;
use crate::scene::Scene;
use crate::write::{Background, Shades, layer_styles, number, svg};
use askama::Template;
use std::fmt::Write as _;

#[derive(Template)]
#[template(path = "sheet.html")]
struct HtmlSheet<'a> {
    mark: &'static str,
    family: &'static str,
    layers: String,
    fonts: Vec<(u16, String)>,
    paper: &'static str,
    wide_mm: f64,
    high_mm: f64,
    memory: String,
    c: &'a Content,
    warned: &'static str,
    pages: Vec<HtmlPage>,
    shades: String,
    looks: Vec<String>,
    section: String,
    parts: Vec<HtmlPart<'a>>,
}

/// A page as it is printed, and what is filled in on it.
struct HtmlPage {
    drawing: String,
    fields: Vec<HtmlField>,
}

struct HtmlField {
    key: String,
    ticks: bool,
    style: String,
}

/// A part as a phone shows it.
struct HtmlPart<'a> {
    part: &'a PartSheet,
    drawing: String,
    holdings: Vec<HtmlHolding<'a>>,
}

struct HtmlHolding<'a> {
    title: &'a str,
    grip: &'a str,
    picture: String,
    rows: Vec<HtmlRow<'a>>,
}

struct HtmlRow<'a> {
    row: &'a super::row::HoldingRow,
    key: String,
}

/// Writes a sheet as HTML: printed, the same pages as the PDF; on a wide screen as on paper; on a phone
/// in one column; in light and dark. What is ticked and written is kept in the page's own memory.
pub fn html(content: &Content, paper: Paper) -> String {
    let (wide_mm, high_mm) = paper.sides_mm();
    let pages = page::pages(content, paper);
    let fonts = Face::ALL.map(|face| {
        let texts = pages.iter().flat_map(|it| it.scene.texts());
        let own = texts
            .filter(|it| it.face == face)
            .map(|it| it.words.as_str());
        // What only a phone shows is of the common letters.
        let subset = Subset::of(face, own.chain([COMMON]));
        (face.weight(), data_uri(&subset))
    });
    let look = |it: &Option<crate::draw::Look>| it.as_ref().map(|it| drawn(&it.scene));
    let looks = [&content.looks.capped, &content.looks.uncapped];
    let c = &content.looks;
    let shaded = [&c.capped, &c.uncapped, &c.cutaway];
    let shaded = shaded.into_iter().flatten().map(|it| &it.scene);
    let page = HtmlSheet {
        mark: MARK,
        family: FAMILY,
        layers: layer_styles(),
        fonts: fonts.into(),
        paper: if paper == Paper::A4 { "A4" } else { "letter" },
        wide_mm,
        high_mm,
        memory: format!("{} {}", content.design_mark, content.name),
        c: content,
        warned: page::DO_NOT_CUT,
        pages: pages.iter().map(printed).collect(),
        shades: Shades::of(pages.iter().map(|it| &it.scene).chain(shaded)).defined(),
        looks: looks.into_iter().filter_map(look).collect(),
        section: look(&content.looks.cutaway).unwrap_or_default(),
        parts: content.parts.iter().map(part).collect(),
    };
    // Rendering fails only where a value's Display does; none here can.
    page.render().unwrap_or_default()
}

const COMMON: &str = " !\"#%&'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ[]abcdefghijklmnopqrstuvwxyz°·×½¼¾–−’“”⌀▼✓✗□‹›";

fn drawn(scene: &Scene) -> String {
    svg(scene, Background::Sheet)
}

fn printed(page: &page::SheetPage) -> HtmlPage {
    let place = |field: &Field| HtmlField {
        key: field.key.clone(),
        ticks: field.ticks,
        style: styled(field),
    };
    HtmlPage {
        drawing: drawn(&page.scene),
        fields: page.fields.iter().map(place).collect(),
    }
}

/// Where a field is; how large, but for boxes of the size that the style sheet gives them.
fn styled(field: &Field) -> String {
    let (left, top) = (number(field.at.0, 2), number(field.at.1, 2));
    let mut style = format!("left:{left}mm;top:{top}mm");
    if !field.ticks || field.size != (TICK_MM, TICK_MM) {
        let (wide, high) = (number(field.size.0, 2), number(field.size.1, 2));
        let _ = write!(style, ";width:{wide}mm;height:{high}mm");
    }
    style
}

fn part(part: &PartSheet) -> HtmlPart<'_> {
    let drawing = labelled_small(&part.part, &part.labels, &part.length);
    let holdings = part
        .holdings
        .iter()
        .enumerate()
        .map(|(index, it)| HtmlHolding {
            title: &it.title,
            grip: &it.grip,
            picture: it.picture.as_ref().map(drawn).unwrap_or_default(),
            rows: it
                .rows
                .iter()
                .enumerate()
                .map(|(at, row)| HtmlRow {
                    row,
                    key: page::row_key(&page::key(part, index), row, at),
                })
                .collect(),
        });
    HtmlPart {
        part,
        drawing: drawing.as_ref().map(drawn).unwrap_or_default(),
        holdings: holdings.collect(),
    }
}
