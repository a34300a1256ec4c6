//! How far numbers can move.

use crate::opened::Opened;
use quillet_export::report::Rooms;
use quillet_room::{Numbers, Probe, Room};
use quillet_syntax::Severity;

/// How far numbers of a file can move before something is found; all of them, where none is named.
///
/// # Errors
///
/// Where there is no number of a name.
pub(super) fn room(open: &Opened, pen: Option<&str>, of: &[String]) -> Result<Rooms, String> {
    let until = Severity::Warning;
    let analysis = &open.analysis;
    let design = &analysis.design;
    let numbers = Numbers::of(design);
    let asked = numbers.named(design, of).map_err(|it| it.to_string())?;
    let probe = Probe::of(analysis.loaded(), (design, analysis.examined()), pen, until);
    let rooms: Vec<Room> = asked
        .iter()
        .map(|it| Room::of(&probe, &numbers, it))
        .collect();
    Ok(Rooms::of(design, pen, until, &rooms))
}
