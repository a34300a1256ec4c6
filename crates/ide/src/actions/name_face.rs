//! Gives the numbers that put one face where it is a name together.

use super::create::before_item;
use super::extract::free_name;
use super::{Action, ActionKind, line_end};
use crate::Cursor;
use quillet_geometry::number as figure;
use quillet_room::{Number, linked};
use quillet_syntax::Edit;

/// Moves the number at the cursor into a `let` above its item, and writes those that put the same face
/// where it is by it, so that they move as one.
pub(super) fn named(cursor: Cursor<'_>) -> Option<Action> {
    let design = &cursor.analysis.design;
    let numbers = crate::movable::numbers(design, cursor.file)?;
    let number = numbers.touching(cursor.file.id, cursor.offset)?;
    let others = linked(design, &numbers, number);
    let alike = |it: &&Number| it.unit == number.unit;
    if others.is_empty() || !others.iter().all(alike) {
        return None;
    }
    let name = free_name(cursor, number.span);
    let (value, line) = (cursor.text(number.span), line_end(&cursor.file.text));
    let definition = format!("let {name} = {value}{line}{line}");
    let mut edits = vec![
        before_item(cursor, number.span, &definition),
        Edit::new(number.span, name.clone()),
    ];
    for other in &others {
        // What is written as a length from where it begins is so much less than the face's place.
        let less = number.value - other.value;
        let size = format!("{}{}", figure(less.abs(), 6), other.unit);
        edits.push(Edit::new(
            other.span,
            match less {
                less if less.abs() < 1e-9 => name.clone(),
                less if less > 0.0 => format!("({name} - {size})"),
                _ => format!("({name} + {size})"),
            },
        ));
    }
    let together: Vec<&str> = others.iter().map(|it| it.name.as_str()).collect();
    Some(Action {
        title: format!(
            "name it, with {}: let {name} = {value}",
            together.join(" and ")
        ),
        kind: ActionKind::Extract,
        edits,
        cures: None,
        preferred: false,
    })
}
