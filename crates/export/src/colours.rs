//! What a part looks as if made of.

use quillet_model::{Filling, Part};
use quillet_standards::Colour;

/// What is bought, whatever it is made of; rubber; and cured glue.
pub(crate) const BOUGHT: Colour = Colour::new(0xa9, 0xb1, 0xb4);
const RUBBER: Colour = Colour::new(0x3a, 0x3a, 0x3c);
const GLUE: Colour = Colour::new(0xd8, 0xcf, 0xb4);

/// At a station, from outside, mm.
pub(crate) fn at(part: &Part, z_mm: f64) -> Colour {
    let within = |from: f64, to: f64| (from..=to).contains(&z_mm);
    let pieces = part.blanks();
    let piece = pieces
        .iter()
        .find(|it| within(it.from.to_mm(), it.to.to_mm()));
    match piece.or(pieces.first()) {
        Some(piece) => piece.stock.material.colour,
        None => whole(part),
    }
}

/// Of one of the bodies that a part is made up of.
pub(crate) fn of(part: &Part, filling: Filling) -> Colour {
    match filling {
        Filling::Glue(_) => GLUE,
        Filling::Piece(which) => part
            .blanks()
            .get(which)
            .map_or(whole(part), |it| it.stock.material.colour),
    }
}

/// Of a part that is in one, as far as that is known.
pub(crate) fn whole(part: &Part) -> Colour {
    match &**part.blanks() {
        [piece, ..] => piece.stock.material.colour,
        [] if part.ring().is_some() => RUBBER,
        [] if part.is_bought() => BOUGHT,
        [] => Colour::UNKNOWN,
    }
}
