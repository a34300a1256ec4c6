//! What sits in pockets: in the list of the parts, and as it is put there.

use super::first::UNKNOWN;
use super::shown::PartEntry;
use quillet_model::{End, HeldBy, MagnetPair, Part, PartId, Pen, PocketCut, Pocketed};

/// What sits in the pockets of all parts, each kind once with how many of it, as bought parts are listed.
pub(super) fn listed(pen: &Pen) -> Vec<PartEntry> {
    let mut kinds: Vec<(&Part, u32)> = Vec::new();
    for it in &pen.assembly.pockets {
        let same = |known: &&mut (&Part, u32)| known.0.name.text == it.piece.name.text;
        match kinds.iter_mut().find(same) {
            Some(known) => known.1 += it.count,
            None => kinds.push((&it.piece, it.count)),
        }
    }
    let each = kinds.into_iter().map(|(piece, count)| {
        let title = piece.title().map_or(&piece.name.text, |it| &it.text);
        PartEntry {
            number: 0,
            name: match count {
                1 => title.to_string(),
                count => format!("{count} × {title}"),
            },
            stock: if piece.is_bought() { "bought" } else { "made" }.into(),
            mass: mass(piece, count),
            made: None,
        }
    });
    each.collect()
}

fn mass(piece: &Part, count: u32) -> String {
    let known = piece.weigh().filter(|_| piece.lacks_mass().is_none());
    known.map_or(UNKNOWN.into(), |it| {
        format!("{:.1} g", it.mass_g * f64::from(count))
    })
}

/// How it is put there, before the pen is put together: a line each.
pub(super) fn steps(pen: &Pen) -> Vec<String> {
    let pockets = pen.assembly.pockets.iter();
    pockets.filter_map(|it| step(pen, it)).collect()
}

/// `Glue a magnet into each of 3 pockets at cap's mouth, north out`.
fn step(pen: &Pen, it: &Pocketed) -> Option<String> {
    let part = pen.parts.get(it.part)?;
    let plain = |name: &str| name.replace('-', " ");
    let owner = plain(&part.name.text);
    let end: Option<End> = match it.cut {
        PocketCut::Beside(id) => part.circle(id).map(|it| it.end),
        PocketCut::Side(_) => None,
    };
    let place = match end {
        Some(end) => format!("at {owner}’s {}", plain(part.end_name(end))),
        None => format!("in the side of {owner}"),
    };
    let (verb, hole) = match it.is_slotted(part) {
        true => ("Put", "slot"),
        false => ("Glue", "pocket"),
    };
    let piece = plain(&it.piece.name.text);
    let what = match it.count {
        1 => format!("{verb} the {piece} into the {hole}"),
        count => format!("{verb} one {piece} into each of {count} {hole}s"),
    };
    let out = match end.and_then(|_| pole_out(pen, it.part, &it.piece)) {
        Some(pole) => format!(", {} out", plain(&pole)),
        None => String::new(),
    };
    Some(format!("{what} {place}{out}"))
}

/// Which end of a magnet faces out of its pocket, so that it draws those that it meets: its first on what goes
/// in, its second on what receives it. None where it holds nothing.
fn pole_out(pen: &Pen, part: PartId, piece: &Part) -> Option<String> {
    piece.pulls_n()?;
    let nth = |it: &HeldBy| match it {
        HeldBy::Magnets(MagnetPair { male, .. }) if *male == part => Some(End::First),
        HeldBy::Magnets(MagnetPair { female, .. }) if *female == part => Some(End::Second),
        _ => None,
    };
    let mut held = pen
        .assembly
        .joints
        .iter()
        .flat_map(|it| &it.verdict.held_by);
    held.find_map(nth).map(|it| piece.end_name(it).to_owned())
}

/// Whether a magnet sits in one.
pub(super) fn has_magnets(pen: &Pen) -> bool {
    let mut pockets = pen.assembly.pockets.iter();
    pockets.any(|it| it.piece.pulls_n().is_some())
}
