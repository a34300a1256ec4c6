//! The page that `quillet watch` shows: drawing, findings, weight.

use crate::scene::Scene;
use crate::sheet::{Table, measures};
use crate::write::{Ground, svg};
use crate::{draw, mark};
use askama::Template;
use quillet_model::{Design, Part, Pen};
use std::sync::Arc;

/// Something found, ready to be shown.
#[derive(Clone, Debug)]
pub struct Said {
    /// `error`, `warning` or `note`.
    pub severity: &'static str,
    /// The rule.
    pub rule: &'static str,
    /// What is.
    pub message: String,
    /// What to do.
    pub hint: Option<String>,
    /// File, line and column.
    pub place: String,
}

struct LivePen {
    title: String,
    picture: String,
    measures: Table,
}

struct LivePart {
    name: String,
    picture: String,
    weighs: String,
}

#[derive(Template)]
#[template(path = "live-body.html")]
struct Body<'a> {
    said: &'a [Said],
    pens: Vec<LivePen>,
    parts: Vec<LivePart>,
}

#[derive(Template)]
#[template(path = "live.html")]
struct Page<'a> {
    mark: &'static str,
    title: &'a str,
    nonce: &'a str,
    version: &'a str,
    body: &'a str,
}

/// The part of the page that changes with the design.
pub fn body(design: &Design, said: &[Said]) -> String {
    let root = design.root().map(|file| file.id);
    let own = |pen: &&Pen| Some(pen.span.file) == root;
    let pens: Vec<&Pen> = design.pens.iter().filter(own).collect();
    let mut parts: Vec<&Arc<Part>> = Vec::new();
    let of_pens = pens.iter().flat_map(|pen| &pen.parts);
    let alone = design
        .parts
        .iter()
        .filter(|part| Some(part.span.file) == root && pens.is_empty());
    for part in of_pens.chain(alone).filter(|part| !part.bought) {
        if !parts.iter().any(|known| Arc::ptr_eq(known, part)) {
            parts.push(part);
        }
    }
    let drawn = |scene: Option<Scene>| scene.map_or_else(String::new, |it| svg(&it, Ground::Page));
    let body = Body {
        said,
        pens: pens
            .iter()
            .map(|pen| LivePen {
                title: pen
                    .title
                    .as_ref()
                    .map_or(&pen.name.text, |title| &title.text)
                    .to_string(),
                picture: drawn(draw::overview(pen, 180.0).map(|it| it.scene)),
                measures: measures(pen),
            })
            .collect(),
        parts: parts
            .iter()
            .map(|part| LivePart {
                name: part.name.text.to_string(),
                picture: drawn(draw::preview(part, 180.0)),
                weighs: part
                    .weigh()
                    .map_or_else(String::new, |it| format!("{:.1} g", it.mass_g)),
            })
            .collect(),
    };
    // Rendering fails only where a value's Display does; none here can.
    body.render().unwrap_or_default()
}

/// The whole page around a body. `version` is sent back to ask whether the body has changed; `nonce` is the
/// one that the page's policy lets its script run by.
pub fn page(title: &str, body: &str, version: &str, nonce: &str) -> String {
    Page {
        mark: mark::MARK,
        title,
        nonce,
        version,
        body,
    }
    .render()
    .unwrap_or_default()
}
