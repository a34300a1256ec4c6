//! Code actions.

use super::Document;
use super::rename::Changes;
use crate::convert::diagnostic::{LocationMap, diagnostic};
use crate::server_state::RequestContext;
use quillet_ide::{Action, ActionKind};
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    CodeAction, CodeActionKind, CodeActionOptions, CodeActionOrCommand, CodeActionParams,
    CodeActionResponse, Diagnostic,
};

/// What can be done at a place.
pub(crate) fn actions(
    asked: &RequestContext,
    params: &CodeActionParams,
) -> Result<Option<CodeActionResponse>> {
    let offered = offered(asked, params)?;
    Ok(offered.map(|(document, found)| {
        let carried = carried(asked, &document, &found).into_iter();
        carried.map(CodeActionOrCommand::CodeAction).collect()
    }))
}

/// What is offered of the kinds that are asked for.
pub(crate) fn offered(
    asked: &RequestContext,
    params: &CodeActionParams,
) -> Result<Option<(Document, Vec<Action>)>> {
    let range = Document::within(asked, &params.text_document.uri, params.range)?;
    let Some((document, within)) = range else {
        return Ok(None);
    };
    let off = || asked.cancel.is_off();
    let found = quillet_ide::actions(&asked.snapshot, &document.analysis, within, &off);
    let wanted = |action: &Action| match &params.context.only {
        None => true,
        Some(only) => only.iter().any(|only| is_within(&kind(action.kind), only)),
    };
    Ok(found.map(|mut found| {
        found.retain(wanted);
        (document, found)
    }))
}

/// Actions as the protocol has them.
pub(crate) fn carried(
    asked: &RequestContext,
    document: &Document,
    found: &[Action],
) -> Vec<CodeAction> {
    let off = || asked.cancel.is_off();
    let findings = document.analysis.findings(&off).unwrap_or_default();
    let mut places = LocationMap::new(&document.analysis, asked);
    let carried = found.iter().map(|action| {
        let cured = action.cures.and_then(|index| findings.get(index));
        let cured: Option<Diagnostic> = cured.map(|finding| diagnostic(finding, &mut places));
        let mut changes = Changes::new(asked);
        for edit in &action.edits {
            if let Some(path) = document.analysis.path(edit.span) {
                changes.add(path, edit.span, edit.text.to_string());
            }
        }
        CodeAction {
            title: action.title.clone(),
            kind: Some(kind(action.kind)),
            diagnostics: cured.map(|cured| vec![cured]),
            edit: Some(changes.finish()),
            is_preferred: action.preferred.then_some(true),
            ..CodeAction::default()
        }
    });
    carried.collect()
}

/// Actions of all kinds there are.
pub(crate) fn options() -> CodeActionOptions {
    let all = [
        ActionKind::Fix,
        ActionKind::Mend,
        ActionKind::Rewrite,
        ActionKind::Extract,
    ];
    CodeActionOptions {
        code_action_kinds: Some(all.into_iter().map(kind).collect()),
        ..CodeActionOptions::default()
    }
}

fn kind(kind: ActionKind) -> CodeActionKind {
    match kind {
        ActionKind::Fix => CodeActionKind::QUICKFIX,
        ActionKind::Mend => CodeActionKind::from("source.mend.quillet".to_owned()),
        ActionKind::Rewrite => CodeActionKind::REFACTOR_REWRITE,
        ActionKind::Extract => CodeActionKind::REFACTOR_EXTRACT,
    }
}

/// Kinds are trees: `refactor` holds `refactor.rewrite`.
fn is_within(kind: &CodeActionKind, wanted: &CodeActionKind) -> bool {
    let (kind, wanted) = (kind.as_str(), wanted.as_str());
    let rest = kind.strip_prefix(wanted);
    wanted.is_empty() || rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}
