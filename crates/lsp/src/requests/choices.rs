//! Cures that write one text or another at the same place, as one action more in which one chooses: a
//! snippet in an edit, which LSP 3.18 has and the library's types do not.

use super::Document;
use super::actions::{carried, offered};
use super::names::Targets;
use crate::server_state::RequestContext;
use quillet_ide::{Action, ActionKind};
use quillet_syntax::Edit;
use serde_json::{Value, json};
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::CodeActionParams;

/// What can be done at a place, with the choices, as JSON.
pub(crate) fn actions(
    asked: &RequestContext,
    params: &CodeActionParams,
) -> Result<Option<Vec<Value>>> {
    let Some((document, found)) = offered(asked, params)? else {
        return Ok(None);
    };
    let plain = carried(asked, &document, &found).into_iter();
    let plain: std::result::Result<Vec<Value>, _> = plain.map(serde_json::to_value).collect();
    let mut all = plain.map_err(|_| Error::internal_error())?;
    let choices = choices(&found);
    all.extend(choices.iter().filter_map(|it| choice(asked, &document, it)));
    Ok(Some(all))
}

/// The one edit of a cure that writes something on one line.
fn written(action: &Action) -> Option<(usize, &Edit)> {
    let [edit] = action.edits.as_slice() else {
        return None;
    };
    let text = edit.text.to_string();
    let fits = action.kind == ActionKind::Fix && !text.is_empty() && !text.contains(['\n', '\r']);
    action.cures.filter(|_| fits).map(|cures| (cures, edit))
}

/// Cures of one finding that differ in what they write at one place, two at least.
fn choices(found: &[Action]) -> Vec<Vec<&Action>> {
    let mut groups: Vec<Vec<&Action>> = Vec::new();
    let place = |action: &Action| written(action).map(|(cures, edit)| (cures, edit.span));
    for action in found.iter().filter(|it| place(it).is_some()) {
        let same = |group: &&mut Vec<&Action>| place(group[0]) == place(action);
        match groups.iter_mut().find(same) {
            Some(group) => group.push(action),
            None => groups.push(vec![action]),
        }
    }
    groups.retain(|group| group.len() > 1);
    groups
}

fn choice(asked: &RequestContext, document: &Document, group: &[&Action]) -> Option<Value> {
    let first = *group.first()?;
    let (_, edit) = written(first)?;
    let path = document.analysis.path(edit.span)?;
    let place = Targets::new(asked).location(path, edit.span)?;
    let edits = group.iter().filter_map(|it| written(it));
    let texts: Vec<String> = edits.map(|(_, edit)| edit.text.to_string()).collect();
    let snippet = quillet_ide::stop_of(1, &texts);
    let plain = carried(asked, document, std::slice::from_ref(first)).pop()?;
    let mut action = serde_json::to_value(plain).ok()?;
    action["title"] = json!(format!("choose one of {}", texts.join(", ")));
    action["edit"] = json!({"documentChanges": [{
        "textDocument": {"uri": place.uri, "version": asked.version(path)},
        "edits": [{"range": place.range, "snippet": {"kind": "snippet", "value": snippet}}],
    }]});
    Some(action)
}
