//! The page that `quillet watch` shows: drawing, findings, weight.

use crate::mark;
use crate::picture::{self, Captioned};
use crate::sheet::{Table, measures};
use crate::write::{Background, svg};
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
    /// As it looks, in each way it is held.
    seen: Vec<LivePicture>,
    section: Option<LivePicture>,
    legend: Vec<String>,
    measures: Table,
    parts: Vec<LivePicture>,
}

/// A drawing with what it shows; it can be read however narrow the window is.
struct LivePicture {
    says: String,
    svg: String,
}

impl LivePicture {
    fn of(shown: Captioned) -> LivePicture {
        LivePicture {
            says: shown.says,
            svg: svg(&shown.scene, Background::Page),
        }
    }
}

#[derive(Template)]
#[template(path = "live-body.html")]
struct LiveBody<'a> {
    findings: &'a [LiveFinding],
    pens: Vec<LivePen>,
    parts: Vec<LivePicture>,
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
    let units = design.units();
    let sized = |part: &Arc<Part>| picture::sized(part, units).map(LivePicture::of);
    // A part that several pens share is drawn below the first.
    let mut known: Vec<&Arc<Part>> = Vec::new();
    let shown = pens.iter().map(|pen| {
        let new = |part: &&Arc<Part>| !known.iter().any(|it| Arc::ptr_eq(it, part));
        let new: Vec<&Arc<Part>> = pen.parts.iter().filter(new).collect();
        known.extend(&new);
        let cut = new.into_iter().filter(|part| !part.is_bought());
        let (section, legend) = picture::numbered(pen, units).unzip();
        LivePen {
            title: pen.title_or_name().to_owned(),
            seen: picture::seen(pen, units)
                .into_iter()
                .map(LivePicture::of)
                .collect(),
            section: section.map(LivePicture::of),
            legend: legend.unwrap_or_default(),
            measures: measures(pen, units),
            parts: cut.filter_map(sized).collect(),
        }
    });
    let pens_shown: Vec<LivePen> = shown.collect();
    let alone = design
        .parts
        .iter()
        .filter(|part| pens.is_empty() && Some(part.span.file) == root && !part.is_bought());
    let body = LiveBody {
        findings,
        pens: pens_shown,
        parts: alone.filter_map(sized).collect(),
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
