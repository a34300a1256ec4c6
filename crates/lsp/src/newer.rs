//! What LSP 3.18 has beyond the types of the protocol's library, which are of 3.17: read and written as JSON
//! before the library sees it. Taken are `textDocument/rangesFormatting` and snippets in edits.

use serde_json::{Value, json};
use tower_lsp::jsonrpc::{Request, Response};

/// By this name code actions are asked for by an editor that takes snippets in edits.
pub(crate) const ACTIONS: &str = "quillet/codeAction";

/// What of it an editor takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Newer {
    /// Formatting of several ranges in one request.
    pub(crate) ranges_formatting: bool,
    /// Snippets in the edits of a code action.
    pub(crate) snippet_edits: bool,
}

impl Newer {
    /// What the editor says in `initialize`; nothing in any other request.
    pub(crate) fn of(request: &Request) -> Self {
        let asked = request
            .params()
            .filter(|_| request.method() == "initialize");
        let says = |path: &str| {
            let said = asked.and_then(|it| it.pointer("/capabilities")?.pointer(path));
            said == Some(&Value::Bool(true))
        };
        Self {
            ranges_formatting: says("/textDocument/rangeFormatting/rangesSupport"),
            snippet_edits: says("/workspace/workspaceEdit/snippetEditSupport")
                && says("/workspace/workspaceEdit/documentChanges"),
        }
    }

    /// Says in the answer to `initialize` what the library's types cannot.
    pub(crate) fn announced(self, answer: Response) -> Response {
        let (id, result) = answer.into_parts();
        let added = result.map(|mut it| {
            if let Some(can) = it
                .get_mut("capabilities")
                .filter(|_| self.ranges_formatting)
            {
                can["documentRangeFormattingProvider"] = json!({"rangesSupport": true});
            }
            it
        });
        Response::from_parts(id, added)
    }
}

/// A request in the names that the library's types have: `workspace.diagnostics`, which the protocol says,
/// is `diagnostic` to them.
pub(crate) fn as_typed(request: Request) -> Request {
    if request.method() != "initialize" {
        return request;
    }
    let (method, id, params) = request.into_parts();
    let mut params = params.unwrap_or_default();
    if let Some(workspace) = params.pointer_mut("/capabilities/workspace")
        && let Some(said) = workspace.get("diagnostics").cloned()
    {
        workspace["diagnostic"] = said;
    }
    built(method, id, params)
}

/// A request for code actions, asked by the name under which they are answered with snippets.
pub(crate) fn with_snippets(request: Request) -> Request {
    if request.method() != "textDocument/codeAction" {
        return request;
    }
    let (_, id, params) = request.into_parts();
    built(ACTIONS.into(), id, params.unwrap_or_default())
}

fn built(
    method: std::borrow::Cow<'static, str>,
    id: Option<tower_lsp::jsonrpc::Id>,
    params: Value,
) -> Request {
    let bare = Request::build(method).params(params);
    match id {
        Some(id) => bare.id(id).finish(),
        None => bare.finish(),
    }
}
