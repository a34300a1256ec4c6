//! Measures for people: the pen first, one idea a line.

use super::Measures;
use super::joints::{JointMeasures, TouchMeasures};
use super::parts::PartMeasures;
use super::pens::{ConfigurationMeasures, PenMeasures};
use super::wants::WantMeasures;
use crate::report::sized::SizedWords;
use crate::report::table::{Cell, table};
use quillet_geometry::Length;
use quillet_model::{Part, Units};
use std::collections::BTreeSet;
use std::sync::Arc;

/// What stands for a figure that rests on something missing.
const UNKNOWN: &str = "not known";

/// What a clearance is to that is to no metal: the plane at which a drill's point begins.
const PLANE: &str = "the plane, no metal, where the point begins of ";

/// The pens, then the parts that are in none; `full` with every wall and clearance.
pub(super) fn of(measures: &Measures, full: bool, units: Units) -> String {
    let mut reported = ReportedParts::default();
    let mut sections: Vec<String> = Vec::new();
    for pen in &measures.pens {
        sections.push(of_pen(pen, &mut reported, full, units));
    }
    let in_pens: BTreeSet<&str> = measures
        .pens
        .iter()
        .flat_map(|pen| pen.parts.iter().map(|it| &*it.part.name))
        .collect();
    let alone: Vec<&PartMeasures> = measures
        .parts
        .iter()
        .filter(|part| !in_pens.contains(&&*part.name))
        .collect();
    if !alone.is_empty() {
        let head = match measures.pens.is_empty() {
            true => String::new(),
            false => "in no pen\n".to_owned(),
        };
        let wants = wants(alone.iter().flat_map(|part| &part.wants), units);
        let both = wants.into_iter().chain(of_parts(&alone, full, units));
        sections.push(head + &both.collect::<Vec<_>>().join("\n"));
    }
    if let Some(unstated) = measures.unstated.as_ref().filter(|_| full) {
        sections.push(format!("at worst, since nobody wrote it:\n  {unstated}\n"));
    }
    sections.join("\n\n")
}

/// Parts that were told of, each with the pen it was told under.
#[derive(Default)]
struct ReportedParts<'m>(Vec<(&'m Arc<Part>, &'m str)>);

impl<'m> ReportedParts<'m> {
    /// The pen that a part was told under, alike.
    fn under(&self, part: &PartMeasures) -> Option<&'m str> {
        let same = self.0.iter().find(|(it, _)| Arc::ptr_eq(it, &part.same));
        same.map(|(_, pen)| *pen)
    }
}

fn of_pen<'m>(
    pen: &'m PenMeasures,
    reported: &mut ReportedParts<'m>,
    full: bool,
    units: Units,
) -> String {
    let title = pen.title.as_ref();
    let title = title.map_or(String::new(), |title| format!(" \"{title}\""));
    let mut sections = vec![format!("pen {}{title}\n", pen.name)];
    sections.extend(states(pen, units));
    sections.extend(holdings(pen, units));
    sections.extend(wants(pen.wants.iter(), units));
    let (new, known): (Vec<_>, Vec<_>) = pen
        .parts
        .iter()
        .map(|it| &it.part)
        .partition(|part| reported.under(part).is_none());
    sections.extend(of_parts(&new, full, units));
    let mut pens: Vec<&str> = known
        .iter()
        .filter_map(|part| reported.under(part))
        .collect();
    pens.dedup();
    for under in pens {
        let of_pen = known
            .iter()
            .filter(|part| reported.under(part) == Some(under));
        let names: Vec<&str> = of_pen.map(|part| &*part.name).collect();
        sections.push(format!("  {} as in {under}\n", names.join(", ")));
    }
    reported
        .0
        .extend(new.iter().map(|part| (&part.same, &*pen.name)));
    sections.extend(joints(pen, full, units));
    sections.join("\n")
}

/// The pen in each state, and why a figure is not known.
fn states(pen: &PenMeasures, units: Units) -> Option<String> {
    let states = [
        ("capped", &pen.configurations.capped),
        ("uncapped", &pen.configurations.uncapped),
        ("posted", &pen.configurations.posted),
        ("retracted", &pen.configurations.retracted),
        ("resting", &pen.configurations.resting),
    ];
    let rows: Vec<Vec<Cell>> = states
        .into_iter()
        .filter_map(|(word, it)| Some(state(word, it.as_ref()?, units)))
        .collect();
    let missing = pen.missing.iter();
    let missing: String = missing.map(|it| format!("  missing: {it}\n")).collect();
    if rows.is_empty() && missing.is_empty() {
        return None;
    }
    let head = ["", "length", "mass", "", "balance", "", "", "dry"];
    let states = match rows.is_empty() {
        true => String::new(),
        false => table(2, &head, &rows),
    };
    Some(states + &missing)
}

fn state(word: &str, it: &ConfigurationMeasures, units: Units) -> Vec<Cell> {
    let share = it
        .balance_share
        .map(|share| format!("{:.1} %", 100.0 * share));
    vec![
        Cell::left(word),
        length(it.length_mm, units),
        figure(it.mass_g, "g"),
        between(it.mass_range_g),
        length(it.balance_mm, units),
        lengths_between(it.balance_range_mm, units),
        Cell::right(share.unwrap_or_default()),
        figure(it.dry_mass_g, "g"),
    ]
}

/// Ink, air, rings, and what hangs together with nothing.
fn holdings(pen: &PenMeasures, units: Units) -> Option<String> {
    let ink = pen.ink.iter().map(|ink| {
        format!(
            "  ink   {:.2} ml in {}, {:.2} g\n",
            ink.ml,
            ink.stands(),
            ink.mass_g
        )
    });
    let air = pen.air.iter().map(|air| {
        let sealed = air.sealed_by.as_ref().map_or("not sealed".into(), |touch| {
            format!(
                "sealed where {} meets {}",
                touch.male.in_units(units),
                touch.female.in_units(units)
            )
        });
        let ml = air.volume_mm3 / 1000.0;
        format!("  air   {ml:.2} ml round the nib, {sealed}\n")
    });
    let rings = pen.rings.iter().map(|ring| {
        let percent = |share: Option<f64>| {
            share.map_or(UNKNOWN.to_owned(), |share| {
                format!("{:.1} %", 100.0 * share)
            })
        };
        format!(
            "  ring  {} in {}: squeezed {}, stretched {}, fills {}\n",
            ring.ring,
            ring.part,
            percent(ring.squeeze),
            percent(ring.stretch),
            percent(ring.fill)
        )
    });
    let loose = pen.loose.iter().map(|part| format!("  loose {part}\n"));
    let lines: String = ink.chain(air).chain(rings).chain(loose).collect();
    (!lines.is_empty()).then_some(lines)
}

fn wants<'m>(wants: impl Iterator<Item = &'m WantMeasures>, units: Units) -> Option<String> {
    let reported = |it: &Option<SizedWords>| it.as_ref().map(|it| it.in_units(units));
    let rows: Vec<Vec<Cell>> = wants
        .map(|want| {
            let of_part = want.part.as_ref().map(|part| format!("{part}: "));
            vec![
                Cell::left(of_part.unwrap_or_default() + &want.want),
                Cell::right(reported(&want.value).unwrap_or(UNKNOWN.into())),
                Cell::left(reported(&want.range).unwrap_or_default()),
                Cell::left(want.wanted.in_units(units)),
                Cell::left(&want.judged),
            ]
        })
        .collect();
    let head = ["wanted", "is", "", "is to be", ""];
    (!rows.is_empty()).then(|| table(2, &head, &rows))
}

/// What parts weigh, and their least walls; or each wall.
fn of_parts(parts: &[&PartMeasures], full: bool, units: Units) -> Option<String> {
    let rows = parts.iter().map(|part| {
        let bought = if part.bought { "bought" } else { "" };
        vec![
            Cell::left(&part.name),
            length(part.length_mm, units),
            figure(part.mass_g, "g"),
            between(part.mass_range_g),
            length(part.balance_mm, units),
            figure(part.volume_mm3.map(|it| it / 1000.0), "cm³"),
            Cell::left(part.missing.unwrap_or(bought)),
        ]
    });
    let head = ["part", "length", "mass", "", "balances at", "volume", ""];
    let weights = table(2, &head, &rows.collect::<Vec<_>>());
    if parts.is_empty() {
        return None;
    }
    let walls = match full {
        true => all_walls(parts, units),
        false => least_walls(parts, units),
    };
    Some(
        [Some(weights), flats(parts, units), walls]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join("\n"),
    )
}

/// Each set of flats across flats and corners, first where it begins.
fn flats(parts: &[&PartMeasures], units: Units) -> Option<String> {
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

fn least_walls(parts: &[&PartMeasures], units: Units) -> Option<String> {
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

fn all_walls(parts: &[&PartMeasures], units: Units) -> Option<String> {
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

fn joints(pen: &PenMeasures, full: bool, units: Units) -> Option<String> {
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
    let rows = it.clearances.iter().flat_map(|it| {
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
        let links = it.chain.iter().filter(|link| link.counts()).map(|link| {
            vec![
                Cell::left(""),
                Cell::left(""),
                length(Some(-link.takes_mm), units),
                Cell::left(format!("  {}", link.reported.in_units(units))),
            ]
        });
        std::iter::once(whole).chain(links)
    });
    let rows: Vec<Vec<Cell>> = rows.collect();
    if !rows.is_empty() {
        lines += &table(4, &["room", "drawn", "at worst", ""], &rows);
    }
    let head = format!("  {} {} in {}\n", it.kind, it.male, it.female);
    (!lines.is_empty()).then_some(head + &lines)
}

/// Two places that touch.
fn on(touch: &TouchMeasures, units: Units) -> String {
    format!(
        "{} on {}",
        touch.male.in_units(units),
        touch.female.in_units(units)
    )
}

/// From what to what a figure may lie, beside it.
fn between(range: Option<[f64; 2]>) -> Cell {
    Cell::left(range.map_or(String::new(), |[low, high]| {
        format!("{low:.2} to {high:.2}")
    }))
}

/// The same of lengths, without their unit.
fn lengths_between(range: Option<[f64; 2]>, units: Units) -> Cell {
    Cell::left(range.map_or(String::new(), |range| range_of(range, units)))
}

fn range_of([low, high]: [f64; 2], units: Units) -> String {
    let number = |mm: f64| units.number(Length::mm(mm));
    format!("{} to {}", number(low), number(high))
}

/// A figure to the hundredth with its unit; what rounds to nothing has no sign.
fn figure(value: Option<f64>, unit: &str) -> Cell {
    let reported = |value: f64| format!("{:.2} {unit}", (value * 100.0).round() / 100.0 + 0.0);
    Cell::right(value.map_or(UNKNOWN.to_owned(), reported))
}

/// A length with its unit.
fn length(mm: Option<f64>, units: Units) -> Cell {
    Cell::right(mm.map_or(UNKNOWN.to_owned(), |mm| size(mm, units)))
}

/// How thick a wall is; one that is broken through is none.
fn thickness(mm: f64, units: Units) -> Cell {
    match mm > 0.0 {
        true => length(Some(mm), units),
        false => Cell::right("none"),
    }
}

fn size(mm: f64, units: Units) -> String {
    units.length(Length::mm(mm))
}
