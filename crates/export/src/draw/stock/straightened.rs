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
        // Apart from the length, which all share, so that it is divided by once and not at each place.
        let off = |c: &(f64, f64)| match long < 1e-9 {
            true => (c.0 - a.0).hypot(c.1 - a.1),
            false => ((b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)).abs(),
        };
        let most = if long < 1e-9 { NEAR_MM } else { NEAR_MM * long };
        let between = (first + 1..last).map(|at| (at, off(&places[at])));
        let farthest = between.max_by(|one, two| one.1.total_cmp(&two.1));
        if let Some((at, _)) = farthest.filter(|(_, off)| *off > most) {
            open.push((first, at));
            open.push((at, last));
        }
    }
    let kept = places.into_iter().zip(keeps);
    kept.filter_map(|(place, keeps)| keeps.then_some(place))
        .collect()
}
