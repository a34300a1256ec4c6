//! How far numbers can move, told behind them.

use crate::{Analysis, Inlay};
use quillet_export::report::RoomInWords;
use quillet_model::SourceFile;
use quillet_room::{Probe, Room};
use quillet_syntax::{Severity, Span};

/// What each number of the file asked for may be, as a small bar and in figures, for those that stand
/// within a span; none of a design with errors, and no more once `called_off` says so.
pub fn room_hints(
    analysis: &Analysis,
    file: &SourceFile,
    within: Span,
    called_off: &dyn Fn() -> bool,
) -> Vec<Inlay> {
    let design = &analysis.design;
    let Some(numbers) = crate::movable::numbers(design, file) else {
        return Vec::new();
    };
    let here = numbers.all().iter();
    let mut here = here.filter(|it| within.contains(it.span)).peekable();
    if here.peek().is_none() {
        return Vec::new();
    }
    let examined = analysis.examined_until(called_off);
    let Some(examined) = examined.filter(|it| it.errors() == 0) else {
        return Vec::new();
    };
    let checked = (design, examined);
    let probe = Probe::of(analysis.loaded(), checked, None, Severity::Warning);
    let hint = |room: Room| {
        let told = RoomInWords::of(&room, design);
        Inlay {
            offset: room.number.span.range().end,
            text: format!("{} {}", told.bar, told.may_be)
                .trim_start()
                .to_owned(),
            about: "what this number may be before something is found",
        }
    };
    here.map_while(|it| Room::of_until(&probe, &numbers, it, called_off))
        .map(hint)
        .collect()
}
