//! The lines of a sheet by which two are compared, without its pictures.

use super::holdings::rows_in;
use super::row::HoldingRow;
use super::{lists, start, turning};
use quillet_compare::SheetLine;
use quillet_model::{Design, End, Pen};
use quillet_pen::Planned;
use quillet_plan::{Operation, Route, Work};

/// Saw cuts, tools, mandrels and the route of each part of a pen, in the units of the file.
pub fn lines(design: &Design, pen: &Pen) -> Vec<SheetLine> {
    let units = design.units();
    let Planned { plan, bench, .. } = Planned::of_pen(design, pen);
    let (saws, _) = start::saws(&plan, bench, units);
    let (tools, _) = lists::tools(&plan, bench, units);
    let mut all = Vec::new();
    for saw in &saws {
        all.extend(saw.pieces.iter().map(|piece| SheetLine {
            group: "saw".to_owned(),
            number: None,
            key: piece.name.clone(),
            head: format!("{} to {}", piece.name, piece.length),
            rest: vec![saw.stock.split(',').next().unwrap_or("").to_owned()],
        }));
    }
    all.extend(tools.rows.iter().filter_map(|row| {
        let (name, at_hand) = (row.first()?.clone(), row.get(2)?.clone());
        Some(SheetLine {
            group: "tools".to_owned(),
            number: None,
            key: name.clone(),
            head: name,
            rest: vec![at_hand],
        })
    }));
    let mandrels = turning::turning(&plan, units)
        .into_iter()
        .map(|it| SheetLine {
            group: "mandrels".to_owned(),
            number: None,
            key: it.serves,
            head: format!("mandrel {}", it.letter),
            rest: it
                .sizes
                .into_iter()
                .chain(it.steps.into_iter().take(1))
                .collect(),
        });
    all.extend(mandrels);
    for route in &plan.routes {
        for (range, holding) in rows_in(&plan, route, bench, units) {
            let hold = SheetLine {
                group: route.part.name.text.to_string(),
                number: None,
                key: format!("hold {}", of_hold(&route.operations[range.start])),
                head: holding.title,
                rest: vec![holding.grip],
            };
            all.push(hold);
            all.extend(holding.rows.iter().map(|row| line(route, row)));
        }
    }
    all
}

fn of_hold(operation: &Operation) -> String {
    let text = format!("{:?}", operation.hold);
    text.split(['(', ' ']).next().unwrap_or("").to_owned()
}

/// A row of the route by its operation, its sort of tool and the end it is done at.
fn line(route: &Route, row: &HoldingRow) -> SheetLine {
    let operation = row
        .lines
        .first()
        .and_then(|at| route.operations.get(at - 1));
    let tool = operation.and_then(|it| it.tool).map(|it| format!("{it:?}"));
    let tool = tool.as_deref().and_then(|it| it.split([' ', '{']).next());
    let end = operation.and_then(|it| end_of(&it.work));
    let end = end.map_or("", |it| route.part.end_name(it));
    let verb = row.verb.to_lowercase();
    let mut rest = row.how.clone();
    rest.extend(row.dia.iter().map(|it| format!("⌀ {it}")));
    rest.extend(row.length.iter().map(|it| format!("length {it}")));
    rest.push(match row.speed.as_str() {
        "" | "hand" => row.speed.clone(),
        speed if speed.contains(' ') => speed.to_owned(),
        speed => format!("{speed} rev/min"),
    });
    let head = format!("{verb} {} {}", row.size, row.reach);
    SheetLine {
        group: route.part.name.text.to_string(),
        number: row.number,
        key: format!("{verb} {} {end}", tool.unwrap_or("")),
        head: head.split_whitespace().collect::<Vec<_>>().join(" "),
        rest,
    }
}

fn end_of(work: &Work) -> Option<End> {
    Some(match work {
        Work::Face { end, .. }
        | Work::Centre { end, .. }
        | Work::BreakCorner { end, .. }
        | Work::PartOff { end, .. }
        | Work::Beside { end, .. }
        | Work::RemoveNub { end, .. } => *end,
        Work::Inside(cut) => cut.end,
        Work::Turn(cut) => cut.end,
        Work::Thread(cut) => cut.end,
        Work::Try(trial) => trial.end,
        _ => return None,
    })
}
