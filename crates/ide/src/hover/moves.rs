//! What a number moves: each measure that a pen wants, and of the others the two that it moves most.

use quillet_geometry::number as figure;
use quillet_geometry::put_in_order;
use quillet_model::{Configured, Design, Dimension, Pen, Quantity};
use quillet_room::{Measures, Number, Probe, Values};

/// Half the step over which it is looked at what a number moves, as a share of a millimetre or degree.
const STEP: f64 = 0.05;
/// Less than this, of any unit, does not show.
const SHOWS: f64 = 0.0005;
/// So many that nobody wants are told.
const MOST_UNWANTED: usize = 2;

/// What each measure changes by, were the number one more, by central differences, with whose it is; none
/// that does not change, and nothing where `called_off` said so.
pub(super) fn of(
    probe: &Probe<'_>,
    design: &Design,
    number: &Number,
    called_off: &dyn Fn() -> bool,
) -> Option<Vec<(String, String)>> {
    let mut all = Vec::new();
    for pen in &design.pens {
        let name = &*pen.name.text;
        let wants = probe.drawn().wants_of_pen(name);
        let wants = wants.filter(|it| it.part.is_none());
        let mut asked: Vec<String> = wants.map(|it| it.asked.clone()).collect();
        asked.dedup();
        let Ok(measures) = Measures::of(probe, name, &asked) else {
            continue;
        };
        if called_off() {
            return None;
        }
        let step = (STEP * number.grain.least()).min(number.value.abs() / 2.0);
        let at = |by: f64| measures.at(probe, &[number.written(number.value + by)]);
        let (Some(less), Some(more)) = (at(-step), at(step)) else {
            continue;
        };
        let wanted = asked.iter().zip(less.measured.iter().zip(&more.measured));
        let wanted = wanted.filter_map(|(name, (less, more))| {
            Change::of(name.clone(), (*less)?, (*more)?, 2.0 * step)
        });
        let unwanted = most_moved(name, &asked, (&less, &more), 2.0 * step);
        for change in wanted.chain(unwanted) {
            let named = (format!("{} of {name}", change.measure), change.text());
            if !all.contains(&named) {
                all.push(named);
            }
        }
    }
    Some(all)
}

/// The measures that change most for their size, of those that are not wanted.
fn most_moved(
    pen: &str,
    asked: &[String],
    (less, more): (&Values, &Values),
    step: f64,
) -> Vec<Change> {
    let both = less.design.pen(pen).zip(more.design.pen(pen));
    let Some((less, more)) = both else {
        return Vec::new();
    };
    let after = figures(more);
    let before = figures(less).into_iter();
    let mut changes: Vec<Change> = before
        .filter(|(name, _)| !asked.contains(name))
        .filter_map(|(name, less)| {
            let more = after.iter().find(|it| it.0 == name)?.1;
            Change::of(name, less, more, step)
        })
        .collect();
    put_in_order(&mut changes, |it| -it.share);
    changes.truncate(MOST_UNWANTED);
    changes
}

/// Length, mass and balance of a pen in each of its states, each by the name that a want has for it.
fn figures(pen: &Pen) -> Vec<(String, Quantity)> {
    let states = [
        Configured::Capped,
        Configured::Uncapped,
        Configured::Posted,
        Configured::Retracted,
        Configured::Resting,
    ];
    let each = states.into_iter().flat_map(|state| {
        let it = pen.assembly.configuration(state);
        let mass = it.and_then(|it| it.filled);
        let known = [
            ("length", it.and_then(|it| it.length_mm), Dimension::LENGTH),
            ("mass", mass.map(|it| it.mass_g), Dimension::MASS),
            ("balance", mass.map(|it| it.centre_mm), Dimension::LENGTH),
        ];
        known
            .into_iter()
            .filter_map(move |(name, value, dimension)| {
                let value = Quantity::measured(value?, dimension);
                Some((format!("{name}({})", state.word()), value))
            })
    });
    each.collect()
}

/// What a measure changes by.
struct Change {
    measure: String,
    /// In its own unit, were the number one more.
    by: f64,
    unit: &'static str,
    /// As a share of the measure itself.
    share: f64,
}

impl Change {
    /// None where nothing shows.
    fn of(measure: String, less: Quantity, more: Quantity, step: f64) -> Option<Change> {
        let (from, to) = (less.to_f64(), more.to_f64());
        let by = (to - from) / step;
        (by.abs() >= SHOWS && by.is_finite()).then(|| Change {
            measure,
            by,
            unit: more.dimension.unit(),
            share: by.abs() / to.abs().max(SHOWS),
        })
    }

    fn text(&self) -> String {
        let sign = if self.by < 0.0 { "−" } else { "+" };
        let text = format!("{sign}{} {}", figure(self.by.abs(), 3), self.unit);
        text.trim_end().to_owned()
    }
}
