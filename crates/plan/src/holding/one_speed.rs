//! One speed a holding: the number to set, from the lathe's own steps.

use crate::{Operation, Speed, Threading, Tool, Work};
use quillet_model::Lathe;

/// Sets a number for each operation, so that as few as can be are set in a holding.
///
/// The drills of a holding share the step that serves all of them and lies nearest to what each asks
/// for, as ratios go; what else is cut takes that number where it serves, else its slowest. Sanding
/// takes its slowest, a single-pointed thread keeps its own.
pub(crate) fn one_speed_a_holding(operations: &mut [Operation], lathe: Option<&Lathe>) {
    let Some(lathe) = lathe else { return };
    for held in operations.chunk_by_mut(|a, b| a.hold == b.hold) {
        let common = common(held, lathe);
        for operation in held {
            let job = job(operation);
            let Some(speed) = &mut operation.speed else {
                continue;
            };
            speed.set_rev_min = match job {
                SpeedGroup::Thread => speed.set_rev_min,
                SpeedGroup::Sand => speed.slowest_rev_min(),
                SpeedGroup::Drill | SpeedGroup::Turn => common
                    .filter(|rev_min| speed.serves(*rev_min))
                    .or(speed.slowest_rev_min()),
            };
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum SpeedGroup {
    Drill,
    Turn,
    Sand,
    Thread,
}

fn job(operation: &Operation) -> SpeedGroup {
    match (&operation.work, operation.tool) {
        (Work::Thread(cut), _) if cut.method == Threading::SinglePoint => SpeedGroup::Thread,
        (Work::Polish { .. }, _) => SpeedGroup::Sand,
        (_, Some(Tool::Drill { .. } | Tool::FlatDrill { .. })) => SpeedGroup::Drill,
        _ => SpeedGroup::Turn,
    }
}

/// The number most of a holding is done at: of its drills, else of what is turned.
fn common(held: &[Operation], lathe: &Lathe) -> Option<f64> {
    let of = |wanted: SpeedGroup| -> Vec<&Speed> {
        let own = held.iter().filter(|it| job(it) == wanted);
        own.filter_map(|it| it.speed.as_ref()).collect()
    };
    let drills = of(SpeedGroup::Drill);
    let asked = if drills.is_empty() {
        of(SpeedGroup::Turn)
    } else {
        drills
    };
    let steps = lathe.speeds_rev_min.iter();
    // Of a range any number can be set: what each asks for, held within it.
    let numbers = steps.flat_map(|(from, to)| match from == to {
        true => vec![*from],
        false => asked
            .iter()
            .map(|it| tens(it.middle_rev_min()).clamp(*from, *to))
            .collect(),
    });
    let off = |rev_min: f64| -> f64 {
        let each = asked.iter();
        each.map(|it| (rev_min / it.middle_rev_min()).ln().abs())
            .sum()
    };
    numbers
        .filter(|rev_min| asked.iter().all(|it| it.serves(*rev_min)))
        .min_by(|a, b| off(*a).total_cmp(&off(*b)))
}

/// Nobody sets a lathe closer.
fn tens(rev_min: f64) -> f64 {
    (rev_min / 10.0).round() * 10.0
}
