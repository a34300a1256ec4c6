//! By how much a want is met.

use quillet_model::{Amount, Measure, Quantity, Sum, Test, Want};
use quillet_syntax::ast::{Comparison, Operator};

/// By how much a want is met, less than nothing where it is not, in the unit of what is measured;
/// none where it cannot be known.
pub(super) fn margin<N: Amount>(
    want: &Want,
    found: Quantity<N>,
    value: &dyn Fn(&Measure) -> Option<Quantity<N>>,
) -> Option<Quantity<N>> {
    let known = |sum: &Sum| sum.value(value).ok().flatten();
    let less = |a: Quantity<N>, b: Quantity<N>| a.combine(Operator::Subtract, b).ok();
    let between = |low: Quantity<N>, high: Quantity<N>| {
        let (above, below) = (less(found, low)?, less(high, found)?);
        let (above, below) = above.matched(below).ok()?;
        Some(if above.amount < below.amount {
            above
        } else {
            below
        })
    };
    match &want.test {
        Test::Compare(Comparison::Less | Comparison::AtMost, sum) => less(known(sum)?, found),
        Test::Compare(Comparison::More | Comparison::AtLeast, sum) => less(found, known(sum)?),
        Test::About(value, tolerance) => {
            let (value, tolerance) = (known(value)?, known(tolerance)?);
            let low = less(value, tolerance)?;
            between(low, value.combine(Operator::Add, tolerance).ok()?)
        }
        Test::Within(from, to) => between(known(from)?, known(to)?),
    }
}

/// Whether a margin will do: nothing left is enough but for `<` and `>`.
pub(super) fn is_enough(want: &Want, margin: Quantity) -> bool {
    let strict = matches!(
        want.test,
        Test::Compare(Comparison::Less | Comparison::More, _)
    );
    if strict {
        !margin.is_negative() && !margin.is_zero()
    } else {
        !margin.is_negative()
    }
}
