//! Where a straight line crosses the outline of a region.

use super::{Path, PathElement, Xy};

/// The stretches of the line `place · normal = offset` inside a region (even-odd), as positions
/// along the line's direction (the normal turned a quarter to the right), in order.
///
/// Each outline is cut where it runs beside the line, so that every piece crosses at most once and
/// a corner on the line counts once: a closed region always gives whole stretches.
pub(super) fn stretches(region: &[Path], normal: Xy, offset: f64) -> Vec<(f64, f64)> {
    let along = |at: Xy| at.x * normal.y - at.y * normal.x;
    let height = |at: Xy| at.x * normal.x + at.y * normal.y - offset;
    let mut crossings = Vec::new();
    for (from, step) in region.iter().flat_map(Path::legs) {
        if let PathElement::Line(to) = step {
            let (one, two) = (height(from), height(to));
            if (one <= 0.0) != (two <= 0.0) {
                crossings.push(along(from.towards(to, one / (one - two))));
            }
            continue;
        }
        let mut cuts = turns(from, &step, normal);
        cuts.push(1.0);
        let mut start = 0.0;
        for end in cuts {
            let value = |t: f64| height(end_exact(from, &step, t));
            if (value(start) <= 0.0) != (value(end) <= 0.0) {
                crossings.push(along(end_exact(from, &step, root(value, start, end))));
            }
            start = end;
        }
    }
    crossings.sort_by(f64::total_cmp);
    crossings
        .chunks_exact(2)
        .map(|pair| (pair[0], pair[1]))
        .collect()
}

/// What two lists of stretches have in common.
pub(super) fn both(one: &[(f64, f64)], two: &[(f64, f64)]) -> Vec<(f64, f64)> {
    one.iter()
        .flat_map(|a| two.iter().map(move |b| (a.0.max(b.0), a.1.min(b.1))))
        .filter(|(from, to)| from < to)
        .collect()
}

/// What of the first stretches is in none of the second.
pub(super) fn less(one: &[(f64, f64)], two: &[(f64, f64)]) -> Vec<(f64, f64)> {
    two.iter().fold(one.to_vec(), |rest, hole| {
        let around =
            |part: (f64, f64)| [(part.0, part.1.min(hole.0)), (part.0.max(hole.1), part.1)];
        rest.into_iter()
            .flat_map(around)
            .filter(|(from, to)| from < to)
            .collect()
    })
}

/// A step's place with its ends exactly as said, so that neighbours agree on a corner.
fn end_exact(from: Xy, step: &PathElement, t: f64) -> Xy {
    match t {
        0.0 => from,
        1.0 => step.to(),
        _ => step.point(from, t),
    }
}

/// The parameters strictly inside where a step runs square to `normal`, in order.
fn turns(from: Xy, step: &PathElement, normal: Xy) -> Vec<f64> {
    let mut found = match *step {
        PathElement::Line(_) => Vec::new(),
        PathElement::Arc {
            semi,
            from_rad,
            sweep_rad,
            ..
        } => {
            let first = (normal.y * semi.y).atan2(normal.x * semi.x);
            (-4..=4)
                .map(|half| (first + f64::from(half) * std::f64::consts::PI - from_rad) / sweep_rad)
                .collect()
        }
        PathElement::Cubic(one, two, to) => {
            let rise = |a: Xy, b: Xy| (b.x - a.x) * normal.x + (b.y - a.y) * normal.y;
            let (a, b, c) = (rise(from, one), rise(one, two), rise(two, to));
            quadratic(a - 2.0 * b + c, 2.0 * (b - a), a)
        }
    };
    found.retain(|t| *t > 0.0 && *t < 1.0);
    found.sort_by(f64::total_cmp);
    found
}

/// The real roots of `a t² + b t + c`.
fn quadratic(a: f64, b: f64, c: f64) -> Vec<f64> {
    if a == 0.0 {
        return vec![-c / b];
    }
    let inside = b * b - 4.0 * a * c;
    if inside < 0.0 {
        return Vec::new();
    }
    let sum = -0.5 * (b + inside.sqrt().copysign(b));
    vec![sum / a, c / sum]
}

/// The root between two parameters at which a steady value has different signs.
fn root(value: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    let low_inside = value(low) <= 0.0;
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if (value(middle) <= 0.0) == low_inside {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
