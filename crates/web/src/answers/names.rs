//! Where a name comes from, where it is used, and what else it may be called.

use crate::opened::{Changes, Opened, Stretch, never, put};

/// Where the name at a place is defined.
pub(super) fn definition(open: &Opened, at: usize) -> Option<Stretch> {
    let found = quillet_ide::definition(open.cursor(at)?)?;
    open.stretch_at(&found.path, found.name)
}

/// Everywhere the name at a place is used, its definition too.
pub(super) fn references(open: &Opened, at: usize) -> Vec<Stretch> {
    let Some(cursor) = open.cursor(at) else {
        return Vec::new();
    };
    let found = quillet_ide::references(&open.snapshot, cursor, true, &never);
    let each = found.iter();
    each.filter_map(|it| open.stretch_at(&it.path, it.name))
        .collect()
}

/// The edits that give the name at a place another.
///
/// # Errors
///
/// Where there is no name, or the new one is none or is taken.
pub(super) fn rename(open: &Opened, at: usize, to: &str) -> Result<Changes, String> {
    let mut changes = Changes::new();
    let Some(cursor) = open.cursor(at) else {
        return Ok(changes);
    };
    for (path, spans) in quillet_ide::rename(&open.snapshot, cursor, to, &never)? {
        let places = spans.iter().filter_map(|it| open.stretch_at(&path, *it));
        places.for_each(|place| put(&mut changes, place, to.to_owned()));
    }
    Ok(changes)
}
