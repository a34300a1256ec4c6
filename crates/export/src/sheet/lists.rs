//! The lists of a sheet: tools, blanks, mandrels, calipers, measures.

use super::content::Table;
use super::words::{self, letter, mm};
use quillet_geometry::{Chain, Length};
use quillet_model::{Bench, Configured, Part, Pen};
use quillet_plan::{Fitted, Plan, ROUGH_OVER, Tool};
use quillet_syntax::ast::StockSection;
use std::collections::BTreeMap;

/// Length, mass and balance in each configuration.
pub(super) fn measures(pen: &Pen) -> Table {
    let mut table = Table::new(&[
        "",
        "length, mm",
        "mass filled, g",
        "mass dry, g",
        "balances at, mm",
        "of the length",
    ]);
    for configured in Configured::ALL {
        let Some(it) = pen.assembly.configuration(configured) else {
            continue;
        };
        table.rows.push(vec![
            configured.word().to_owned(),
            format!("{:.1}", it.length_mm),
            format!("{:.1}", it.filled.mass_g),
            format!("{:.1}", it.dry.mass_g),
            format!("{:.1}", it.filled.centre_mm),
            format!("{:.1} %", 100.0 * it.balance_share()),
        ]);
    }
    table
}

/// Every tool, what it is for, whether it is on the bench; and how many different drills.
pub(super) fn tools(plan: &Plan, bench: Option<&Bench>) -> (Table, String) {
    let mut used: BTreeMap<Tool, Vec<String>> = BTreeMap::new();
    for route in &plan.routes {
        for operation in &route.operations {
            let Some(tool) = operation.tool else { continue };
            let name = route.part.name.text.to_string();
            let places = used.entry(tool).or_default();
            if !places.contains(&name) {
                places.push(name);
            }
        }
    }
    let mut drills: Vec<Length> = used.keys().filter_map(|tool| tool.drilled_dia()).collect();
    drills.sort();
    drills.dedup();
    let mut table = Table::new(&["tool", "for", "at hand", "✓"]);
    for (tool, places) in used {
        let at_hand = match at_hand(tool, bench) {
            Some(true) => "on the bench",
            Some(false) => "to be had",
            None => "",
        };
        table.rows.push(vec![
            words::tool(tool),
            places.join(", "),
            at_hand.into(),
            String::new(),
        ]);
    }
    let count = match drills.len() {
        1 => "one drill".to_owned(),
        count => format!("{count} different drills"),
    };
    let bench = if bench.is_some() {
        ""
    } else {
        "; no bench is described, so nothing is assumed owned"
    };
    (table, format!("{count}{bench}"))
}

/// Whether a bench has a tool; none of what every bench has, or where no bench is described.
fn at_hand(tool: Tool, bench: Option<&Bench>) -> Option<bool> {
    let bench = bench?;
    Some(match tool {
        Tool::Drill { dia, .. } => bench.drills.iter().any(|it| it.dia == dia),
        Tool::Reamer { dia } => bench.reamers.contains(&dia),
        Tool::Collet { dia } => bench.collets.contains(&dia),
        Tool::TenonCutter { bushing } => bench.bushings.contains(&bushing),
        Tool::Tap { thread } => bench
            .taps
            .iter()
            .any(|it| it.thread.thread.mates_with(&thread)),
        Tool::Die { thread } => bench
            .dies
            .iter()
            .any(|it| it.thread.thread.mates_with(&thread)),
        _ => return None,
    })
}

/// What to saw.
pub(super) fn cuts(plan: &Plan) -> (Table, String) {
    let mut table = Table::new(&["part", "material", "stock, mm", "saw to, mm", "✓"]);
    for route in &plan.routes {
        for (piece, length) in route.part.blanks.iter().zip(&route.blank.pieces) {
            let material = &piece.stock.material;
            let section = match piece.stock.section {
                StockSection::Rod => "Ø",
                StockSection::Square => "square ",
            };
            table.rows.push(vec![
                route.part.name.text.to_string(),
                material
                    .title
                    .as_ref()
                    .map_or(&material.name, |title| &title.text)
                    .to_string(),
                format!("{section}{}", mm(piece.stock.size)),
                mm(*length),
                String::new(),
            ]);
        }
    }
    let note = "facing, parting and centre nubs are counted, the saw's kerf is not; \
                saw one spare blank of each material if it can be had only once";
    (table, note.into())
}

/// Mandrels and plugs to make.
pub(super) fn mandrels(plan: &Plan) -> Table {
    let head = [
        "",
        "kind",
        "thread",
        "shoulder Ø",
        "spigots and bore",
        "shank",
        "serves",
    ];
    let mut table = Table::new(&head);
    let fitted = |what: &str, it: &Option<Fitted>| {
        it.map(|it| format!("{what} Ø{} × {}", mm(it.dia), mm(it.length)))
    };
    for (at, it) in plan.mandrels.iter().enumerate() {
        let thread = it
            .thread
            .as_ref()
            .map(|thread| format!("{} for {}", thread.thread, mm(it.thread_length)));
        let fits: Vec<String> = [
            fitted("at the shoulder", &it.root_spigot),
            fitted("in front", &it.front_spigot),
            fitted("bore", &it.bore),
        ]
        .into_iter()
        .flatten()
        .collect();
        let serves: Vec<String> = it
            .serves
            .iter()
            .map(|(part, end)| {
                let route = plan
                    .routes
                    .iter()
                    .find(|route| route.part.name.text == *part);
                let end = route.map_or("", |route| route.part.end_name(*end));
                format!("{part} {end}")
            })
            .collect();
        table.rows.push(vec![
            letter(at),
            words::mandrel_kind(it).into(),
            thread.unwrap_or_default(),
            if it.shoulder.is_positive() {
                mm(it.shoulder)
            } else {
                String::new()
            },
            fits.join("; "),
            format!(
                "Ø{} × {}, from Ø{}",
                mm(it.shank),
                mm(it.shank_length),
                mm(it.stock)
            ),
            serves.join(", "),
        ]);
    }
    table
}

/// Between two stations of the caliper table, mm.
const STEP_MM: f64 = 5.0;

/// Diameters along the outside, every 5 mm and at every edge: finished, in inches, roughed out.
pub(super) fn calipers(part: &Part) -> Table {
    let mut table = Table::new(&["at, mm", "Ø, mm", "Ø, in", "rough to Ø", "as made"]);
    let Some(profiles) = &part.profiles else {
        return table;
    };
    let chain = &profiles.crest.outer;
    for z in stations(chain) {
        let Some((before, after)) = chain.radii_at(z) else {
            continue;
        };
        let mut sizes = vec![2.0 * before];
        if (after - before).abs() > 5e-4 {
            sizes.push(2.0 * after);
        }
        let each = |text: &dyn Fn(f64) -> String| {
            sizes
                .iter()
                .map(|dia| text(*dia))
                .collect::<Vec<_>>()
                .join(" / ")
        };
        let rough = |dia: f64| match dia {
            dia if dia < 1e-6 => "–".to_owned(),
            dia => format!("{:.1}", dia + ROUGH_OVER.to_mm()),
        };
        table.rows.push(vec![
            crate::write::number(z, 2),
            each(&|dia| format!("{dia:.2}")),
            each(&|dia| format!("{:.3}", dia / 25.4)),
            each(&rough),
            String::new(),
        ]);
    }
    table
}

fn stations(chain: &Chain) -> Vec<f64> {
    let (from, to) = (chain.start().z, chain.end().z);
    let steps = ((to - from) / STEP_MM).floor() as u32;
    let mut all: Vec<f64> = (0..=steps)
        .map(|step| from + f64::from(step) * STEP_MM)
        .collect();
    let edges = chain
        .segments()
        .iter()
        .flat_map(|it| [it.curve.start().z, it.curve.end().z]);
    all.extend(edges);
    all.sort_by(f64::total_cmp);
    // Nobody sets calipers at two places nearer than this; an edge keeps its own place.
    all.dedup_by(|b, a| (*b - *a).abs() < 5e-3);
    all
}
