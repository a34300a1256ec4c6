//! What was found, as JSON.

use super::Checked;
use crate::report::SCHEMA_VERSION;
use quillet_syntax::{Encoding, FileId, Finding, LineIndex, Span};
use serde::Serialize;
use std::collections::BTreeMap;

/// One object on one line each finding, keys in a fixed order.
pub(super) fn text(whole: &Checked) -> String {
    let mut places = Places {
        whole,
        lines: BTreeMap::new(),
    };
    let findings = whole.findings.iter().map(|it| places.finding(it)).collect();
    let assumed = whole.assumed.as_ref().map(|all| {
        let one = |it: &'_ quillet_check::assumed::Assumed| Assumed {
            says: it.text.clone(),
            place: places.place(it.span),
        };
        all.iter().map(one).collect()
    });
    let report = Report {
        schema_version: SCHEMA_VERSION,
        files: whole.count,
        findings,
        assumed,
    };
    crate::report::rounded(&report)
}

#[derive(Serialize)]
struct Report<'a> {
    schema_version: u32,
    files: usize,
    findings: Vec<Found<'a>>,
    /// With `--full` alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    assumed: Option<Vec<Assumed>>,
}

/// A size nobody wrote.
#[derive(Serialize)]
struct Assumed {
    says: String,
    #[serde(flatten)]
    place: Place,
}

#[derive(Serialize)]
struct Found<'a> {
    rule: &'a str,
    severity: &'a str,
    message: &'a str,
    #[serde(flatten)]
    place: Place,
    related: Vec<Related<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hint: Option<&'a str>,
    edits: Vec<Edit<'a>>,
    pens: &'a [String],
}

#[derive(Serialize)]
struct Related<'a> {
    message: &'a str,
    #[serde(flatten)]
    place: Place,
}

/// Edits of one title belong together; those of different titles are choices.
#[derive(Serialize)]
struct Edit<'a> {
    title: &'a str,
    #[serde(flatten)]
    place: Place,
    text: &'a str,
}

#[derive(Serialize)]
struct Place {
    file: String,
    start: Point,
    end: Point,
}

/// A line and a column from 1, the column in characters; a byte offset from 0.
#[derive(Serialize)]
struct Point {
    line: u32,
    column: u32,
    offset: usize,
}

struct Places<'a> {
    whole: &'a Checked,
    lines: BTreeMap<FileId, LineIndex>,
}

impl<'a> Places<'a> {
    fn finding(&mut self, finding: &'a Finding) -> Found<'a> {
        Found {
            rule: finding.rule.code(),
            severity: finding.severity.word(),
            message: &finding.message,
            place: self.place(finding.span),
            related: finding
                .labels
                .iter()
                .map(|label| Related {
                    message: &label.text,
                    place: self.place(label.span),
                })
                .collect(),
            hint: finding.help().map(|help| &**help),
            edits: finding
                .fixes
                .iter()
                .flat_map(|fix| fix.edits.iter().map(move |edit| (fix, edit)))
                .map(|(fix, edit)| Edit {
                    title: &fix.title,
                    place: self.place(edit.span),
                    text: &edit.text,
                })
                .collect(),
            pens: &finding.pens,
        }
    }

    fn place(&mut self, span: Span) -> Place {
        let Some(file) = self.whole.file(span.file) else {
            let nowhere = || Point {
                line: 1,
                column: 1,
                offset: 0,
            };
            return Place {
                file: String::new(),
                start: nowhere(),
                end: nowhere(),
            };
        };
        let lines = self
            .lines
            .entry(span.file)
            .or_insert_with(|| LineIndex::new(file.text.clone()));
        let point = |offset: u32| {
            let at = lines.position(offset as usize, Encoding::Utf32);
            Point {
                line: at.line + 1,
                column: at.column + 1,
                offset: offset as usize,
            }
        };
        Place {
            file: file.path.to_string_lossy().into_owned(),
            start: point(span.start),
            end: point(span.end),
        }
    }
}
