//! Findings as diagnostics.

use crate::diagnostic_store::{Checked, CheckedText};
use crate::position::PositionMap;
use crate::server_state::RequestContext;
use quillet_ide::Analysis;
use quillet_syntax::{FileId, Finding, RuleId, Severity, Span};
use std::collections::BTreeMap;
use std::path::Path;
use tower_lsp::lsp_types::{
    CodeDescription, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, DiagnosticTag,
    Location, NumberOrString, Url,
};

/// All findings of an analysis, by file; none where nobody waits any more.
pub(crate) fn checked(analysis: &Analysis, asked: &RequestContext) -> Option<Checked> {
    let findings = analysis.findings(&|| asked.cancel.is_off())?;
    let mut places = LocationMap::new(analysis, asked);
    let missing = analysis.missing().map(|path| (path.to_path_buf(), None));
    let mut checked: Checked = missing.collect();
    for file in analysis.files() {
        let diagnostics = findings
            .iter()
            .filter(|finding| finding.span.file == file.id)
            .map(|finding| diagnostic(finding, &mut places))
            .collect();
        let found = CheckedText {
            text: file.text.clone(),
            diagnostics,
        };
        checked.insert(file.path.clone(), Some(found));
    }
    Some(checked)
}

/// What is told of a file that is there and is not read, at its beginning.
pub(crate) fn unread(path: &Path, asked: &RequestContext) -> Checked {
    let told = asked.snapshot.unread(path).map(|(text, message)| {
        let diagnostic = Diagnostic {
            severity: Some(DiagnosticSeverity::ERROR),
            code: Some(NumberOrString::String(RuleId::MISSING_FILE.to_string())),
            code_description: page(RuleId::MISSING_FILE.code()),
            source: Some("quillet".into()),
            message,
            ..Diagnostic::default()
        };
        let diagnostics = vec![diagnostic];
        (path.to_path_buf(), Some(CheckedText { text, diagnostics }))
    });
    told.into_iter().collect()
}

/// One finding.
pub(crate) fn diagnostic(finding: &Finding, places: &mut LocationMap<'_>) -> Diagnostic {
    let location = places.location(finding.span);
    let related = finding
        .labels
        .iter()
        .filter_map(|label| {
            let location = places.location(label.span)?;
            Some(DiagnosticRelatedInformation {
                location,
                message: label.text.to_string(),
            })
        })
        .collect::<Vec<_>>();
    Diagnostic {
        range: location.map(|location| location.range).unwrap_or_default(),
        severity: Some(severity(finding.severity)),
        code: Some(NumberOrString::String(finding.rule.to_string())),
        code_description: page(finding.rule.code()),
        source: Some("quillet".into()),
        message: message(finding),
        related_information: (!related.is_empty()).then_some(related),
        tags: tags(finding.rule),
        data: None,
    }
}

/// The message with its hint on a line of its own and the pens it is about.
fn message(finding: &Finding) -> String {
    let mut message = finding.message.to_string();
    if let Some(hint) = &finding.hint {
        message.push('\n');
        message.push_str(hint);
    }
    if !finding.pens.is_empty() {
        message.push_str("\nin ");
        message.push_str(&finding.pens.join(", "));
    }
    message
}

fn severity(severity: Severity) -> DiagnosticSeverity {
    match severity {
        Severity::Error => DiagnosticSeverity::ERROR,
        Severity::Warning => DiagnosticSeverity::WARNING,
        Severity::Note => DiagnosticSeverity::INFORMATION,
    }
}

fn tags(rule: RuleId) -> Option<Vec<DiagnosticTag>> {
    let needless = [RuleId::UNUSED_ITEM, RuleId::STALE_ACCEPTANCE].contains(&rule);
    needless.then(|| vec![DiagnosticTag::UNNECESSARY])
}

/// The address of a rule's page.
fn page(rule: &str) -> Option<CodeDescription> {
    Some(CodeDescription {
        href: crate::pages::address(rule)?,
    })
}

/// Where spans lie, with the lines of each file counted once.
pub(crate) struct LocationMap<'a> {
    analysis: &'a Analysis,
    asked: &'a RequestContext,
    files: BTreeMap<FileId, Option<(Url, PositionMap)>>,
}

impl<'a> LocationMap<'a> {
    /// Nothing counted yet.
    pub(crate) fn new(analysis: &'a Analysis, asked: &'a RequestContext) -> Self {
        Self {
            analysis,
            asked,
            files: BTreeMap::new(),
        }
    }

    /// The location of a span; none where its file has no address.
    pub(crate) fn location(&mut self, span: Span) -> Option<Location> {
        let (url, lines) = self
            .files
            .entry(span.file)
            .or_insert_with(|| {
                let file = self.analysis.file(span.file)?;
                let url = self.asked.url(&file.path)?;
                Some((
                    url,
                    PositionMap::new(file.text.clone(), self.asked.encoding),
                ))
            })
            .as_ref()?;
        Some(Location {
            uri: url.clone(),
            range: lines.range(span.range()),
        })
    }
}
