//! The numbered lines of a route: what is done, with what, how deep and how fast, what is measured.

use super::content::{RouteCheck, RouteLine};
use super::hold_words::hold;
use super::note_words::note;
use super::words::{count, limits, tool};
use super::work_words::work;
use quillet_model::{Bench, End, Part, Units};
use quillet_plan::{Measured, Operation, Plan, Route, Speed, SpeedLimit, Work};

/// The numbered lines of a route.
pub(super) fn route(
    plan: &Plan,
    route: &Route,
    bench: Option<&Bench>,
    units: Units,
) -> Vec<RouteLine> {
    let mut held = None;
    let lines = route.operations.iter().enumerate().map(|(at, operation)| {
        let changed = held != Some(operation.hold);
        held = Some(operation.hold);
        let mut line = line(plan, &route.part, operation, units);
        line.number = at + 1;
        line.hold = changed.then(|| hold(&route.part, bench, operation.hold, units));
        line
    });
    lines.collect()
}

fn line(plan: &Plan, part: &Part, operation: &Operation, units: Units) -> RouteLine {
    let mut how = Vec::new();
    how.extend(operation.tool.map(|it| tool(it, units)));
    how.extend(depth(part, operation, units));
    if let Some(tailstock) = &operation.tailstock {
        let stops: Vec<String> = tailstock.stops.iter().map(|it| units.plain(*it)).collect();
        how.push(format!(
            "tailstock from touch: {}",
            stops.join(", then set anew and ")
        ));
    }
    if operation.by_hand {
        how.push("by hand, spindle locked, power off".into());
    }
    how.extend(operation.speed.as_ref().map(speed));
    if let Some(found) = operation.single_point {
        how.push(format!(
            "{} free beyond full form: {} s to stop",
            units.plain(found.run_out),
            crate::write::number(found.reaction_s, 0)
        ));
    }
    how.extend(operation.peck.map(|peck| {
        format!(
            "{} free, then {} of at most {}, withdrawn each time",
            units.plain(peck.free),
            count(peck.count as usize, "peck"),
            units.plain(peck.step)
        )
    }));
    RouteLine {
        number: 0,
        what: work(plan, part, operation, units),
        hold: None,
        how,
        notes: operation.notes.iter().map(|it| note(it, units)).collect(),
        checks: operation
            .checks
            .iter()
            .map(|it| check(part, operation, it, units))
            .collect(),
        gate: matches!(operation.work, Work::Try(_)),
        done: operation.as_made.is_some(),
    }
}

fn depth(part: &Part, operation: &Operation, units: Units) -> Option<String> {
    let depth = operation.depth?;
    let corner = format!("{} to the corner", units.plain(depth.to_corner));
    let point = depth
        .to_point
        .map(|it| format!(", {} to the point", units.plain(it)));
    Some(format!(
        "depth {corner}{} from the {}",
        point.unwrap_or_default(),
        part.end_name(depth.from)
    ))
}

fn speed(speed: &Speed) -> String {
    // To the nearest ten: nobody sets a lathe closer.
    let round = |rev: f64| ((rev / 10.0).round() * 10.0).max(10.0);
    let span = |from: f64, to: f64| match (round(from), round(to)) {
        (from, to) if from == to => format!("{from}"),
        (from, to) => format!("{from} to {to}"),
    };
    let lathe: Vec<String> = speed
        .settings_rev_min
        .iter()
        .map(|(from, to)| span(*from, *to))
        .collect();
    let rev = match (speed.set_rev_min, lathe.is_empty()) {
        (Some(set), _) => format!("{}", round(set)),
        (None, true) => span(speed.low_rev_min, speed.high_rev_min),
        (None, false) => lathe.join(" or "),
    };
    let limited = match speed.limited {
        None | Some(SpeedLimit::Capped) => "",
        Some(SpeedLimit::TooSlow) => " (the lathe's fastest: slow, not wrong)",
        Some(SpeedLimit::TooFast) => " (the lathe's slowest: faster than the material likes)",
    };
    format!("{rev} rev/min{limited}")
}

fn check(
    part: &Part,
    operation: &Operation,
    check: &quillet_plan::Inspection,
    units: Units,
) -> RouteCheck {
    let name = |end: End| part.end_name(end).to_owned();
    let what = match check.what {
        Measured::Outside { end, at } => format!("Ø at {} from the {}", units.plain(at), name(end)),
        Measured::Hole { end } => format!("Ø of the hole at the {}", name(end)),
        Measured::Depth { end } => format!("depth from the {}", name(end)),
        Measured::Point { end } => format!("depth at the point from the {}", name(end)),
        Measured::Length => "length over all".into(),
    };
    RouteCheck {
        what: format!("{what}, {}", units.plain(check.nominal)),
        limits: limits(check.limits, units),
        as_made: operation.as_made.and_then(|it| {
            let read = match check.what {
                Measured::Outside { .. } | Measured::Hole { .. } => it.dia,
                _ => it.length,
            };
            read.map(|it| units.number(it))
        }),
    }
}
