//! From which size something mostly comes.

use super::draw::Draw;
use quillet_geometry::put_in_order;

/// The size that something goes with most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// Which of the sizes.
    pub size: usize,
    /// The square of the rank correlation (Spearman's), from 0 to 1.
    pub share: f64,
    /// Which way of the size goes with it.
    pub way: Way,
}

/// Which way a size lies from what is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Over it.
    Over,
    /// Under it.
    Under,
    /// Far from it, whichever way.
    Either,
}

/// What chance alone would show of one size among many, in so many cases: as much as this, over their
/// number, is passed over.
const CHANCE: f64 = 25.0;

/// The size with which the values of all cases go most; none where no size stands out from chance.
pub(super) fn chief(draws: &[Draw], values: &[f64]) -> Option<Cause> {
    let ranks = ranks(values);
    let each = draws.iter().enumerate().flat_map(|(size, draw)| {
        let cause = move |(r, way): (f64, Way)| Cause {
            size,
            share: r * r,
            way,
        };
        let one_way = correlation(&draw.ranks, &ranks).map(|r| match r > 0.0 {
            true => (r, Way::Over),
            false => (r, Way::Under),
        });
        // A size that hardly lies off does nothing: what counts is the far side alone.
        let either = correlation(&folded(&draw.ranks), &ranks).filter(|r| *r > 0.0);
        let either = either.map(|r| (r, Way::Either));
        one_way.into_iter().chain(either).map(cause)
    });
    let chief = each.max_by(|a, b| a.share.total_cmp(&b.share).then(b.size.cmp(&a.size)))?;
    (chief.share * values.len() as f64 > CHANCE).then_some(chief)
}

/// The place of each value from the least; equal ones share the middle of theirs.
fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    put_in_order(&mut order, |it| values[*it]);
    let mut ranks = vec![0.0; values.len()];
    let mut from = 0;
    while from < order.len() {
        let same = |it: &&usize| values[**it] == values[order[from]];
        let until = from + order[from..].iter().take_while(same).count();
        for it in &order[from..until] {
            ranks[*it] = (from + until - 1) as f64 / 2.0;
        }
        from = until;
    }
    ranks
}

/// How far each place is from the middle one, as places from the least.
fn folded(ranks: &[u32]) -> Vec<u32> {
    let last = ranks.len().saturating_sub(1) as u32;
    let far = ranks.iter().map(|it| (2 * it).abs_diff(last));
    // Two lie equally far, one on each side: the upper counts as further.
    far.zip(ranks)
        .map(|(far, rank)| match 2 * rank > last {
            true => far,
            false => far.saturating_sub(1),
        })
        .collect()
}

fn correlation(a: &[u32], b: &[f64]) -> Option<f64> {
    let n = a.len() as f64;
    let middle = (n - 1.0) / 2.0;
    let (mut ab, mut aa, mut bb) = (0.0, 0.0, 0.0);
    for (a, b) in a.iter().zip(b) {
        let (a, b) = (f64::from(*a) - middle, b - middle);
        (ab, aa, bb) = (ab + a * b, aa + a * a, bb + b * b);
    }
    (aa > 0.0 && bb > 0.0).then(|| ab / (aa * bb).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_values_share_their_place() {
        assert_eq!(ranks(&[3.0, 1.0, 3.0, 0.5]), [2.5, 1.0, 2.5, 0.0]);
        // Eight pairs; Spearman's by hand: 1 - 6 * 14 / (8 * 63).
        let other = ranks(&[2.0, 1.0, 4.0, 3.0, 7.0, 5.0, 8.0, 6.0]);
        let found = correlation(&[0, 1, 2, 3, 4, 5, 6, 7], &other).expect("both vary");
        assert!(
            (found - (1.0 - 6.0 * 14.0 / 504.0)).abs() < 1e-12,
            "{found}"
        );
        assert_eq!(correlation(&[0, 1], &[0.5, 0.5]), None);
        assert_eq!(folded(&[0, 1, 2, 3]), [2, 0, 1, 3]);
        assert_eq!(folded(&[0, 1, 2, 3, 4]), [3, 1, 0, 2, 4]);
    }
}
