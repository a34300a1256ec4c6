//! Numbers that put one face of a part where it is, and so move together.

use crate::{Number, Numbers};
use quillet_geometry::Length;
use quillet_model::{Cut, Design, End, Part};

/// A place along a part, as it is written: from an end, inward.
#[derive(Clone, Copy, PartialEq)]
struct Face {
    end: End,
    inward: Length,
}

/// The other numbers of its part that put something in the same plane, counted from the same end: the
/// station of a tenon's shoulder, the relief that ends at it. None of a number in a sum.
pub fn with<'n>(design: &Design, numbers: &'n Numbers, number: &Number) -> Vec<&'n Number> {
    let part = number.part.as_deref().and_then(|it| design.part(it));
    let Some((part, face)) = part.and_then(|part| Some((part, face(part, number)?))) else {
        return Vec::new();
    };
    let others = numbers
        .all()
        .iter()
        .filter(|it| it.part == number.part && *it != number);
    others
        .filter(|it| self::face(part, it) == Some(face))
        .collect()
}

/// The plane that a number alone decides; none where it decides something else.
fn face(part: &Part, number: &Number) -> Option<Face> {
    if !number.is_whole {
        return None;
    }
    if let Some(station) = part.stations.iter().find(|it| it.span == number.statement) {
        let inward = part.station(station.from, station.at);
        return (number.role == "at").then_some(Face {
            end: station.from,
            inward,
        });
    }
    let cut = part
        .features
        .iter()
        .find(|it| it.span == number.statement)?;
    // A cone's end is no face of a shoulder, whatever its depth.
    let is_deep = matches!(cut.cut, Cut::Drill { .. });
    let inward = match number.role.as_str() {
        "for" | "to" if !cut.through && !is_deep => cut.to,
        "at" => cut.from,
        _ => return None,
    };
    let end = cut.end;
    Some(Face { end, inward })
}
