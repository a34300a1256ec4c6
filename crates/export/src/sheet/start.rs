//! What the second page says: what is sawn, laid out and turned before any part.

use super::content::{Saw, SawnPiece};
use super::first::section;
use super::row_words::{dia_of, thread_name};
use super::words;
use quillet_geometry::Length;
use quillet_model::{Bench, PieceId, Units};
use quillet_plan::{Availability, CutList, Nub, Plan, Tool, ToolList, Work};

/// What is sawn off which stock.
pub(super) fn saws(plan: &Plan, bench: Option<&Bench>, units: Units) -> (Vec<Saw>, Vec<String>) {
    let list = CutList::of(plan, bench);
    let saws = list.stocks.iter().map(|stock| {
        let material = &stock.material;
        let name = material
            .title
            .as_ref()
            .map_or(&material.name, |it| &it.text);
        let size = section(stock.section, stock.size, units);
        let total = units.plain(stock.total(list.kerf));
        let pieces = stock.pieces.iter().map(|it| SawnPiece {
            name: match it.piece {
                (_, 1) => it.part.to_string(),
                (at, of) => format!("{} {} of {of}", it.part, at.number()),
            },
            length: units.plain(it.length),
            net: units.plain(it.net),
            length_mm: it.length.to_mm(),
            done: is_sawn(plan, &it.part, it.piece.0),
        });
        let rods = match (&stock.packing, stock.length) {
            (Some(packing), Some(long)) if packing.rods.len() > 1 => {
                format!("{} rods of {}", packing.rods.len(), units.plain(long))
            }
            _ => format!("at least {total}"),
        };
        Saw {
            stock: words::capital(&format!("{name} {size}, {rods}")),
            size_mm: stock.size.to_mm(),
            kerf_mm: list.kerf.to_mm(),
            pieces: pieces.collect(),
        }
    });
    let matched = list.stocks.iter().any(|it| it.matched);
    (saws.collect(), notes(plan, &list, matched, units))
}

/// Whether a piece of a part is sawn, in one that was made.
fn is_sawn(plan: &Plan, part: &str, piece: PieceId) -> bool {
    let mut own = plan.routes.iter().filter(|it| &*it.part.name.text == part);
    let sawn = own.next().and_then(|it| {
        let mut all = it.operations.iter();
        all.find(|it| matches!(it.work, Work::Saw { piece: of, .. } if of == piece))
    });
    sawn.is_some_and(|it| it.as_made.is_some())
}

fn notes(plan: &Plan, list: &CutList, matched: bool, units: Units) -> Vec<String> {
    let mut all = Vec::new();
    let nubbed = |gripped: bool| -> Vec<(&str, Nub)> {
        let each = plan.routes.iter().filter(|it| it.turns.is_none());
        let each = each.filter_map(|it| Some((&*it.part.name.text, it.blank.nub?)));
        each.filter(|it| it.1.gripped == gripped).collect()
    };
    let facing = quillet_plan::FACING;
    all.push(format!(
        "{} to face at each end; the bar is the saw’s kerf, {}.",
        units.plain(facing),
        units.plain(list.kerf)
    ));
    for (gripped, why) in [
        (false, "for the tail centre"),
        (true, "to grip, joined with its mate"),
    ] {
        let nubs = nubbed(gripped);
        let mut lengths: Vec<Length> = nubs.iter().map(|it| it.1.length).collect();
        lengths.sort();
        lengths.dedup();
        for length in lengths {
            let mut alike = nubs.iter().filter(|it| it.1.length == length).peekable();
            let Some((_, nub)) = alike.peek().copied() else {
                continue;
            };
            let names: Vec<&str> = alike.map(|it| it.0).collect();
            let keep = if names.len() == 1 { "keeps" } else { "keep" };
            let (dia, long) = (dia_of(units, nub.dia), units.plain(length));
            let names = crate::sheet::words::capital(&and(&names));
            all.push(format!("{names} {keep} a nub {dia} × {long} {why}."));
        }
    }
    if matched {
        all.push(
            "Saw in this order, and mark the mouth end of each piece: the pattern runs on.".into(),
        );
    }
    all.push("Saw a spare of what can be had only once.".into());
    all
}

fn and(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// Tools by kind, and what the bench's list lacks with its nearest substitute.
#[allow(clippy::type_complexity, reason = "two lists of pairs")]
pub(super) fn tools(
    plan: &Plan,
    bench: Option<&Bench>,
    units: Units,
) -> (Vec<(String, Vec<String>)>, Vec<(String, String)>) {
    let list = ToolList::of(plan, bench);
    let mut groups: Vec<(String, Vec<String>)> = Vec::new();
    let mut lacking = Vec::new();
    for listed in &list.tools {
        let Some((group, mut name)) = grouped(listed.tool, units) else {
            continue;
        };
        if let Tool::Collet { dia } = listed.tool
            && words::gripper(bench, dia) == "chuck"
        {
            name = format!("chuck {name}");
        }
        if listed.standing == Availability::ToBuy {
            let what = words::tool(listed.tool, units).replace('Ø', "⌀");
            let nearest = listed
                .substitute
                .map(|it| words::substitute(it, units).replace('Ø', "⌀"));
            let other = || substitute(listed.tool, bench, units);
            lacking.push((
                what,
                nearest.map_or_else(other, |it| format!("nearest: {it}")),
            ));
        }
        match groups.iter_mut().find(|it| it.0 == group) {
            Some(it) => it.1.push(name),
            None => groups.push((group.to_owned(), vec![name])),
        }
    }
    // The order in which they are laid out.
    const ORDER: [&str; 12] = [
        "drills",
        "flat drills",
        "boring bars",
        "reamers",
        "taps",
        "dies",
        "tenon cutter",
        "collets",
        "small",
        "by hand",
        "glue",
        "",
    ];
    groups.sort_by_key(|it| {
        ORDER
            .iter()
            .position(|group| *group == it.0)
            .unwrap_or(ORDER.len())
    });
    (groups, lacking)
}

/// The group of a tool, and what it is called in it.
fn grouped(tool: Tool, units: Units) -> Option<(&'static str, String)> {
    let plain = |it: Length| units.plain(it);
    let thread = |form: &quillet_standards::thread::ThreadForm| {
        let (name, starts) = thread_name(form);
        if starts.is_empty() {
            name
        } else {
            format!("{name} {starts}")
        }
    };
    Some(match tool {
        Tool::Drill { dia, name } => (
            "drills",
            words::drilled(dia, name, units)
                .trim_start_matches('Ø')
                .to_owned(),
        ),
        Tool::FlatDrill { dia } => ("flat drills", plain(dia)),
        Tool::BoringBar { enters } => ("boring bars", format!("enters {}", plain(enters))),
        Tool::Reamer { dia } => ("reamers", plain(dia)),
        Tool::Tap { thread: form } => ("taps", thread(&form)),
        Tool::Die { thread: form } => ("dies", thread(&form)),
        Tool::TenonCutter { bushing } => ("tenon cutter", plain(bushing)),
        Tool::Collet { dia } => ("collets", plain(dia)),
        Tool::CentreDrill | Tool::Countersink { .. } | Tool::RecessingTool => {
            ("small", words::tool(tool, units))
        }
        Tool::Glue => ("glue", "glue".into()),
        Tool::Mandrel { .. } => return None,
        other => ("by hand", words::tool(other, units)),
    })
}

/// What does instead, and what that costs.
fn substitute(tool: Tool, bench: Option<&Bench>, units: Units) -> String {
    let below = |dia: Length| {
        let drills = bench.map(|it| it.drills.as_slice()).unwrap_or_default();
        drills.iter().map(|it| it.dia).rfind(|it| *it < dia)
    };
    match tool {
        Tool::FlatDrill { dia } | Tool::Drill { dia, .. } | Tool::Reamer { dia } => {
            match below(dia) {
                Some(drill) => format!(
                    "nearest: drill {}, then a small boring bar to size{}",
                    dia_of(units, drill),
                    if matches!(tool, Tool::FlatDrill { .. }) {
                        " and flat"
                    } else {
                        ""
                    }
                ),
                None => "bore it, or buy it".into(),
            }
        }
        Tool::BoringBar { .. } => "to be had: nothing on the bench does it".into(),
        Tool::Tap { .. } | Tool::Die { .. } => {
            "to be had, or a single point where the lathe is geared".into()
        }
        Tool::TenonCutter { .. } => {
            "nearest: turn it by caliper, leave a hair, try the gauge".into()
        }
        Tool::Collet { .. } => {
            "nearest: a chuck with soft jaws, or tape under the next larger".into()
        }
        _ => "to be had".into(),
    }
}
