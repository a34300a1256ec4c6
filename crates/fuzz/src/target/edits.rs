//! What an editor asks while a text is typed, and every edit that is offered: applied, it leaves a
//! text that can be checked.

use super::parse::places;
use super::{no_nan, none_in, text_of};
use crate::mutate::place;
use quillet_ide::{Analysis, Cursor, Snapshot, Workspace};
use quillet_syntax::{Edit, FileId, Span, edited};
use std::path::Path;
use std::sync::Arc;

pub(super) fn run(bytes: &[u8]) {
    let text = text_of(bytes);
    // Of a text that names it, it may be told.
    if none_in(&text).is_some() {
        return;
    }
    let path = Path::new("/bench/pen.quillet");
    let mut workspace = Workspace::default();
    let analysis = look(&mut workspace, path, &text);
    let Some((snapshot, analysis)) = analysis else {
        return;
    };
    // The place asked about follows from the text, so that a text alone is a whole input.
    let sum = bytes.iter().fold(bytes.len(), |sum, byte| {
        sum.wrapping_mul(31) + usize::from(*byte)
    });
    let offset = place(&text, sum % (text.len() + 1));
    questions(&snapshot, &analysis, offset);
    let within = Span::new(
        analysis.design.root().map_or(FileId(0), |root| root.id),
        offset,
        offset,
    );
    let actions = quillet_ide::actions(&snapshot, &analysis, within, &|| false).unwrap_or_default();
    for action in actions.iter().take(8) {
        no_nan(&action.title);
        let Some(changed) = applied(&text, &action.edits, within.file) else {
            continue;
        };
        look(&mut workspace, path, &changed);
    }
}

/// Checks a text as an editor has it.
fn look(workspace: &mut Workspace, path: &Path, text: &str) -> Option<(Snapshot, Arc<Analysis>)> {
    workspace.set(path, text.into());
    let snapshot = workspace.snapshot();
    let analysis = snapshot.analysis(path, &|| false)?;
    let findings = analysis.findings(&|| false)?;
    places(text, findings);
    Some((snapshot, analysis))
}

fn questions(snapshot: &Snapshot, analysis: &Analysis, offset: usize) {
    let Some(cursor) = Cursor::at(analysis, offset) else {
        return;
    };
    let file = cursor.file;
    let whole = Span::new(file.id, 0, file.text.len());
    if let Some(hover) = quillet_ide::hover(snapshot, cursor) {
        no_nan(&hover.text);
    }
    drop(quillet_ide::complete(snapshot, cursor));
    drop(quillet_ide::signature(cursor));
    drop(quillet_ide::definition(cursor));
    drop(quillet_ide::highlights(cursor));
    drop(quillet_ide::selections(cursor));
    drop(quillet_ide::linked(cursor));
    drop(quillet_ide::colours(analysis, file, whole));
    drop(quillet_ide::symbols(analysis, file));
    drop(quillet_ide::folds(&file.parsed.tree));
    drop(quillet_ide::format_on_type(file, offset));
}

/// The text with edits of its file; none where they reach into others.
fn applied(text: &str, edits: &[Edit], file: FileId) -> Option<String> {
    if edits.iter().any(|edit| edit.span.file != file) {
        return None;
    }
    let changed = edited(text, edits);
    assert!(
        changed.is_some(),
        "{edits:?} overlap or are no place of the text"
    );
    changed
}
