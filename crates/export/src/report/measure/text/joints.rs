//! The joints of a pen: a row each, or all that is known of each.

use super::super::joints::{JointMeasures, TouchMeasures};
use super::super::pens::PenMeasures;
use super::figures::{length, size};
use super::walls::PLANE;
use crate::report::table::{Cell, table};
use quillet_model::Units;

pub(super) fn joints(pen: &PenMeasures, full: bool, units: Units) -> Option<String> {
    let rows: Vec<Vec<Cell>> = pen.joints.iter().map(|it| joint(it, units)).collect();
    if rows.is_empty() {
        return None;
    }
    let head = ["joint", "", "goes in", "to take apart", "rests", "held by"];
    let mut sections = vec![table(2, &head, &rows)];
    if full {
        sections.extend(pen.joints.iter().filter_map(|it| all_of(it, units)));
    }
    Some(sections.join("\n"))
}

/// A joint in a line.
fn joint(it: &JointMeasures, units: Units) -> Vec<Cell> {
    let rests = match (it.touches.first(), it.stopped_by) {
        (Some(touch), _) => on(touch, units),
        (None, Some(by)) => format!("by {by}"),
        (None, None) => String::new(),
    };
    let held = match (it.held_by.as_ref(), it.goes_in_mm) {
        (Some(held), _) => held.in_units(units),
        (None, Some(_)) => "nothing".into(),
        // Where it does not come to rest, what holds it is as little known.
        (None, None) => "not known".into(),
    };
    let turns = it.turns.map(|turns| format!("{turns:.2} turns"));
    vec![
        Cell::left(it.kind),
        Cell::left(format!("{} in {}", it.male, it.female)),
        length(it.goes_in_mm, units),
        Cell::right(turns.unwrap_or_default()),
        Cell::left(rests),
        Cell::left(held),
    ]
}

/// All that is known of a joint.
fn all_of(it: &JointMeasures, units: Units) -> Option<String> {
    let mut lines = String::new();
    let mut render = |line: String| lines += &format!("    {line}\n");
    for touch in it.touches.iter().skip(1) {
        render(format!("touches also {}", on(touch, units)));
    }
    if let Some(gap) = it.seat_gap_mm {
        render(match gap < 0.0 {
            true => format!("it has gone {} past its seat", size(-gap, units)),
            false => format!("its seat is {} apart", size(gap, units)),
        });
    }
    if let (Some(thread), Some(overlap), Some(travel)) = (&it.thread, it.overlap_mm, it.travel_mm) {
        let catches = it
            .catch_deg
            .map(|deg| format!(", catches within {deg:.0}°"));
        let ways = it.clock_positions.filter(|ways| *ways > 1);
        let ways = ways.map(|ways| format!(", {ways} ways round"));
        render(format!(
            "{thread} overlaps {}, lets go after {}{}{}",
            size(overlap, units),
            size(travel, units),
            catches.unwrap_or_default(),
            ways.unwrap_or_default(),
        ));
    }
    if let Some(apart) = it.marks_apart_deg {
        render(format!("its marks rest {apart:.0}° apart"));
    }
    for it in &it.trapped {
        let (length, room) = (size(it.length_mm, units), size(it.room_mm, units));
        render(format!(
            "{} is trapped at {length}, {room} of room",
            it.part
        ));
    }
    let rows: Vec<Vec<Cell>> = rooms(it, units).collect();
    if !rows.is_empty() {
        lines += &table(4, &["room", "drawn", "at worst", ""], &rows);
    }
    let head = format!("  {} {} in {}\n", it.kind, it.male, it.female);
    (!lines.is_empty()).then_some(head + &lines)
}

/// The rooms of a joint, each with what it loses at worst.
fn rooms(it: &JointMeasures, units: Units) -> impl Iterator<Item = Vec<Cell>> + '_ {
    it.clearances.iter().flat_map(move |it| {
        let whole = vec![
            Cell::left(it.kind),
            length(Some(it.nominal_mm), units),
            length(Some(it.worst_mm), units),
            Cell::left(format!(
                "{} | {}{}{}",
                it.male.in_units(units),
                if it.is_to_plane() { PLANE } else { "" },
                it.female.in_units(units),
                if it.as_drawn {
                    ""
                } else {
                    ", come to only at worst"
                }
            )),
        ];
        // What it loses at worst, size by size.
        let links = it
            .chain
            .iter()
            .filter(|link| link.counts())
            .map(move |link| {
                vec![
                    Cell::left(""),
                    Cell::left(""),
                    length(Some(-link.takes_mm), units),
                    Cell::left(format!("  {}", link.reported.in_units(units))),
                ]
            });
        std::iter::once(whole).chain(links)
    })
}

/// Two places that touch.
fn on(touch: &TouchMeasures, units: Units) -> String {
    format!(
        "{} on {}",
        touch.male.in_units(units),
        touch.female.in_units(units)
    )
}
