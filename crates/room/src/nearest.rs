//! The nearest value of a number at which something is found no more.

use crate::room::within;
use crate::scan::edge;
use crate::{Number, Probe, ladder};
use quillet_syntax::Finding;

/// The value nearest to where a number is drawn, in its own unit, at which a finding is gone and nothing
/// else has come; none where there is no such value as far as the number is looked at, or `called_off`
/// said so.
pub fn nearest(
    probe: &Probe<'_>,
    number: &Number,
    finding: &Finding,
    called_off: &dyn Fn() -> bool,
) -> Option<f64> {
    let known = probe.known_but(finding);
    let new = |value: f64| probe.new_beside(&known, &[(number, value)]);
    let drawn = number.value;
    let stops = new(drawn)?;
    let mut sides: [Vec<f64>; 2] = Default::default();
    let sizes = ladder::sizes(probe.design(), number);
    match &sizes {
        Some(sizes) => {
            sides[0].extend(sizes.iter().rev().filter(|it| **it < drawn - 1e-6));
            sides[1].extend(sizes.iter().filter(|it| **it > drawn + 1e-6));
        }
        None => {
            let (least, most) = within(probe, number);
            let down = number.grain.steps(drawn - least);
            sides[0].extend(down.into_iter().map(|step| drawn - step));
            let up = number.grain.steps(most - drawn);
            sides[1].extend(up.into_iter().map(|step| drawn + step));
        }
    }
    let found = sides.iter().filter_map(|side| {
        let mut before = (drawn, stops);
        for value in side.iter().copied() {
            if called_off() {
                return None;
            }
            match new(value) {
                None if sizes.is_some() => return Some(value),
                None => return Some(edge(value, before, &number.grain, &new).0),
                Some(found) => before = (value, found),
            }
        }
        None
    });
    let away = |it: &f64| (it - drawn).abs();
    let found = found.min_by(|a, b| away(a).total_cmp(&away(b)))?;
    // As it will be written.
    let written = number.grain.written(found).parse().ok()?;
    (!called_off() && new(written).is_none()).then_some(written)
}
