//! Commands the server carries out: it writes what is asked for into the user's cache and has
//! the editor show it.

use crate::client_messages::{ClientMessages, Request};
use crate::pages;
use crate::preview_page;
use crate::requests;
use crate::server_state::{RequestContext, ServerState, path_of};
use quillet_export::draw::{self, Paper, PartTitle};
use quillet_export::sheet;
use quillet_export::write::{self, Background};
use quillet_ide::Analysis;
use serde_json::{Value, json};
use std::path::Path;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{self, ExecuteCommandParams, Url};

/// A command.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Command {
    /// `quillet.open.preview`, arguments: document, name of a pen or part.
    Preview,
    /// `quillet.open.drawing`, arguments: document, name of a pen or part.
    Drawing,
    /// `quillet.open.sheet`, arguments: document, name of a pen.
    Sheet,
    /// `quillet.spread`, arguments: document, name of a pen.
    Spread,
    /// `quillet.compare`, arguments: document, revision.
    Compare,
    /// `quillet.explain`, argument: a rule.
    Explain,
}

impl Command {
    const ALL: [Command; 6] = [
        Command::Preview,
        Command::Drawing,
        Command::Sheet,
        Command::Spread,
        Command::Compare,
        Command::Explain,
    ];

    fn name(self) -> &'static str {
        match self {
            Command::Preview => "quillet.open.preview",
            Command::Drawing => "quillet.open.drawing",
            Command::Sheet => "quillet.open.sheet",
            Command::Spread => "quillet.spread",
            Command::Compare => "quillet.compare",
            Command::Explain => "quillet.explain",
        }
    }
}

/// The names of all commands.
pub(crate) fn names() -> Vec<String> {
    Command::ALL
        .into_iter()
        .map(|command| command.name().to_owned())
        .collect()
}

/// What a lens shows, and does where it does something.
pub(crate) fn of_lens(
    title: String,
    command: Option<(Command, String)>,
    uri: &Url,
) -> lsp_types::Command {
    match command {
        Some((command, name)) => lsp_types::Command {
            title,
            command: command.name().into(),
            arguments: Some(vec![json!(uri), json!(name)]),
        },
        // Editors show a lens whose command has no name as plain text.
        None => lsp_types::Command {
            title,
            command: String::new(),
            arguments: None,
        },
    }
}

/// Carries a command out; gives the address of what it made, which the editor is asked to show.
///
/// # Errors
/// When there is no such command, its arguments are not as said, or nothing could be made.
pub(crate) async fn execute(
    server: &ServerState,
    outbox: &ClientMessages,
    params: ExecuteCommandParams,
) -> Result<Option<Value>> {
    let name = params.command.clone();
    let command = Command::ALL
        .into_iter()
        .find(|command| command.name() == name);
    let command = command.ok_or_else(|| Error::invalid_params(format!("no command {name}")))?;
    let url = server
        .answer(move |asked| carry_out(asked, command, &params.arguments))
        .await?;
    // Pages are text for the editor, pictures are for whatever shows them.
    let external = ![Command::Explain, Command::Spread].contains(&command);
    outbox.ask(
        &server.state(),
        Request::Show {
            url: url.clone(),
            external,
        },
    );
    Ok(Some(json!(url)))
}

fn carry_out(asked: &RequestContext, command: Command, arguments: &[Value]) -> Result<Url> {
    let text = |index: usize| arguments.get(index).and_then(Value::as_str);
    if command == Command::Explain {
        let rule = text(0).ok_or_else(|| Error::invalid_params("which rule?"))?;
        return pages::address(rule).ok_or_else(|| Error::invalid_params("no such rule"));
    }
    let document = text(0).and_then(|uri| Url::parse(uri).ok());
    let (Some(document), Some(name)) = (document, text(1)) else {
        return Err(Error::invalid_params("a document and a name were expected"));
    };
    let path = path_of(&document);
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let shown = |kind: &str, bytes: &str| {
        let file = Path::new("shown").join(format!("{stem}-{kind}"));
        let nowhere = || Error::invalid_params("there is no place to write it");
        pages::kept(&file, bytes).ok_or_else(nowhere)
    };
    if command == Command::Compare {
        let pages = requests::compare::pages(asked, &path, Some(name))?;
        return shown("compared.html", &pages.html);
    }
    let analysis = asked.snapshot.analysis(&path, &|| asked.cancel.is_off());
    let nothing = || Error::invalid_params(format!("{name} is not there, or has no shape yet"));
    let analysis = analysis.ok_or_else(nothing)?;
    let (kind, bytes) = match command {
        Command::Drawing => {
            let design = &analysis.design;
            let title = PartTitle {
                units: design.units(),
                ..PartTitle::default()
            };
            let pen = design
                .pen(name)
                .and_then(|pen| draw::pen(pen, Paper::A4, &title));
            let part = || {
                design
                    .part(name)
                    .and_then(|part| draw::part(part, Paper::A4, &title))
            };
            let scene = pen.or_else(part).ok_or_else(nothing)?;
            ("drawing.svg", write::svg(&scene, Background::Paper))
        }
        Command::Sheet => (
            "sheet.html",
            sheet(asked, &analysis, name).ok_or_else(nothing)?,
        ),
        Command::Spread => {
            let off = || asked.cancel.is_off();
            let text = quillet_ide::spread(&analysis, name, &off).ok_or_else(nothing)?;
            ("spread.txt", text)
        }
        _ => {
            let preview = quillet_ide::preview_of(&analysis, name).ok_or_else(nothing)?;
            ("preview.html", preview_page::of(&preview))
        }
    };
    shown(&format!("{name}-{kind}"), &bytes)
}

/// All that the maker takes to the lathe for a pen; what is found stands on it.
fn sheet(asked: &RequestContext, analysis: &Analysis, name: &str) -> Option<String> {
    let pen = analysis.design.pen(name)?;
    let judged = analysis.examined_until(&|| asked.cancel.is_off())?;
    let content = sheet::content(&analysis.design, pen, judged, analysis.design.units());
    Some(sheet::html(&content, Paper::A4))
}
