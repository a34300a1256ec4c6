//! What was found, as JSON.

use super::Checked;
use crate::report::SCHEMA_VERSION;
use quillet_syntax::{Encoding, FileId, Finding, LineIndex, Span};
use serde::Serialize;
use std::collections::BTreeMap;

/// One object on one line each finding, keys in a fixed order.
pub(super) fn text(whole: &Checked) -> String {
    let mut places = PlaceReader {
        whole,
        lines: BTreeMap::new(),
    };
    let findings = whole.findings.iter().map(|it| places.finding(it)).collect();
    let assumed = whole.assumed.as_ref().map(|all| {
        let one = |it: &'_ quillet_check::assumed::Assumed| AssumedReport {
            caption: it.text.clone(),
            place: places.place(it.span),
        };
        all.iter().map(one).collect()
    });
    let report = CheckReport {
        schema_version: SCHEMA_VERSION,
        files: whole.count,
        findings,
        assumed,
    };
    crate::report::rounded(&report)
}

#[derive(Serialize)]
struct CheckReport<'a> {
    schema_version: u32,
    files: usize,
    findings: Vec<FindingReport<'a>>,
    /// With `--full` alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    assumed: Option<Vec<AssumedReport>>,
}

/// A size nobody wrote.
#[derive(Serialize)]
struct AssumedReport {
    #[serde(rename = "says")]
    caption: String,
    #[serde(flatten)]
    place: PlaceReport,
}

#[derive(Serialize)]
struct FindingReport<'a> {
    rule: &'a str,
    severity: &'a str,
    message: &'a str,
    #[serde(flatten)]
    place: PlaceReport,
    related: Vec<RelatedReport<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hint: Option<&'a str>,
    edits: Vec<EditReport<'a>>,
    pens: &'a [String],
}

#[derive(Serialize)]
struct RelatedReport<'a> {
    message: &'a str,
    #[serde(flatten)]
    place: PlaceReport,
}

/// Edits of one title belong together; those of different titles are choices.
#[derive(Serialize)]
struct EditReport<'a> {
    title: &'a str,
    #[serde(flatten)]
    place: PlaceReport,
    text: &'a str,
}

#[derive(Serialize)]
struct PlaceReport {
    file: String,
    start: PointReport,
    end: PointReport,
}

/// A line and a column from 1, the column in characters; a byte offset from 0.
#[derive(Serialize)]
struct PointReport {
    line: u32,
    column: u32,
    offset: usize,
}

struct PlaceReader<'a> {
    whole: &'a Checked,
    lines: BTreeMap<FileId, LineIndex>,
}

impl<'a> PlaceReader<'a> {
    fn finding(&mut self, finding: &'a Finding) -> FindingReport<'a> {
        FindingReport {
            rule: finding.rule.code(),
            severity: finding.severity.word(),
            message: &finding.message,
            place: self.place(finding.span),
            related: finding
                .labels
                .iter()
                .map(|label| RelatedReport {
                    message: &label.text,
                    place: self.place(label.span),
                })
                .collect(),
            hint: finding.help().map(|help| &**help),
            edits: finding
                .fixes
                .iter()
                .flat_map(|fix| fix.edits.iter().map(move |edit| (fix, edit)))
                .map(|(fix, edit)| EditReport {
                    title: &fix.title,
                    place: self.place(edit.span),
                    text: &edit.text,
                })
                .collect(),
            pens: &finding.pens,
        }
    }

    fn place(&mut self, span: Span) -> PlaceReport {
        let Some(file) = self.whole.file(span.file) else {
            let nowhere = || PointReport {
                line: 1,
                column: 1,
                offset: 0,
            };
            return PlaceReport {
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
            PointReport {
                line: at.line + 1,
                column: at.column + 1,
                offset: offset as usize,
            }
        };
        PlaceReport {
            file: file.path.to_string_lossy().into_owned(),
            start: point(span.start),
            end: point(span.end),
        }
    }
}
