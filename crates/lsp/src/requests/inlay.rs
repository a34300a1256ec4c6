//! Inlay hints and code lenses.

use crate::command::{self, Command};
use crate::server_state::{RequestContext, path_of};
use quillet_ide::LensTarget;
use quillet_syntax::Span;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    CodeLens, CodeLensParams, InlayHint, InlayHintLabel, InlayHintParams, InlayHintTooltip,
};

/// The hints of some lines.
pub(crate) fn hints(
    asked: &RequestContext,
    params: &InlayHintParams,
) -> Result<Option<Vec<InlayHint>>> {
    let Some(document) = asked.document(&params.text_document.uri) else {
        return Ok(None);
    };
    // Editors ask for more lines than there are.
    let offset = |place| document.lines.clamped(place);
    let (start, end) = (offset(params.range.start), offset(params.range.end));
    let within = Span::new(document.file.id, start, end);
    let settings = asked.snapshot.settings();
    let mut found = quillet_ide::inlays(&document.analysis, settings, &document.file, within);
    if settings.hints.room {
        let off = || asked.cancel.is_off();
        let (analysis, file) = (&document.analysis, &document.file);
        found.extend(quillet_ide::room_hints(analysis, file, within, &off));
        found.sort_by_key(|it| it.offset);
    }
    let hints = found.into_iter().map(|hint| InlayHint {
        position: document.lines.position(hint.offset),
        label: InlayHintLabel::String(hint.text),
        kind: None,
        text_edits: None,
        tooltip: Some(InlayHintTooltip::String(hint.about.into())),
        padding_left: Some(true),
        padding_right: None,
        data: None,
    });
    Ok(Some(hints.collect()))
}

/// The lenses of a document.
pub(crate) fn lenses(
    asked: &RequestContext,
    params: &CodeLensParams,
) -> Result<Option<Vec<CodeLens>>> {
    let uri = &params.text_document.uri;
    let Some(document) = asked.document(uri) else {
        return Ok(None);
    };
    let off = || asked.cancel.is_off();
    let settings = asked.snapshot.settings();
    let found = quillet_ide::lenses(&document.analysis, settings, &document.file, &off);
    let path = path_of(uri);
    let since = super::compare::lenses(asked, &path, &document.analysis);
    let lenses = found.into_iter().flatten().chain(since).map(|lens| {
        let command = match lens.opens {
            LensTarget::Nothing => None,
            LensTarget::Preview(name) => Some((Command::Preview, name)),
            LensTarget::Drawing(name) => Some((Command::Drawing, name)),
            LensTarget::Sheet(name) => Some((Command::Sheet, name)),
            LensTarget::Spread(name) => Some((Command::Spread, name)),
            LensTarget::Comparison => Some((Command::Compare, settings.compare_with().to_owned())),
        };
        CodeLens {
            range: document.lines.range(lens.span.range()),
            command: Some(command::of_lens(lens.text, command, uri)),
            data: None,
        }
    });
    Ok(Some(lenses.collect()))
}
