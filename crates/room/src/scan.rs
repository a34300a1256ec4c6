//! Where a number passes, from where it is drawn outward.

use crate::Grain;
use crate::probe::NewFinding;

/// A stretch of values that pass, from the least to the greatest.
pub(crate) type Stretch = (f64, f64);

/// What was found along a number's line.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Scan {
    /// What passes, from the least up.
    pub(crate) stretches: Vec<Stretch>,
    /// What is found just below the stretch that holds the value as drawn.
    pub(crate) below: Option<NewFinding>,
    /// The same just above.
    pub(crate) above: Option<NewFinding>,
}

/// Looks from `drawn` down to `least` and up to `most`, in the grain's steps, and then for the edges
/// between what passes and what does not; `new` gives what is found at a value that was not there as
/// drawn.
pub(crate) fn scan(
    drawn: f64,
    (least, most): (f64, f64),
    grain: &Grain,
    new: &dyn Fn(f64) -> Option<NewFinding>,
) -> Scan {
    let down = grain.steps(drawn - least).into_iter().rev();
    let up = grain.steps(most - drawn);
    let mut looked: Vec<(f64, Option<NewFinding>)> = Vec::new();
    looked.extend(down.map(|step| drawn - step).map(|at| (at, new(at))));
    let middle = looked.len();
    looked.push((drawn, None));
    looked.extend(
        up.into_iter()
            .map(|step| drawn + step)
            .map(|at| (at, new(at))),
    );
    let edge = |passing: f64, failing: (f64, NewFinding)| edge(passing, failing, grain, new);
    let (mut stretches, mut below, mut above): (Vec<Stretch>, _, _) = (Vec::new(), None, None);
    let mut start: Option<(f64, Option<NewFinding>)> = None;
    for (nth, (at, found)) in looked.iter().enumerate() {
        let before = nth.checked_sub(1).map(|it| looked[it]);
        match (found, start) {
            (None, None) => {
                start = Some(match before {
                    Some((failing, Some(rule))) => {
                        let (value, rule) = edge(*at, (failing, rule));
                        (value, Some(rule))
                    }
                    _ => (*at, None),
                });
            }
            (Some(rule), Some((from, stop))) => {
                let (until, rule) = edge(looked[nth - 1].0, (*at, *rule));
                stretches.push((from, until));
                if from <= drawn && drawn <= until {
                    (below, above) = (stop, Some(rule));
                }
                start = None;
            }
            _ => {}
        }
    }
    if let Some((from, stop)) = start {
        stretches.push((from, looked[looked.len() - 1].0));
        if middle < looked.len() && from <= drawn {
            below = stop;
        }
    }
    Scan {
        stretches,
        below,
        above,
    }
}

/// The value farthest from what passes toward what fails that still passes, to the grain's places, and
/// what is found just beyond it.
pub(crate) fn edge(
    passing: f64,
    (failing, found): (f64, NewFinding),
    grain: &Grain,
    new: &dyn Fn(f64) -> Option<NewFinding>,
) -> (f64, NewFinding) {
    let parts = grain.parts;
    let rises = failing > passing;
    // Whole numbers of the grain strictly between the two.
    let (mut good, mut bad) = match rises {
        true => (
            (passing * parts + 1e-9).floor(),
            (failing * parts - 1e-9).ceil(),
        ),
        false => (
            (passing * parts - 1e-9).ceil(),
            (failing * parts + 1e-9).floor(),
        ),
    };
    let (mut farthest, mut rule) = (passing, found);
    while (good - bad).abs() > 1.0 {
        let middle = ((good + bad) / 2.0).trunc();
        let at = middle / parts;
        match new(at) {
            None => (good, farthest) = (middle, at),
            Some(found) => (bad, rule) = (middle, found),
        }
    }
    (farthest, rule)
}

#[cfg(test)]
mod tests {
    use super::*;
    use quillet_standards::Units;
    use quillet_syntax::{RuleId, Severity};

    fn looked(drawn: f64, within: (f64, f64), passes: impl Fn(f64) -> bool) -> Scan {
        let grain = Grain::of(None, Units::Millimetres, false);
        let new = |at: f64| {
            let rule = RuleId::new(if at < drawn { "low" } else { "high" });
            let severity = Severity::Warning;
            (!passes(at)).then_some(NewFinding { severity, rule })
        };
        scan(drawn, within, &grain, &new)
    }

    #[test]
    fn an_edge_is_told_on_the_side_that_passes() {
        let found = looked(54.0, (27.0, 64.0), |at| (52.1365..=58.9049).contains(&at));
        assert_eq!(found.stretches, [(52.14, 58.90)]);
        assert_eq!(found.below.map(|it| it.rule.code()), Some("low"));
        assert_eq!(found.above.map(|it| it.rule.code()), Some("high"));
        // An edge that is a hundredth itself passes.
        let found = looked(54.0, (27.0, 64.0), |at| (52.14..=58.9).contains(&at));
        assert_eq!(found.stretches, [(52.14, 58.90)]);
    }

    #[test]
    fn what_passes_need_not_hang_together() {
        let passes = |at: f64| (10.01..11.495).contains(&at) || (11.905..=12.09).contains(&at);
        let found = looked(11.4, (5.7, 17.1), passes);
        assert_eq!(found.stretches, [(10.01, 11.49), (11.91, 12.09)]);
    }

    #[test]
    fn what_never_fails_is_told_as_far_as_was_looked() {
        let found = looked(2.0, (1.0, 3.0), |_| true);
        assert_eq!(found.stretches, [(1.0, 3.0)]);
        assert_eq!((found.below, found.above), (None, None));
        let found = looked(2.0, (1.0, 3.0), |at| at <= 2.0);
        assert_eq!(found.stretches, [(1.0, 2.0)]);
    }

    #[test]
    fn a_value_between_the_places_keeps_itself_where_nothing_else_passes() {
        let found = looked(2.1234, (1.0, 3.2), |at| (2.122..2.126).contains(&at));
        assert_eq!(found.stretches, [(2.1234, 2.1234)]);
    }
}
