//! Walls and flats of the parts.

use super::super::parts::PartMeasures;
use super::figures::{length, lengths_between, range_of, size, thickness};
use crate::report::table::{Cell, table};
use quillet_model::Units;

/// What a clearance is to that is to no metal: the plane at which a drill's point begins.
pub(super) const PLANE: &str = "the plane, no metal, where the point begins of ";

/// Each set of flats across flats and corners, first where it begins.
pub(super) fn flats(parts: &[&PartMeasures], units: Units) -> Option<String> {
    let rows = parts.iter().flat_map(|part| {
        part.flats.iter().map(|it| {
            let both = |[from, to]: [f64; 2]| match from == to {
                true => length(Some(from), units),
                false => lengths_between(Some([from, to]), units),
            };
            vec![
                Cell::left(&part.name),
                Cell::right(it.count.to_string()),
                lengths_between(Some([it.from_mm, it.to_mm]), units),
                both(it.across_mm),
                both(it.corners_mm),
            ]
        })
    });
    let rows: Vec<Vec<Cell>> = rows.collect();
    let head = ["flats", "", "at", "across", "across corners"];
    (!rows.is_empty()).then(|| table(2, &head, &rows))
}

pub(super) fn least_walls(parts: &[&PartMeasures], units: Units) -> Option<String> {
    let rows = parts.iter().filter_map(|part| {
        let wall = part.walls.least()?;
        Some(vec![
            Cell::left(&part.name),
            thickness(wall.least_mm, units),
            thickness(wall.worst_mm, units),
            Cell::left(format!(
                "{} over {}",
                wall.outer.in_units(units),
                wall.inner.in_units(units)
            )),
        ])
    });
    let rows: Vec<Vec<Cell>> = rows.collect();
    let head = ["least wall", "drawn", "at worst", ""];
    (!rows.is_empty()).then(|| table(2, &head, &rows))
}

pub(super) fn all_walls(parts: &[&PartMeasures], units: Units) -> Option<String> {
    let of_part = |part: &&PartMeasures| {
        let rows = part.walls.iter().map(|wall| {
            vec![
                thickness(wall.least_mm, units),
                thickness(wall.worst_mm, units),
                Cell::right(range_of([wall.from_mm, wall.to_mm], units)),
                Cell::left(format!(
                    "{} over {}, {}",
                    wall.outer.in_units(units),
                    wall.inner.in_units(units),
                    wall.role
                )),
            ]
        });
        let rows: Vec<Vec<Cell>> = rows.collect();
        let apart = part.centroid_mm.zip(part.balance_mm);
        let apart = apart.filter(|(centroid, balance)| (centroid - balance).abs() >= 0.005);
        let centroid = apart.map(|(centroid, _)| {
            format!(
                "  {}: its middle by volume lies at {}\n",
                part.name,
                size(centroid, units)
            )
        });
        let head = ["drawn", "at worst", "from the first end", ""];
        let walls = (!rows.is_empty())
            .then(|| format!("  walls of {}\n", part.name) + &table(4, &head, &rows));
        [centroid, walls].into_iter().flatten().collect::<Vec<_>>()
    };
    let all: Vec<String> = parts.iter().flat_map(of_part).collect();
    (!all.is_empty()).then(|| all.join("\n"))
}
