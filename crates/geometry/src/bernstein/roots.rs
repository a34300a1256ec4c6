//! Where a polynomial is zero.

use super::ROOM;

/// The roots of a polynomial between 0 and 1, in no order; a double root may appear twice.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Roots {
    count: usize,
    at: [f64; ROOM],
}

impl Roots {
    pub(crate) fn push(&mut self, root: f64) {
        if self.count < ROOM {
            self.at[self.count] = root;
            self.count += 1;
        }
    }

    pub(crate) fn as_slice(&self) -> &[f64] {
        &self.at[..self.count]
    }

    pub(crate) fn iter(self) -> impl Iterator<Item = f64> {
        self.at.into_iter().take(self.count)
    }

    /// Those between two parameters, the least first.
    pub(crate) fn in_order(&self, above: f64, below: f64) -> Roots {
        let mut kept = Roots::default();
        let inside = |root: &f64| above < *root && *root < below;
        self.iter().filter(inside).for_each(|root| kept.push(root));
        kept.at[..kept.count].sort_by(f64::total_cmp);
        kept
    }
}
