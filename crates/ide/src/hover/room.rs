//! How far the number at the cursor can move, what stops it each way, and what it moves.

use super::{Sheet, moves};
use crate::Cursor;
use quillet_export::report::RoomInWords;
use quillet_room::{Probe, Room};
use quillet_syntax::{Severity, Token};

/// Of a number of the file asked for, where all of it could be resolved.
pub(super) fn of(
    sheet: &mut Sheet,
    cursor: Cursor<'_>,
    token: Token,
    called_off: &dyn Fn() -> bool,
) -> Option<()> {
    let analysis = cursor.analysis;
    let design = &analysis.design;
    let numbers = crate::movable::numbers(design, cursor.file)?;
    let number = numbers.all().iter().find(|it| it.span == token.span)?;
    let examined = analysis.examined_until(called_off)?;
    // Beside what is wrong already anything as wrong would pass.
    if examined.errors() > 0 {
        return None;
    }
    let checked = (design, examined);
    let probe = Probe::of(analysis.loaded(), checked, None, Severity::Warning);
    let room = Room::of_until(&probe, &numbers, number, called_off)?;
    let told = RoomInWords::of(&room, design);
    sheet.paragraph(format!("**{}**", number.name));
    sheet.row("may be", &told.may_be);
    if let Some(rule) = told.below {
        sheet.row("below", rule);
    }
    if let Some(rule) = told.above {
        sheet.row("above", rule);
    }
    for (measure, change) in moves::of(&probe, design, number, called_off)? {
        sheet.row(
            &format!("1 {} more: {measure}", number.grain.unit()),
            &change,
        );
    }
    Some(())
}
