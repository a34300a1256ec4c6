//! What differs, as one page that needs nothing else.

use super::{Compared, words};
use crate::mark::MARK;
use crate::picture::{ComparedPicture, compared};
use askama::Template;
use quillet_compare::{FindingChange, FindingState, PenChange};

#[derive(Template)]
#[template(path = "compare.html")]
struct Page<'a> {
    mark: &'static str,
    headline: String,
    old: &'a str,
    new: &'a str,
    files: Vec<FileBlock<'a>>,
    pens: Vec<PenBlock>,
    others: usize,
}

struct FileBlock<'a> {
    name: &'a str,
    rows: Vec<words::Row>,
    findings: Vec<FoundLine>,
}

struct FoundLine {
    severity: &'static str,
    text: String,
    gone: bool,
}

struct PenBlock {
    name: String,
    state: String,
    pictures: Vec<ComparedPicture>,
    rows: Vec<words::Row>,
    findings: Vec<FoundLine>,
    steps: Vec<String>,
}

/// The page; dark where the reader's is.
pub(super) fn text(it: &Compared) -> String {
    let comparison = it.comparison;
    let files = comparison.files.iter().map(|file| FileBlock {
        name: &file.name,
        rows: words::written(&file.changes),
        findings: found(file.reported(), None),
    });
    let shown = |pen: &&PenChange| !words::is_plain(pen);
    let pens: Vec<PenBlock> = comparison
        .pens
        .iter()
        .filter(shown)
        .map(|shown| pen(shown, it.stretch))
        .collect();
    let page = Page {
        mark: MARK,
        headline: it.headline(),
        old: &it.old,
        new: &it.new,
        files: files.collect(),
        others: comparison.pens.len() - pens.len(),
        pens,
    };
    // Rendering fails only where a value's Display does; none here can.
    page.render().unwrap_or_default()
}

fn found<'a>(all: impl Iterator<Item = &'a FindingChange>, pen: Option<&str>) -> Vec<FoundLine> {
    let line = |it: &FindingChange| FoundLine {
        severity: it.finding.severity.word(),
        text: words::finding(it, pen),
        gone: it.state == FindingState::Gone,
    };
    all.map(line).collect()
}

fn pen(pen: &PenChange, stretch: f64) -> PenBlock {
    PenBlock {
        name: pen.name.clone(),
        state: words::state(pen),
        pictures: compared(pen, stretch),
        rows: words::effects(pen),
        findings: found(pen.reported(), Some(&pen.name)),
        steps: pen.steps.iter().map(words::step).collect(),
    }
}
