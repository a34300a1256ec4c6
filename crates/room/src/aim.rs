//! At which value of a number a measure comes to what is wanted.

use crate::measures::{Measures, Values};
use crate::probe::edits_of;
use crate::{Number, Probe};
use quillet_model::Quantity;
use roots::{SimpleConvergency, find_root_brent};

/// The range is looked over in so many steps; a root that comes and goes between two of them is missed.
const STEPS: u32 = 64;
/// How near a value is told, in the number's own unit.
const NEAR: f64 = 1e-4;
const MOST_ROUNDS: usize = 60;

/// Where a measure comes to what is wanted.
#[derive(Debug)]
pub struct Aimed {
    /// The values at which it does, from the least, each with what is found there.
    pub roots: Vec<(f64, Values)>,
    /// From what to what the measure goes over the range, where it is known at all.
    pub goes: Option<(Quantity, Quantity)>,
}

/// What is asked of a pen to learn where a measure comes to what is wanted: how far it is off, then the
/// measure itself. `15.5` is read in the measure's unit, as after `want`.
///
/// # Errors
///
/// A sentence, where the one or the other cannot be read.
pub fn asked(
    probe: &Probe<'_>,
    pen: &str,
    measure: &str,
    wanted: &str,
) -> Result<Measures, String> {
    let off = format!("({measure}) - ({wanted})");
    Measures::of(probe, pen, &[off, measure.to_owned()])
}

/// Looks for the values of a number between two at which what was [`asked`] is met.
pub fn aim(
    probe: &Probe<'_>,
    asked: &Measures,
    (number, (from, to)): (&Number, (f64, f64)),
) -> Aimed {
    let values = |at: f64| asked.at(probe, &edits_of(&[(number, at)]));
    let place = |nth: u32| from + (to - from) * f64::from(nth) / f64::from(STEPS);
    let known = |at: f64| {
        let found = values(at)?.measured;
        Some((found.first().copied()??.to_f64(), found.get(1).copied()??))
    };
    let looked = (0..=STEPS).map(place);
    let looked: Vec<(f64, (f64, Quantity))> =
        looked.filter_map(|at| Some((at, known(at)?))).collect();
    let mut roots: Vec<f64> = Vec::new();
    for pair in looked.windows(2) {
        let ((low, (below, _)), (high, (above, _))) = (pair[0], pair[1]);
        if below == 0.0 {
            roots.push(low);
        } else if below * above < 0.0 {
            let mut near = SimpleConvergency {
                eps: NEAR,
                max_iter: MOST_ROUNDS,
            };
            let off = |at: f64| known(at).map_or(f64::NAN, |it| it.0);
            roots.extend(find_root_brent(low, high, off, &mut near));
        }
    }
    roots.extend(looked.last().filter(|it| it.1.0 == 0.0).map(|it| it.0));
    let by_amount = |a: &Quantity, b: &Quantity| a.to_f64().total_cmp(&b.to_f64());
    let measured = looked.iter().map(|it| it.1.1);
    let goes = measured
        .clone()
        .min_by(by_amount)
        .zip(measured.max_by(by_amount));
    Aimed {
        roots: roots
            .into_iter()
            .filter_map(|at| Some((at, values(at)?)))
            .collect(),
        goes,
    }
}
