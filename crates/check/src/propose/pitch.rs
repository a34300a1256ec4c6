//! Holes beside the axis put on another pitch circle.

use super::{Proposal, literal};
use crate::Wall;
use quillet_geometry::Length;
use quillet_model::{Design, Origin, Part, Units};
use quillet_syntax::{Edit, Size, text};
use std::f64::consts::PI;

/// The pitch circle that leaves so much of a wall beside holes, and whether more or less than it does
/// too; none where another circle alone does not help: at the bottom of a hole, and between holes of two
/// statements.
pub(crate) fn pitch(
    part: &Part,
    wall: &Wall,
    wanted: Length,
    units: Units,
) -> Option<(Length, &'static str)> {
    let holes = wall.beside().and_then(|it| part.circle(it))?;
    let short = wanted - wall.least;
    let is_beside = |it: Origin| matches!(it, Origin::Beside(_));
    let across = (wall.outer_at - wall.at).abs() <= (wall.outer_dia - wall.inner_dia).abs();
    match (is_beside(wall.outer), is_beside(wall.inner)) {
        (true, true) if wall.outer == wall.inner => {
            let turn = PI / f64::from(holes.around.count);
            let apart = (wanted + holes.dia).to_mm() / turn.sin();
            Some((units.up(Length::mm(apart)), "more"))
        }
        (true, false) if across => Some((units.up(holes.on + short.twice()), "more")),
        (false, true) if across => Some((units.down(holes.on - short.twice()), "less")),
        _ => None,
    }
}

/// The same written in its place.
pub(super) fn moved(design: &Design, part: &Part, wall: &Wall, wanted: Length) -> Option<Proposal> {
    let holes = wall.beside().and_then(|it| part.circle(it))?;
    let (on, _) = pitch(part, wall, wanted, design.units_at(part.span))?;
    let written = literal(design, holes.on_span)? == holes.on && on.is_positive();
    let title = text!("put them on ⌀{}", Size::Written(on));
    let edit = Edit::new(holes.on_span, Size::Written(on));
    written.then(|| (title, vec![edit]))
}
