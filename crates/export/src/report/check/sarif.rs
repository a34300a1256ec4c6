//! What was found, as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format).
//!
//! Places are told by line and column alone: SARIF counts characters where we count bytes. There is
//! no absolute path and no time in it, so that the same input gives the same bytes.

use super::Checked;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use quillet_check::Accepted;
use quillet_compare::{Place, places};
use quillet_model::SourceFile;
use quillet_syntax::{Edit, Encoding, FileId, Finding, Fix, LineIndex, Span};
use serde::Serialize;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// Under which the place of a finding is told.
pub(super) const PLACE: &str = "quilletPlace/v1";

/// What stands for the folder from which paths are counted.
const ROOT: &str = "SRCROOT";

/// What may stand in a path as it is (RFC 3986, unreserved, and the slash).
const KEPT: AsciiSet = NON_ALPHANUMERIC
    .remove(b'-')
    .remove(b'.')
    .remove(b'_')
    .remove(b'~')
    .remove(b'/');

/// One run; each finding a result, each accepted one with why it is.
pub(super) fn text(whole: &Checked, name: &dyn Fn(&SourceFile) -> String) -> String {
    let accepted: Vec<Finding> = whole.accepted.iter().map(|it| it.finding.clone()).collect();
    let file = |id| whole.file(id);
    let mut log = Log::of(&file, name, Vec::new());
    let found = places(&whole.findings, &file, name);
    let suppressed = places(&accepted, &file, name);
    let mut results: Vec<Value> = whole
        .findings
        .iter()
        .zip(&found)
        .map(|(finding, place)| log.result(finding, place, None))
        .collect();
    let each = whole.accepted.iter().zip(&suppressed);
    results.extend(each.map(|(it, place)| log.result(&it.finding, place, Some(it))));
    whole_log(&log.rules, results)
}

/// The log of one run, with the rules that occur in it.
pub(in crate::report) fn whole_log(rules: &[&'static str], results: Vec<Value>) -> String {
    let rules: Vec<Value> = rules.iter().map(|code| rule(code)).collect();
    crate::report::rounded(&json!({
        "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "Quillet",
                "semanticVersion": env!("CARGO_PKG_VERSION"),
                "rules": rules,
            } },
            "columnKind": "unicodeCodePoints",
            "originalUriBaseIds": { ROOT: {
                "description": { "text": "the folder from which the paths are counted" }
            } },
            "results": results,
        }],
    }))
}

fn rule(code: &str) -> Value {
    let known = quillet_check::rule(code);
    let summary = known.map_or(code, |it| it.summary());
    let page = known.map_or(code, |it| it.page);
    let level = known.map_or("error", |it| it.severity.word());
    json!({
        "id": code,
        "shortDescription": { "text": summary },
        "help": { "text": page, "markdown": page },
        "defaultConfiguration": { "level": level },
    })
}

/// Results of findings in files.
pub(in crate::report) struct Log<'f, 'a> {
    file: &'f dyn Fn(FileId) -> Option<&'a SourceFile>,
    name: &'f dyn Fn(&SourceFile) -> String,
    lines: BTreeMap<FileId, LineIndex>,
    /// The rules that occur, in the order of their first results.
    pub(in crate::report) rules: Vec<&'static str>,
}

impl<'f, 'a> Log<'f, 'a> {
    /// Of files by their numbers, the rules going on where `rules` ends.
    pub(in crate::report) fn of(
        file: &'f dyn Fn(FileId) -> Option<&'a SourceFile>,
        name: &'f dyn Fn(&SourceFile) -> String,
        rules: Vec<&'static str>,
    ) -> Self {
        Self {
            file,
            name,
            lines: BTreeMap::new(),
            rules,
        }
    }

    /// The result of a finding; of an accepted one with why it is.
    pub(in crate::report) fn result(
        &mut self,
        finding: &Finding,
        place: &Place,
        accepted: Option<&Accepted>,
    ) -> Value {
        let code = finding.rule.code();
        let known = self.rules.iter().position(|it| *it == code);
        let index = known.unwrap_or_else(|| {
            self.rules.push(code);
            self.rules.len() - 1
        });
        let related = finding.labels.iter().map(|label| {
            let mut location = self.location(label.span);
            location["message"] = json!({ "text": &*label.text });
            location
        });
        let related: Vec<Value> = related.collect();
        let fixes: Vec<Value> = finding.fixes.iter().map(|fix| self.fix(fix)).collect();
        let mut result = Map::new();
        let mut put = |key: &str, value: Value| drop(result.insert(key.to_owned(), value));
        put("ruleId", json!(code));
        put("ruleIndex", json!(index));
        put("level", json!(finding.severity.word()));
        put("message", json!({ "text": sentences(finding) }));
        put("locations", json!([self.location(finding.span)]));
        if !related.is_empty() {
            put("relatedLocations", json!(related));
        }
        put("partialFingerprints", json!({ PLACE: place.to_string() }));
        if !fixes.is_empty() {
            put("fixes", json!(fixes));
        }
        if let Some(accepted) = accepted {
            let suppression = Suppression {
                kind: "inSource",
                status: "accepted",
                justification: &accepted.because.text,
            };
            put("suppressions", json!([suppression]));
        }
        put("properties", json!({ "pens": finding.pens }));
        Value::Object(result)
    }

    fn fix(&mut self, fix: &Fix) -> Value {
        let mut files: BTreeMap<FileId, Vec<&Edit>> = BTreeMap::new();
        for edit in &fix.edits {
            files.entry(edit.span.file).or_default().push(edit);
        }
        let changes = files.into_iter().map(|(file, edits)| {
            let replacement = |edit: &&Edit| {
                let mut replacement = json!({ "deletedRegion": self.region(edit.span) });
                if !edit.text.is_empty() {
                    replacement["insertedContent"] = json!({ "text": &*edit.text });
                }
                replacement
            };
            let replacements: Vec<Value> = edits.iter().map(replacement).collect();
            json!({ "artifactLocation": self.artifact(file), "replacements": replacements })
        });
        let changes: Vec<Value> = changes.collect();
        json!({ "description": { "text": &*fix.title }, "artifactChanges": changes })
    }

    fn location(&mut self, span: Span) -> Value {
        json!({ "physicalLocation": {
            "artifactLocation": self.artifact(span.file),
            "region": self.region(span),
        } })
    }

    fn artifact(&self, file: FileId) -> Value {
        let path = (self.file)(file).map_or_else(String::new, self.name);
        let uri = utf8_percent_encode(&path, &KEPT).to_string();
        json!({ "uri": uri, "uriBaseId": ROOT })
    }

    /// Lines and columns from 1, columns in characters, the end behind the last.
    fn region(&mut self, span: Span) -> Value {
        let Some(file) = (self.file)(span.file) else {
            return json!({ "startLine": 1 });
        };
        let lines = self.lines.entry(span.file);
        let lines = lines.or_insert_with(|| LineIndex::new(file.text.clone()));
        let start = lines.position(span.range().start, Encoding::Utf32);
        let end = lines.position(span.range().end, Encoding::Utf32);
        json!({
            "startLine": start.line + 1,
            "startColumn": start.column + 1,
            "endLine": end.line + 1,
            "endColumn": end.column + 1,
        })
    }
}

/// Why a result does not count.
#[derive(Serialize)]
struct Suppression<'a> {
    kind: &'static str,
    status: &'static str,
    justification: &'a str,
}

/// What is, and what to do.
fn sentences(finding: &Finding) -> String {
    let sentence = |text: &str| {
        let mut letters = text.trim_end_matches('.').chars();
        let first: String = letters
            .next()
            .into_iter()
            .flat_map(char::to_uppercase)
            .collect();
        format!("{first}{}.", letters.as_str())
    };
    let what = sentence(&finding.message);
    match finding.help() {
        Some(help) => format!("{what} {}", sentence(help)),
        None => what,
    }
}
