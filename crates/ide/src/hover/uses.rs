//! A file that a `use` names: what comes in with it.

use super::Sheet;
use crate::sheet::as_written;
use crate::{Cursor, links};
use quillet_model::DefinitionKind;

/// The items of the file that the `use` at the cursor names, kind by kind.
pub(super) fn file(sheet: &mut Sheet, cursor: Cursor<'_>) {
    let Some(link) = links::at(cursor) else {
        return;
    };
    let name = link.path.file_name().unwrap_or_default().to_string_lossy();
    sheet.paragraph(format!("**{}**", as_written(&name)));
    let names = &cursor.analysis.design.names.definitions;
    let own = names
        .iter()
        .filter(|it| it.owner.is_none() && it.span.file == link.file);
    let mut kinds: Vec<(DefinitionKind, Vec<&str>)> = Vec::new();
    for item in own {
        match kinds.iter_mut().find(|(kind, _)| *kind == item.kind) {
            Some((_, names)) => names.push(&item.name),
            None => kinds.push((item.kind, vec![&item.name])),
        }
    }
    for (kind, names) in kinds {
        sheet.row(kind.word(), &names.join(", "));
    }
}
