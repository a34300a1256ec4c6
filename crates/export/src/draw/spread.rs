//! Places labels side by side, as near as may be to where they belong.

/// Positions at least `pitch` apart, in the order of `wanted` (which is sorted), moved as little as can be
/// (least squares), within `least..most` where all fit.
pub(super) fn spread(wanted: &[f64], pitch: f64, least: f64, most: f64) -> Vec<f64> {
    // With i·pitch taken off each, "at least a pitch apart" becomes "never falling": the pool of
    // adjacent violators (Barlow and others, 1972) then gives the nearest such positions.
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (at, want) in wanted.iter().enumerate() {
        let mut pool = (want - at as f64 * pitch, 1);
        while let Some(last) = pools.last().filter(|last| last.0 > pool.0) {
            let count = last.1 + pool.1;
            pool = (
                (last.0 * last.1 as f64 + pool.0 * pool.1 as f64) / count as f64,
                count,
            );
            pools.pop();
        }
        pools.push(pool);
    }
    let high = most - wanted.len().saturating_sub(1) as f64 * pitch;
    pools
        .iter()
        .flat_map(|(mean, count)| std::iter::repeat_n(*mean, *count))
        .enumerate()
        .map(|(at, base)| base.min(high).max(least) + at as f64 * pitch)
        .collect()
}

/// The middles of labels of these widths, `gap` apart and in order, as near as may be to where they are
/// wanted (sorted), within `0..room` where all fit.
pub(crate) fn spread_wide(wanted: &[f64], widths: &[f64], gap: f64, room: f64) -> Vec<f64> {
    let mut offsets = Vec::new();
    let mut at = 0.0;
    for (index, width) in widths.iter().enumerate() {
        if index > 0 {
            at += (widths[index - 1] + width) / 2.0 + gap;
        }
        offsets.push(at);
    }
    let total = at;
    let first = widths.first().copied().unwrap_or(0.0) / 2.0;
    let last = widths.last().copied().unwrap_or(0.0) / 2.0;
    let based: Vec<f64> = wanted.iter().zip(&offsets).map(|(w, o)| w - o).collect();
    let spread = spread(&based, 0.0, first, room - last - total);
    spread
        .iter()
        .zip(&offsets)
        .map(|(base, o)| base + o)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_with_room_stay_and_crowds_share_the_shift() {
        assert_eq!(
            spread(&[0.0, 10.0, 20.0], 5.0, -50.0, 50.0),
            [0.0, 10.0, 20.0]
        );
        assert_eq!(
            spread(&[0.0, 9.0, 10.0, 11.0], 5.0, -50.0, 50.0),
            [0.0, 5.0, 10.0, 15.0]
        );
        assert_eq!(spread(&[48.0, 49.0], 5.0, 0.0, 50.0), [45.0, 50.0]);
        assert_eq!(spread(&[], 5.0, 0.0, 50.0), Vec::<f64>::new());
    }
}
