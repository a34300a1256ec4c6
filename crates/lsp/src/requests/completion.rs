//! Completion, documentation only when asked for.

use crate::markup;
use crate::server_state::{RequestContext, path_of};
use quillet_ide::{Choice, ChoiceKind, DocumentationKey};
use serde::{Deserialize, Serialize};
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    CompletionItem, CompletionItemKind, CompletionList, CompletionParams, CompletionResponse,
    CompletionTextEdit, Documentation, InsertTextFormat, TextEdit, Url,
};

/// What goes to the editor and back to find a choice's documentation.
#[derive(Serialize, Deserialize)]
struct Data {
    uri: Url,
    about: DocumentationKey,
}

/// What can be written at a place.
pub(crate) fn complete(
    asked: &RequestContext,
    params: &CompletionParams,
) -> Result<Option<CompletionResponse>> {
    let place = &params.text_document_position;
    let uri = &place.text_document.uri;
    asked.at(place, |document, cursor| {
        let found = quillet_ide::complete(&asked.snapshot, cursor)?;
        let range = document.lines.range(found.replaces.range());
        let snippets = asked.editor.snippets;
        let choices = found.choices.into_iter();
        let choices = choices.filter(|choice| snippets || choice.kind != ChoiceKind::Whole);
        let items = choices.enumerate().map(|(at, choice)| {
            let snippet = choice.snippet.clone().filter(|_| snippets);
            let format = match snippet {
                Some(_) => InsertTextFormat::SNIPPET,
                None => InsertTextFormat::PLAIN_TEXT,
            };
            let new_text = snippet.unwrap_or_else(|| choice.label.clone());
            CompletionItem {
                kind: Some(kind(choice.kind)),
                detail: Some(choice.detail.clone()),
                // The order they come in is the order they are meant to be shown in.
                sort_text: Some(format!("{at:05}")),
                insert_text_format: Some(format),
                text_edit: Some(CompletionTextEdit::Edit(TextEdit { range, new_text })),
                data: data(uri, &choice),
                label: choice.label,
                ..CompletionItem::default()
            }
        });
        let items = items.collect();
        // What may stand at a place depends on what is before it only, so the editor may filter.
        Some(CompletionResponse::List(CompletionList {
            is_incomplete: false,
            items,
        }))
    })
}

/// A choice with its documentation.
pub(crate) fn resolve(asked: &RequestContext, item: &CompletionItem) -> Result<CompletionItem> {
    let mut item = item.clone();
    let data = item
        .data
        .clone()
        .and_then(|data| serde_json::from_value::<Data>(data).ok());
    if let Some(Data { uri, about }) = data
        && let Some(analysis) = asked
            .snapshot
            .analysis(&path_of(&uri), &|| asked.cancel.is_off())
        && let Some(text) = quillet_ide::about(&analysis, &about)
    {
        item.documentation = Some(Documentation::MarkupContent(markup::documentation(
            asked.editor,
            &text,
        )));
    }
    Ok(item)
}

fn data(uri: &Url, choice: &Choice) -> Option<serde_json::Value> {
    if choice.about == DocumentationKey::Nothing {
        return None;
    }
    let data = Data {
        uri: uri.clone(),
        about: choice.about.clone(),
    };
    serde_json::to_value(data).ok()
}

fn kind(kind: ChoiceKind) -> CompletionItemKind {
    match kind {
        ChoiceKind::Keyword => CompletionItemKind::KEYWORD,
        ChoiceKind::Snippet | ChoiceKind::Whole => CompletionItemKind::SNIPPET,
        ChoiceKind::Quantity => CompletionItemKind::VARIABLE,
        ChoiceKind::Material => CompletionItemKind::ENUM,
        ChoiceKind::Thread => CompletionItemKind::TYPE_PARAMETER,
        ChoiceKind::Blank => CompletionItemKind::STRUCT,
        ChoiceKind::Part => CompletionItemKind::CLASS,
        ChoiceKind::Bench => CompletionItemKind::MODULE,
        ChoiceKind::Pen => CompletionItemKind::FUNCTION,
        ChoiceKind::Face => CompletionItemKind::PROPERTY,
        ChoiceKind::Size => CompletionItemKind::VALUE,
        ChoiceKind::Fit => CompletionItemKind::CONSTANT,
        ChoiceKind::Measure => CompletionItemKind::METHOD,
        ChoiceKind::Rule => CompletionItemKind::EVENT,
        ChoiceKind::File => CompletionItemKind::FILE,
    }
}
