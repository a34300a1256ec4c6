//! An outline of fewer places.

/// A picture of the work needs no closer, mm.
const NEAR_MM: f64 = 0.01;

/// The places that are needed, so that straight lines between them keep near to all (Ramer, Douglas and
/// Peucker).
pub(super) fn straightened(places: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    let mut keeps = vec![false; places.len()];
    let mut open = match places.len() {
        0 => Vec::new(),
        count => vec![(0, count - 1)],
    };
    while let Some((first, last)) = open.pop() {
        keeps[first] = true;
        keeps[last] = true;
        let (a, b) = (places[first], places[last]);
        let long = (b.0 - a.0).hypot(b.1 - a.1);
        let off = |at: usize| {
            let c = places[at];
            match long < 1e-9 {
                true => (c.0 - a.0).hypot(c.1 - a.1),
                false => ((b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)).abs() / long,
            }
        };
        let farthest = (first + 1..last).max_by(|one, two| off(*one).total_cmp(&off(*two)));
        if let Some(at) = farthest.filter(|at| off(*at) > NEAR_MM) {
            open.push((first, at));
            open.push((at, last));
        }
    }
    let kept = places.into_iter().zip(keeps);
    kept.filter_map(|(place, keeps)| keeps.then_some(place))
        .collect()
}
