//! How far the number at the cursor can move, what stops it each way, and what it moves.

use super::Sheet;
use crate::Cursor;
use quillet_export::report::RoomInWords;
use quillet_geometry::number as figure;
use quillet_model::Quantity;
use quillet_room::{Measures, Number, Probe, Room};
use quillet_syntax::{Edit, Severity, Token};

/// Half the step over which it is looked at what a number moves, as a share of a millimetre or degree.
const STEP: f64 = 0.05;

/// Of a number of the file asked for, where all of it could be resolved.
pub(super) fn of(
    sheet: &mut Sheet,
    cursor: Cursor<'_>,
    token: Token,
    called_off: &dyn Fn() -> bool,
) -> Option<()> {
    let analysis = cursor.analysis;
    let design = &analysis.design;
    let numbers = crate::movable::numbers(design, cursor.file)?;
    let number = numbers.all().iter().find(|it| it.span == token.span)?;
    let examined = analysis.examined_until(called_off)?;
    // Beside what is wrong already anything as wrong would pass.
    if examined.errors() > 0 {
        return None;
    }
    let checked = (design, examined);
    let probe = Probe::of(analysis.loaded(), checked, None, Severity::Warning);
    let room = Room::of_until(&probe, &numbers, number, called_off)?;
    let told = RoomInWords::of(&room, design);
    sheet.paragraph(format!("**{}**", number.name));
    sheet.row("may be", &told.may_be);
    if let Some(rule) = told.below {
        sheet.row("below", rule);
    }
    if let Some(rule) = told.above {
        sheet.row("above", rule);
    }
    for (measure, change) in moves(&probe, cursor, number, called_off)? {
        sheet.row(
            &format!("1 {} more: {measure}", number.grain.unit()),
            &change,
        );
    }
    Some(())
}

/// What each measure that the pens want changes by, were the number one more, by central differences;
/// none that does not change.
fn moves(
    probe: &Probe<'_>,
    cursor: Cursor<'_>,
    number: &Number,
    called_off: &dyn Fn() -> bool,
) -> Option<Vec<(String, String)>> {
    let design = &cursor.analysis.design;
    let examined = probe.drawn();
    let mut all = Vec::new();
    for pen in &design.pens {
        let wants = examined.wants_of_pen(&pen.name.text);
        let wants = wants.filter(|it| it.part.is_none());
        let mut asked: Vec<String> = wants.map(|it| it.asked.clone()).collect();
        asked.dedup();
        let Ok(measures) = Measures::of(probe, &pen.name.text, &asked) else {
            continue;
        };
        let step = (STEP * number.grain.least()).min(number.value.abs() / 2.0);
        let at = |by: f64| -> Vec<Option<Quantity>> {
            let edits: [Edit; 1] = [number.written(number.value + by)];
            let values = measures.at(probe, &edits);
            values.map(|it| it.measured).unwrap_or_default()
        };
        if called_off() {
            return None;
        }
        for ((name, less), more) in asked.iter().zip(at(-step)).zip(at(step)) {
            let (Some(less), Some(more)) = (less, more) else {
                continue;
            };
            let change = (more.to_f64() - less.to_f64()) / (2.0 * step);
            if change.abs() >= 0.0005 && change.is_finite() {
                let sign = if change < 0.0 { "−" } else { "+" };
                let unit = more.dimension.unit();
                let text = format!("{sign}{} {unit}", figure(change.abs(), 3));
                let text = text.trim_end().to_owned();
                let named = (format!("{name} of {}", pen.name.text), text);
                if !all.contains(&named) {
                    all.push(named);
                }
            }
        }
    }
    Some(all)
}
