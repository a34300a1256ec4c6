//! The sheet as one page of HTML that needs nothing else.

use super::content::{Content, PartSheet};
use crate::draw::Paper;
use crate::mark::MARK;
use crate::scene::Scene;
use crate::write::{Ground, svg};
use askama::Template;

#[derive(Template)]
#[template(path = "sheet.html")]
struct Page<'a> {
    mark: &'static str,
    paper: &'static str,
    long_mm: f64,
    short_mm: f64,
    c: &'a Content,
    overview: String,
    drawing: String,
    parts: Vec<PartPage<'a>>,
}

struct PartPage<'a> {
    part: &'a PartSheet,
    drawing: String,
    template: String,
}

/// Writes a sheet as HTML for screens of any width, light or dark, and for print with pages of its own.
pub fn html(content: &Content, paper: Paper) -> String {
    let drawn = |scene: &Option<Scene>| {
        scene
            .as_ref()
            .map_or_else(String::new, |it| svg(it, Ground::Page))
    };
    let (short_mm, long_mm) = paper.sides_mm();
    let parts = content.parts.iter().map(|part| PartPage {
        part,
        drawing: drawn(&part.drawing),
        template: drawn(&part.template),
    });
    let page = Page {
        mark: MARK,
        paper: if paper == Paper::A4 { "A4" } else { "letter" },
        long_mm,
        short_mm,
        c: content,
        overview: drawn(&content.overview),
        drawing: drawn(&content.drawing),
        parts: parts.collect(),
    };
    // Rendering fails only where a value's Display does; none here can.
    page.render().unwrap_or_default()
}
