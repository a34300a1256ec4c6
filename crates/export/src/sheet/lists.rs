//! The lists of a sheet: tools, blanks, mandrels, calipers, measures.

mod mandrels;

use super::content::Table;
use super::words;
pub(super) use mandrels::mandrels;
use quillet_check::measure::between;
use quillet_geometry::Length;
use quillet_model::{Bench, Configured, End, Pen, Units};
use quillet_plan::{CutList, Plan, Route, ToolList, caliper_table};
use quillet_standards::fit::ZoneLimits;
use quillet_syntax::ast::StockSection;

/// Length, mass and balance in each configuration.
pub(crate) fn measures(pen: &Pen, units: Units) -> Table {
    let unit = units.suffix();
    let (length, balances) = (format!("length, {unit}"), format!("balances at, {unit}"));
    let mut table = Table::new(&[
        "",
        &length,
        "mass filled, g",
        "mass dry, g",
        &balances,
        "of the length",
    ]);
    let doubts = pen.doubts();
    for configured in Configured::ALL {
        let Some(it) = pen.assembly.configuration(configured) else {
            continue;
        };
        let reported =
            |value: Option<f64>| value.map_or("not known".into(), |it| format!("{it:.1}"));
        let long = |mm: Option<f64>| match units {
            Units::Millimetres => reported(mm),
            Units::Inches => mm.map_or("not known".into(), |it| units.number(Length::mm(it))),
        };
        let mass = |range| match it.filled {
            Some(mass) => match between(range, 1) {
                Some(range) => format!("{:.1} ({range})", mass.mass_g),
                None => format!("{:.1}", mass.mass_g),
            },
            None => "not known".into(),
        };
        let share = it.balance_share().map(|share| 100.0 * share);
        table.rows.push(vec![
            configured.word().to_owned(),
            long(it.length_mm),
            mass(doubts.of_pen(pen, it, |mass| mass.mass_g)),
            reported(it.dry.map(|it| it.mass_g)),
            long(it.filled.map(|it| it.centre_mm)),
            share.map_or("not known".into(), |share| format!("{share:.1} %")),
        ]);
    }
    table
}

/// Every tool, what it is for, whether it is on the bench; and how many sizes of holes there are.
pub(super) fn tools(plan: &Plan, bench: Option<&Bench>, units: Units) -> (Table, String) {
    let list = ToolList::of(plan, bench);
    let mut table = Table::new(&["tool", "for", "at hand", "got"]);
    for listed in &list.tools {
        let mut places: Vec<&str> = Vec::new();
        for used in &listed.uses {
            let name = &*plan.routes[used.route].part.name.text;
            if !places.contains(&name) {
                places.push(name);
            }
        }
        table.rows.push(vec![
            words::tool(listed.tool, units),
            places.join(", "),
            match listed.substitute {
                None => words::standing(listed.standing).into(),
                Some(it) => format!(
                    "{}; nearest: {}",
                    words::standing(listed.standing),
                    words::substitute(it, units)
                ),
            },
            String::new(),
        ]);
    }
    let sizes: Vec<String> = list
        .hole_sizes
        .iter()
        .map(|size| match units {
            Units::Millimetres => units.plain(*size),
            Units::Inches => units.drill(*size),
        })
        .collect();
    let bench = if bench.is_some() {
        ""
    } else {
        "; no bench is described, so nothing is assumed owned"
    };
    (
        table,
        format!(
            "Holes of {} sizes: {}{bench}",
            sizes.len(),
            sizes.join(", ")
        ),
    )
}

/// What to saw off which stock.
pub(super) fn cuts(plan: &Plan, bench: Option<&Bench>, units: Units) -> (Table, String) {
    let list = CutList::of(plan, bench);
    let mut table = Table::new(&["stock", "piece", "saw to", "of that the part", "done"]);
    let mut notes = vec![format!(
        "saw's kerf {} reckoned with",
        units.plain(list.kerf)
    )];
    for stock in &list.stocks {
        let material = &stock.material;
        let name = material.title_or_name();
        let section = match stock.section {
            StockSection::Rod => "Ø",
            StockSection::Square => "square ",
            StockSection::Tube => "tube Ø",
        };
        let stock_name = format!("{name}, {section}{}", units.plain(stock.size));
        for piece in &stock.pieces {
            let which = match piece.piece {
                (_, 1) => piece.part.to_string(),
                (at, of) => format!("{} ({} of {of})", piece.part, at.number()),
            };
            table.rows.push(vec![
                stock_name.clone(),
                which,
                units.plain(piece.length),
                units.plain(piece.net),
                String::new(),
            ]);
        }
        notes.push(match (&stock.packing, stock.length) {
            (Some(packing), Some(length)) if packing.too_long.is_empty() => {
                format!(
                    "{stock_name}: {} of {}",
                    words::count(packing.rods.len(), "rod"),
                    units.plain(length)
                )
            }
            (Some(_), Some(length)) => {
                format!(
                    "{stock_name}: a piece is longer than {}",
                    units.plain(length)
                )
            }
            _ => format!(
                "{stock_name}: {} in all",
                units.plain(stock.total(list.kerf))
            ),
        });
        if stock.matched {
            notes.push("saw in this order, so that grain or pattern runs on".into());
        }
    }
    notes.push("saw a spare of what can be had only once".into());
    (table, notes.join("; "))
}

/// Between two stations of the caliper table.
const STEP: Length = Length::from_nm(5_000_000);

/// Diameters along the outside, every 5 mm and at every edge: finished, before sanding,
/// roughed out; and the limits that the fits of its joints ask, of holes too.
pub(super) fn calipers(route: &Route, units: Units) -> Table {
    let mut table = Table::new(&["at", "Ø", "before sanding", "rough to", LIMITS, "as made"]);
    let found = caliper_table(&route.part, &route.asked, End::First, STEP);
    let Some(found) = found else {
        return table;
    };
    let limits =
        |class: &ZoneLimits| format!("{} ({})", words::limits(class.limits, units), class.zone);
    for row in &found.rows {
        let sizes = if row.before == row.after {
            vec![row.before]
        } else {
            vec![row.before, row.after]
        };
        let each = |text: &dyn Fn(Length) -> String| {
            let each: Vec<String> = sizes.iter().map(|dia| text(*dia)).collect();
            each.join(" / ")
        };
        // What is finished already is not roughed and sanded.
        let left = |size: &str| match row.finished {
            true => String::new(),
            false => size.to_owned(),
        };
        table.rows.push(vec![
            units.plain(row.at),
            each(&|dia| caliper(dia, units)),
            left(&caliper(row.before_sanding, units)),
            left(&match units {
                Units::Millimetres => format!("{:.1}", row.rough.to_mm()),
                Units::Inches => caliper(row.rough, units),
            }),
            row.asked.as_ref().map(limits).unwrap_or_default(),
            String::new(),
        ]);
    }
    for hole in &found.holes {
        table.rows.push(vec![
            format!("hole, {}", route.part.end_name(hole.end)),
            caliper(hole.drawn, units),
            String::new(),
            String::new(),
            limits(&hole.class),
            String::new(),
        ]);
    }
    // Where no joint asks for a fit, a column of nothing is only in the way.
    if found.holes.is_empty() && found.rows.iter().all(|it| it.asked.is_none()) {
        table.drop_column(LIMITS);
    }
    table
}

/// As a caliper shows it: `12.20`, `0.480`.
fn caliper(dia: Length, units: Units) -> String {
    match units {
        Units::Millimetres => format!("{:.2}", dia.to_mm()),
        Units::Inches => format!("{:.3}", dia.to_inches()),
    }
}

/// What the fits of the joints ask.
const LIMITS: &str = "limits";
