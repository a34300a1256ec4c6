//! Sizes of one text that differ and would read alike.

use super::TextPiece;
use quillet_geometry::Length;
use quillet_standards::Units;

/// Figures further apart than this never read alike, however they are rounded.
const APART: Length = Length::from_nm(1_000_000);

/// Which pieces of a text are to be shown finer, and by how many decimals: as few as tell each pair
/// apart.
pub(super) fn told_apart(pieces: &[TextPiece], units: Units) -> Vec<(usize, usize)> {
    let mut finer: Vec<(usize, usize)> = Vec::new();
    let figures = || pieces.iter().enumerate().filter_map(figure);
    for (first, one) in figures() {
        for (second, other) in figures().filter(|it| it.0 > first) {
            if one == other || (one - other).abs() >= APART {
                continue;
            }
            let shown = [first, second].map(|at| read(&pieces[at], units));
            if shown[0] != shown[1] {
                continue;
            }
            let by = units.apart_by(one, other);
            for at in [first, second] {
                match finer.iter_mut().find(|it| it.0 == at) {
                    Some(known) => known.1 = known.1.max(by),
                    None => finer.push((at, by)),
                }
            }
        }
    }
    finer
}

fn figure((index, piece): (usize, &TextPiece)) -> Option<(usize, Length)> {
    match piece {
        TextPiece::Size(size) => Some((index, size.figure()?)),
        TextPiece::Words(_) => None,
    }
}

/// The number that a reader takes from a size as it is shown.
fn read(piece: &TextPiece, units: Units) -> Option<f64> {
    let TextPiece::Size(size) = piece else {
        return None;
    };
    let shown = size.in_units(units);
    let number = shown.trim_start_matches('⌀').split(' ').next()?;
    number.parse().ok()
}
