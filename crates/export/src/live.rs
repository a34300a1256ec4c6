//! The page that `quillet watch` shows: drawing, findings, weight.

use crate::scene::Scene;
use crate::sheet::{Table, measures};
use crate::write::{Background, svg};
use crate::{draw, mark};
use askama::Template;
use quillet_model::{Design, Part, Pen};
use quillet_syntax::{Encoding, Finding, LineIndex, RuleId, Severity};
use std::sync::Arc;

/// Something found, ready to be shown.
struct LiveFinding {
    /// `error`, `warning` or `note`.
    severity: &'static str,
    /// The rule.
    rule: &'static str,
    /// What is.
    message: String,
    /// What to do.
    hint: Option<String>,
    /// File, line and column.
    place: String,
}

impl LiveFinding {
    /// A finding of a design.
    fn of(design: &Design, finding: &Finding) -> Self {
        let place = design.file(finding.span.file);
        let place = place.map_or_else(String::new, |file| {
            let lines = LineIndex::new(file.text.clone());
            let at = lines.position(finding.span.range().start, Encoding::Utf32);
            format!("{}:{}:{}", file.path.display(), at.line + 1, at.column + 1)
        });
        Self {
            severity: finding.severity.word(),
            rule: finding.rule.code(),
            message: finding.message.to_string(),
            hint: finding.hint.as_ref().map(ToString::to_string),
            place,
        }
    }
}

struct LivePen {
    title: String,
    picture: String,
    legend: Vec<String>,
    measures: Table,
}

#[derive(Template)]
#[template(path = "live-body.html")]
struct LiveBody<'a> {
    findings: &'a [LiveFinding],
    pens: Vec<LivePen>,
    parts: String,
}

#[derive(Template)]
#[template(path = "live.html")]
struct LivePage<'a> {
    mark: &'static str,
    title: &'a str,
    nonce: &'a str,
    version: &'a str,
    body: &'a str,
}

/// How wide a drawing is, mm.
const WIDTH_MM: f64 = 180.0;

/// The part of the page that changes with the design, of which the rules found so much.
pub fn body(design: &Design, found: &[Finding]) -> String {
    let findings: Vec<LiveFinding> = found.iter().map(|it| LiveFinding::of(design, it)).collect();
    with(design, &findings)
}

/// The same where the file cannot be read, and why.
pub fn unreadable(reason: String) -> String {
    let findings = LiveFinding {
        severity: Severity::Error.word(),
        rule: RuleId::MISSING_FILE.code(),
        message: reason,
        hint: None,
        place: String::new(),
    };
    with(&Design::default(), &[findings])
}

fn with(design: &Design, findings: &[LiveFinding]) -> String {
    let root = design.root().map(|file| file.id);
    let own = |pen: &&Pen| Some(pen.span.file) == root;
    let pens: Vec<&Pen> = design.pens.iter().filter(own).collect();
    let drawn =
        |scene: Option<Scene>| scene.map_or_else(String::new, |it| svg(&it, Background::Page));
    // A part that several pens share is drawn below the first.
    let mut known: Vec<&Arc<Part>> = Vec::new();
    let shown = pens.iter().map(|pen| {
        let new = |part: &&Arc<Part>| !known.iter().any(|it| Arc::ptr_eq(it, part));
        let new: Vec<&Arc<Part>> = pen.parts.iter().filter(new).collect();
        known.extend(&new);
        let cut: Vec<&Part> = new
            .into_iter()
            .filter(|part| !part.is_bought())
            .map(AsRef::as_ref)
            .collect();
        let (picture, callouts) = draw::preview_pen(pen, &cut, WIDTH_MM, design.units()).unzip();
        let callouts = callouts.unwrap_or_default();
        LivePen {
            title: pen.title_or_name().to_owned(),
            picture: drawn(picture),
            legend: callouts
                .iter()
                .map(|it| format!("{} {}", it.number, it.caption))
                .collect(),
            measures: measures(pen, design.units()),
        }
    });
    let pens_shown: Vec<LivePen> = shown.collect();
    let alone = design
        .parts
        .iter()
        .filter(|part| pens.is_empty() && Some(part.span.file) == root && !part.is_bought());
    let alone: Vec<&Part> = alone.map(AsRef::as_ref).collect();
    let body = LiveBody {
        findings,
        pens: pens_shown,
        parts: drawn(draw::parts(&alone, None, WIDTH_MM, design.units())),
    };
    // Rendering fails only where a value's Display does; none here can.
    body.render().unwrap_or_default()
}

/// The whole page around a body. `version` is sent back to ask whether the body has changed; `nonce` is the
/// one that the page's policy lets its script run by.
pub fn page(title: &str, body: &str, version: &str, nonce: &str) -> String {
    LivePage {
        mark: mark::MARK,
        title,
        nonce,
        version,
        body,
    }
    .render()
    .unwrap_or_default()
}
