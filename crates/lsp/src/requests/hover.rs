//! Hover, and help while a statement is typed.

use crate::markup;
use crate::server_state::RequestContext;
use tower_lsp::jsonrpc::Result;
use tower_lsp::lsp_types::{
    Documentation, Hover, HoverContents, HoverParams, ParameterInformation, ParameterLabel,
    SignatureHelp, SignatureHelpParams, SignatureInformation,
};

/// What is shown of the thing at a place.
pub(crate) fn hover(asked: &RequestContext, params: &HoverParams) -> Result<Option<Hover>> {
    asked.at(&params.text_document_position_params, |document, cursor| {
        let off = || asked.cancel.is_off();
        let found = quillet_ide::hover_until(&asked.snapshot, cursor, &off)?;
        Some(Hover {
            contents: HoverContents::Markup(markup::hover(asked.editor, &found.text)),
            range: Some(document.lines.range(found.span.range())),
        })
    })
}

/// How the statement at a place is written.
pub(crate) fn signature(
    asked: &RequestContext,
    params: &SignatureHelpParams,
) -> Result<Option<SignatureHelp>> {
    asked.at(&params.text_document_position_params, |_, cursor| {
        let found = quillet_ide::signature(cursor)?;
        let parameters = found.phrases.iter().map(|(from, to)| ParameterInformation {
            label: ParameterLabel::LabelOffsets([units(found.form, *from), units(found.form, *to)]),
            documentation: None,
        });
        let active = found.active.and_then(|active| u32::try_from(active).ok());
        // The protocol has no "none"; past the last means it.
        let past = u32::try_from(found.phrases.len()).ok();
        Some(SignatureHelp {
            signatures: vec![SignatureInformation {
                label: found.form.to_owned(),
                documentation: Some(Documentation::String(found.help.to_owned())),
                parameters: Some(parameters.collect()),
                active_parameter: active.or(past),
            }],
            active_signature: Some(0),
            active_parameter: active.or(past),
        })
    })
}

/// Labels count UTF-16 code units, whatever encoding was agreed.
fn units(text: &str, bytes: usize) -> u32 {
    u32::try_from(text[..bytes].encode_utf16().count()).unwrap_or(u32::MAX)
}
