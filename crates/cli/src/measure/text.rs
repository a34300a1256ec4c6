//! Measures for people: the pen first, one idea a line.

use super::Measures;
use super::joints::JointMeasures;
use super::parts::PartMeasures;
use super::pens::{ConfigurationMeasures, PenMeasures};
use super::wants::WantMeasures;
use crate::table::{Cell, table};
use quillet_model::Part;
use std::sync::Arc;

/// What stands for a figure that rests on something missing.
const UNKNOWN: &str = "not known";

/// The pens, then the parts that are in none; `full` with every wall and clearance.
pub(super) fn of(measures: &Measures, full: bool) -> String {
    let mut told = Told::default();
    let mut sections: Vec<String> = Vec::new();
    for pen in &measures.pens {
        sections.push(of_pen(pen, &mut told, full));
    }
    let in_pens: Vec<&str> = measures
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
        let wants = wants(alone.iter().flat_map(|part| &part.wants));
        let both = wants.into_iter().chain(of_parts(&alone, full));
        sections.push(head + &both.collect::<Vec<_>>().join("\n"));
    }
    sections.join("\n\n")
}

/// Parts that were told of, each with the pen it was told under.
#[derive(Default)]
struct Told<'m>(Vec<(&'m Arc<Part>, &'m str)>);

impl<'m> Told<'m> {
    /// The pen that a part was told under, alike.
    fn under(&self, part: &PartMeasures) -> Option<&'m str> {
        let same = self.0.iter().find(|(it, _)| Arc::ptr_eq(it, &part.same));
        same.map(|(_, pen)| *pen)
    }
}

fn of_pen<'m>(pen: &'m PenMeasures, told: &mut Told<'m>, full: bool) -> String {
    let title = pen.title.as_ref();
    let title = title.map_or(String::new(), |title| format!(" \"{title}\""));
    let mut sections = vec![format!("pen {}{title}\n", pen.name)];
    sections.extend(states(pen));
    sections.extend(holdings(pen));
    sections.extend(wants(pen.wants.iter()));
    let (new, known): (Vec<_>, Vec<_>) = pen
        .parts
        .iter()
        .map(|it| &it.part)
        .partition(|part| told.under(part).is_none());
    sections.extend(of_parts(&new, full));
    let mut pens: Vec<&str> = known.iter().filter_map(|part| told.under(part)).collect();
    pens.dedup();
    for under in pens {
        let of_pen = known.iter().filter(|part| told.under(part) == Some(under));
        let names: Vec<&str> = of_pen.map(|part| &*part.name).collect();
        sections.push(format!("  {} as in {under}\n", names.join(", ")));
    }
    told.0
        .extend(new.iter().map(|part| (&part.same, &*pen.name)));
    sections.extend(joints(pen, full));
    sections.join("\n")
}

/// The pen in each state, and why a figure is not known.
fn states(pen: &PenMeasures) -> Option<String> {
    let states = [
        ("capped", &pen.configurations.capped),
        ("uncapped", &pen.configurations.uncapped),
        ("posted", &pen.configurations.posted),
    ];
    let rows: Vec<Vec<Cell>> = states
        .into_iter()
        .filter_map(|(word, it)| Some(state(word, it.as_ref()?)))
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

fn state(word: &str, it: &ConfigurationMeasures) -> Vec<Cell> {
    let share = it
        .balance_share
        .map(|share| format!("{:.1} %", 100.0 * share));
    vec![
        Cell::left(word),
        figure(it.length_mm, "mm"),
        figure(it.mass_g, "g"),
        between(it.mass_range_g),
        figure(it.balance_mm, "mm"),
        between(it.balance_range_mm),
        Cell::right(share.unwrap_or_default()),
        figure(it.dry_mass_g, "g"),
    ]
}

/// Ink, air, rings, and what hangs together with nothing.
fn holdings(pen: &PenMeasures) -> Option<String> {
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
            format!("sealed where {} meets {}", touch.male, touch.female)
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

fn wants<'m>(wants: impl Iterator<Item = &'m WantMeasures>) -> Option<String> {
    let rows: Vec<Vec<Cell>> = wants
        .map(|want| {
            let of_part = want.part.as_ref().map(|part| format!("{part}: "));
            vec![
                Cell::left(of_part.unwrap_or_default() + &want.want),
                Cell::right(want.value.as_deref().unwrap_or(UNKNOWN)),
                Cell::left(want.range.as_deref().unwrap_or_default()),
                Cell::left(&want.wanted),
                Cell::left(&want.judged),
            ]
        })
        .collect();
    let head = ["wanted", "is", "", "is to be", ""];
    (!rows.is_empty()).then(|| table(2, &head, &rows))
}

/// What parts weigh, and their least walls; or each wall.
fn of_parts(parts: &[&PartMeasures], full: bool) -> Option<String> {
    let rows = parts.iter().map(|part| {
        let bought = if part.bought { "bought" } else { "" };
        vec![
            Cell::left(&part.name),
            figure(part.length_mm, "mm"),
            figure(part.mass_g, "g"),
            between(part.mass_range_g),
            figure(part.balance_mm, "mm"),
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
        true => all_walls(parts),
        false => least_walls(parts),
    };
    Some(
        [Some(weights), walls]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join("\n"),
    )
}

fn least_walls(parts: &[&PartMeasures]) -> Option<String> {
    let rows = parts.iter().filter_map(|part| {
        let wall = part.least_wall()?;
        Some(vec![
            Cell::left(&part.name),
            figure(Some(wall.least_mm), "mm"),
            figure(Some(wall.worst_mm), "mm"),
            Cell::left(format!("{} over {}", wall.outer, wall.inner)),
        ])
    });
    let rows: Vec<Vec<Cell>> = rows.collect();
    let head = ["least wall", "drawn", "at worst", ""];
    (!rows.is_empty()).then(|| table(2, &head, &rows))
}

fn all_walls(parts: &[&PartMeasures]) -> Option<String> {
    let of_part = |part: &&PartMeasures| {
        let rows = part.walls.iter().map(|wall| {
            vec![
                figure(Some(wall.least_mm), "mm"),
                figure(Some(wall.worst_mm), "mm"),
                Cell::right(format!("{:.2} to {:.2}", wall.from_mm, wall.to_mm)),
                Cell::left(format!("{} over {}, {}", wall.outer, wall.inner, wall.role)),
            ]
        });
        let rows: Vec<Vec<Cell>> = rows.collect();
        let apart = part.centroid_mm.zip(part.balance_mm);
        let apart = apart.filter(|(centroid, balance)| (centroid - balance).abs() >= 0.005);
        let centroid = apart.map(|(centroid, _)| {
            format!(
                "  {}: its middle by volume lies at {centroid:.2} mm\n",
                part.name
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

fn joints(pen: &PenMeasures, full: bool) -> Option<String> {
    let rows: Vec<Vec<Cell>> = pen.joints.iter().map(joint).collect();
    if rows.is_empty() {
        return None;
    }
    let head = ["joint", "", "goes in", "to take apart", "rests", "held by"];
    let mut sections = vec![table(2, &head, &rows)];
    if full {
        sections.extend(pen.joints.iter().filter_map(all_of));
    }
    Some(sections.join("\n"))
}

/// A joint in a line.
fn joint(it: &JointMeasures) -> Vec<Cell> {
    let rests = match (it.touches.first(), it.stopped_by) {
        (Some(touch), _) => format!("{} on {}", touch.male, touch.female),
        (None, Some(by)) => format!("by {by}"),
        (None, None) => String::new(),
    };
    let turns = it.turns.map(|turns| format!("{turns:.2} turns"));
    vec![
        Cell::left(it.kind),
        Cell::left(format!("{} in {}", it.male, it.female)),
        figure(it.goes_in_mm, "mm"),
        Cell::right(turns.unwrap_or_default()),
        Cell::left(rests),
        Cell::left(it.held_by.as_deref().unwrap_or("nothing")),
    ]
}

/// All that is known of a joint.
fn all_of(it: &JointMeasures) -> Option<String> {
    let mut lines = String::new();
    let mut say = |line: String| lines += &format!("    {line}\n");
    for touch in it.touches.iter().skip(1) {
        say(format!("touches also {} on {}", touch.male, touch.female));
    }
    if let Some(gap) = it.seat_gap_mm {
        say(format!("its seat is {} apart", size(gap, "mm")));
    }
    if let (Some(thread), Some(overlap), Some(travel)) = (&it.thread, it.overlap_mm, it.travel_mm) {
        let catches = it
            .catch_deg
            .map(|deg| format!(", catches within {deg:.0}°"));
        let ways = it.clock_positions.filter(|ways| *ways > 1);
        let ways = ways.map(|ways| format!(", {ways} ways round"));
        say(format!(
            "{thread} overlaps {overlap:.2} mm, lets go after {travel:.2} mm{}{}",
            catches.unwrap_or_default(),
            ways.unwrap_or_default(),
        ));
    }
    if let Some(apart) = it.marks_apart_deg {
        say(format!("its marks rest {apart:.0}° apart"));
    }
    for it in &it.trapped {
        let (length, room) = (size(it.length_mm, "mm"), size(it.room_mm, "mm"));
        say(format!(
            "{} is trapped at {length}, {room} of room",
            it.part
        ));
    }
    let rows = it.clearances.iter().flat_map(|it| {
        let whole = vec![
            Cell::left(it.kind),
            figure(Some(it.nominal_mm), "mm"),
            figure(Some(it.worst_mm), "mm"),
            Cell::left(format!("{} | {}", it.male, it.female)),
        ];
        // What it loses at worst, size by size.
        let links = it.chain.iter().filter(|link| link.counts()).map(|link| {
            vec![
                Cell::left(""),
                Cell::left(""),
                figure(Some(-link.takes_mm), "mm"),
                Cell::left(format!("  {}", link.told)),
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

/// From what to what a figure may lie, beside it.
fn between(range: Option<[f64; 2]>) -> Cell {
    Cell::left(range.map_or(String::new(), |[low, high]| {
        format!("{low:.2} to {high:.2}")
    }))
}

/// A figure to the hundredth with its unit.
fn figure(value: Option<f64>, unit: &str) -> Cell {
    Cell::right(value.map_or(UNKNOWN.to_owned(), |value| size(value, unit)))
}

/// To the hundredth; what rounds to nothing has no sign.
fn size(value: f64, unit: &str) -> String {
    let rounded = (value * 100.0).round() / 100.0 + 0.0;
    format!("{rounded:.2} {unit}")
}
