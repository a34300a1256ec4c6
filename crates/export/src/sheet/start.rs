//! What the second page says: what is sawn, laid out and turned before any part.

use super::content::{Piece, Saw, Turning};
use super::first::section;
use super::row_words::{dia_of, thread_name};
use super::words::{self, letter};
use quillet_geometry::Length;
use quillet_model::{Bench, Units};
use quillet_plan::{
    CutList, Fitted, Mandrel, MandrelKind, MandrelStep, NUB_DIA, NUB_LENGTH, Plan, Standing, Tool,
    ToolList,
};

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
        let pieces = stock.pieces.iter().map(|it| Piece {
            name: match it.piece {
                (_, 1) => it.part.to_string(),
                (at, of) => format!("{} {} of {of}", it.part, at + 1),
            },
            length: units.plain(it.length),
            net: units.plain(it.net),
            length_mm: it.length.to_mm(),
        });
        let rods = match (&stock.packing, stock.length) {
            (Some(packing), Some(long)) if packing.rods.len() > 1 => {
                format!("{} rods of {}", packing.rods.len(), units.plain(long))
            }
            _ => format!("at least {total}"),
        };
        Saw {
            stock: format!("{name} {size}, {rods}"),
            size_mm: stock.size.to_mm(),
            kerf_mm: list.kerf.to_mm(),
            pieces: pieces.collect(),
        }
    });
    let matched = list.stocks.iter().any(|it| it.matched);
    (saws.collect(), notes(plan, &list, matched, units))
}

fn notes(plan: &Plan, list: &CutList, matched: bool, units: Units) -> Vec<String> {
    let mut all = Vec::new();
    let nubs: Vec<&str> = plan
        .routes
        .iter()
        .filter(|it| it.blank.nub.is_some())
        .map(|it| &*it.part.name.text)
        .collect();
    let facing = quillet_plan::FACING;
    all.push(format!(
        "{} to face at each end; the bar is the saw’s kerf, {}.",
        units.plain(facing),
        units.plain(list.kerf)
    ));
    if !nubs.is_empty() {
        let keep = if nubs.len() == 1 { "keeps" } else { "keep" };
        let (dia, long) = (dia_of(units, NUB_DIA), units.plain(NUB_LENGTH));
        let names = crate::sheet::gather::capital(&and(&nubs));
        all.push(format!(
            "{names} {keep} a nub {dia} × {long} for the tail centre."
        ));
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
        let Some((group, name)) = grouped(listed.tool, units) else {
            continue;
        };
        if listed.standing == Standing::ToBuy {
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

/// Mandrels and plugs with their sizes and how each is turned.
pub(super) fn turning(plan: &Plan, units: Units) -> Vec<Turning> {
    let each = plan.mandrels.iter().enumerate().map(|(at, it)| Turning {
        letter: letter(at),
        serves: match it.under_die {
            Some(dia) => format!(
                "{}; the die passes {}",
                serves(plan, it),
                dia_of(units, dia)
            ),
            None => serves(plan, it),
        },
        sizes: sizes(it, units),
        steps: steps(it, units),
        mandrel: it.clone(),
    });
    each.collect()
}

fn serves(plan: &Plan, it: &Mandrel) -> String {
    let each = it.serves.iter().map(|(part, end)| {
        let route = plan
            .routes
            .iter()
            .find(|route| route.part.name.text == *part);
        let end = route.map_or("", |route| route.part.end_name(*end));
        format!("{part}’s {end}")
    });
    let serves: Vec<String> = each.collect();
    let plug = if it.kind == MandrelKind::Plug {
        "plug in the "
    } else {
        ""
    };
    let left = if it.left_hand { "; left hand" } else { "" };
    format!("{plug}{}{left}", serves.join(", "))
}

/// In the order of the steps of its picture: shoulder, spigot at it, thread, spigot in front.
fn sizes(it: &Mandrel, units: Units) -> Vec<String> {
    let plain = |it: Length| units.plain(it);
    let fitted = |it: &Fitted| format!("{} × {}", dia_of(units, it.dia), plain(it.length));
    let thread = it.thread.as_ref().map(|thread| {
        let (name, starts) = thread_name(&thread.thread);
        format!("{name} {starts}").trim().to_owned()
    });
    let shoulder = match it.kind {
        MandrelKind::Female => format!("nose {}", dia_of(units, it.shoulder)),
        _ if it.shoulder.is_positive() => dia_of(units, it.shoulder),
        _ => String::new(),
    };
    let mut all = vec![shoulder];
    if it.kind == MandrelKind::Female {
        all.extend(thread);
        return all;
    }
    all.extend(it.root_spigot.iter().map(fitted));
    let relief = it.relief.as_ref().map(fitted);
    all.extend(relief.map(|it| format!("{it} relief")));
    all.extend(thread);
    all.extend(it.front_spigot.iter().map(fitted));
    all
}

/// How it is made, in order; what belongs together in one line.
fn steps(it: &Mandrel, units: Units) -> Vec<String> {
    use MandrelStep::*;
    let plain = |it: Length| units.plain(it);
    let dia = |it: Length| dia_of(units, it);
    let spigot = |it: &Fitted| format!("{} for {}", dia(it.dia), plain(it.length));
    let steps = it.steps();
    let has = |step: MandrelStep| steps.contains(&step);
    let long = it.shank_length + it.reach();
    let mut all = Vec::new();
    let pin = it.kind == MandrelKind::Plug && it.thread.is_none();
    if let Some(own) = it.front_spigot.filter(|_| pin) {
        all.push(match it.centred {
            true => format!(
                "rod {}: {}, a centre in its head",
                dia(it.stock),
                spigot(&own)
            ),
            false => format!(
                "rod {} × {}, to the hole as made",
                dia(own.dia),
                plain(long)
            ),
        });
        return all;
    }
    all.push(match it.headless {
        true => format!(
            "rod {}: a stud {} long, slotted",
            dia(it.stock),
            plain(it.reach())
        ),
        false => format!(
            "rod {} × {}: shank {} first",
            dia(it.stock),
            plain(long + Length::mm(5.0)),
            dia(it.shank)
        ),
    });
    let turned = [&it.front_spigot, &it.root_spigot]
        .into_iter()
        .flatten()
        .map(spigot);
    let relief = it
        .relief
        .as_ref()
        .map(|it| format!("relief {}", spigot(it)));
    let turned: Vec<String> = turned.chain(relief).collect();
    if !turned.is_empty() {
        all.push(format!("turn {}", turned.join(", ")));
    }
    if let Some(bore) = it.bore.filter(|_| has(Hole)) {
        all.push(format!("drill {} to {}", dia(bore.dia), plain(bore.length)));
    }
    let thread = it.thread.as_ref().map(|thread| {
        let (name, starts) = thread_name(&thread.thread);
        let verb = if it.kind == MandrelKind::Female {
            "tap"
        } else {
            "cut"
        };
        format!("{verb} {name} {starts}").trim().to_owned()
            + &format!(" for {}", plain(it.thread_length))
    });
    let what = if it.kind == MandrelKind::Female {
        "nose"
    } else {
        "shoulder"
    };
    let shoulder = has(Shoulder).then(|| format!("{what} {}", dia(it.shoulder)));
    let last: Vec<String> = thread.into_iter().chain(shoulder).collect();
    if !last.is_empty() {
        all.push(last.join("; "));
    }
    if has(Centre) {
        all.push("a centre in its end".into());
    }
    if it.touched {
        all.push("in brass: the last cut may touch it".into());
    }
    all
}
