//! Polynomials in Bernstein form on 0..1 and their real roots.
//!
//! Every question put to a curve (where it meets another, where it is nearest to a place, where
//! its tangent has a given direction) becomes the roots of a polynomial of degree seven or less.
//! In Bernstein form the signs of the coefficients bound the number of roots (variation
//! diminishing; Lane & Riesenfeld, "Bounds on a polynomial", BIT 21, 1981), so none is missed.

mod roots;

pub(crate) use roots::Roots;

/// Room for degree seven.
const ROOM: usize = 8;

/// Parameters nearer than this cannot be told apart: a few units in the last place of 1.
const NOTHING: f64 = 4.0 * f64::EPSILON;

/// A polynomial of degree seven or less by its Bernstein coefficients on 0..1.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Poly {
    degree: usize,
    coefficients: [f64; ROOM],
}

impl Poly {
    /// From its coefficients, at most eight.
    pub(crate) fn new(coefficients: &[f64]) -> Poly {
        let mut poly = Poly {
            degree: coefficients.len().saturating_sub(1).min(ROOM - 1),
            coefficients: [0.0; ROOM],
        };
        for (slot, value) in poly.coefficients.iter_mut().zip(coefficients) {
            *slot = *value;
        }
        poly
    }

    fn as_slice(&self) -> &[f64] {
        &self.coefficients[..=self.degree]
    }

    /// Enough for the polynomial to be positive all along.
    pub(crate) fn has_positive_coefficients(&self) -> bool {
        self.as_slice().iter().all(|value| *value > 0.0)
    }

    pub(crate) fn eval(&self, t: f64) -> f64 {
        let mut points = self.coefficients;
        for last in (1..=self.degree).rev() {
            for at in 0..last {
                points[at] += (points[at + 1] - points[at]) * t;
            }
        }
        points[0]
    }

    pub(crate) fn derivative(&self) -> Poly {
        let mut out = Poly {
            degree: self.degree.saturating_sub(1),
            coefficients: [0.0; ROOM],
        };
        for at in 0..self.degree {
            out.coefficients[at] =
                (self.coefficients[at + 1] - self.coefficients[at]) * self.degree as f64;
        }
        out
    }

    pub(crate) fn times(&self, other: &Poly) -> Poly {
        let mut out = Poly {
            degree: self.degree + other.degree,
            coefficients: [0.0; ROOM],
        };
        debug_assert!(out.degree < ROOM);
        out.degree = out.degree.min(ROOM - 1);
        for (i, a) in self.as_slice().iter().enumerate() {
            for (j, b) in other.as_slice().iter().enumerate() {
                if let Some(slot) = out.coefficients.get_mut(i + j) {
                    *slot += a * b * binomial(self.degree, i) * binomial(other.degree, j);
                }
            }
        }
        for at in 0..=out.degree {
            out.coefficients[at] /= binomial(out.degree, at);
        }
        out
    }

    /// `self` + `factor` × `other`, of the higher degree of the two.
    pub(crate) fn plus(&self, factor: f64, other: &Poly) -> Poly {
        let degree = self.degree.max(other.degree);
        let (mut out, other) = (self.raised(degree), other.raised(degree));
        for at in 0..=degree {
            out.coefficients[at] += factor * other.coefficients[at];
        }
        out
    }

    /// `value` less everywhere.
    pub(crate) fn less(mut self, value: f64) -> Poly {
        for own in &mut self.coefficients[..=self.degree] {
            *own -= value;
        }
        self
    }

    fn raised(&self, degree: usize) -> Poly {
        let ones = |degree: usize| Poly {
            degree,
            coefficients: [1.0; ROOM],
        };
        match self.degree {
            same if same == degree => *self,
            0 => ones(degree).scaled(self.coefficients[0]),
            less => self.times(&ones(degree - less)),
        }
    }

    /// Every value times `factor`.
    pub(crate) fn scaled(mut self, factor: f64) -> Poly {
        for value in &mut self.coefficients {
            *value *= factor;
        }
        self
    }

    /// The halves before and after the middle, each again on 0..1.
    fn halves(&self) -> (Poly, Poly) {
        let (mut left, mut right) = (*self, *self);
        for step in 1..=self.degree {
            for at in 0..=(self.degree - step) {
                right.coefficients[at] =
                    (right.coefficients[at] + right.coefficients[at + 1]) / 2.0;
            }
            left.coefficients[step] = right.coefficients[0];
        }
        (left, right)
    }

    fn greatest(&self) -> f64 {
        self.as_slice()
            .iter()
            .fold(0.0, |most, value| value.abs().max(most))
    }

    /// The roots strictly between 0 and 1 where the sign changes, and, to about 1e-7, those where
    /// it does not. A polynomial that is zero to rounding has none.
    pub(crate) fn roots(&self) -> Roots {
        let mut roots = Roots::default();
        let least = self.greatest() * 1e-14;
        if least == 0.0 || !least.is_finite() {
            return roots;
        }
        self.search(0.0, 1.0, least, &mut roots);
        roots
    }

    fn search(&self, from: f64, to: f64, least: f64, roots: &mut Roots) {
        match self.sign_changes(least) {
            0 => {}
            1 if self.ends_differ() => roots.push(from + (to - from) * self.root_between_ends(0.5)),
            _ if self.greatest() <= least || to - from < 1e-13 => roots.push((from + to) / 2.0),
            _ => {
                let middle = (from + to) / 2.0;
                let (left, right) = self.halves();
                left.search(from, middle, least, roots);
                if right.coefficients[0].abs() <= least {
                    roots.push(middle);
                }
                right.search(middle, to, least, roots);
            }
        }
    }

    fn ends_differ(&self) -> bool {
        self.coefficients[0] * self.coefficients[self.degree] < 0.0
    }

    fn sign_changes(&self, least: f64) -> usize {
        let mut changes = 0;
        let mut before = 0.0;
        for &value in self.as_slice() {
            if value.abs() <= least {
                continue;
            }
            if before * value < 0.0 {
                changes += 1;
            }
            before = value;
        }
        changes
    }

    /// The one root between ends of different sign, by Newton from a guess, kept inside a
    /// shrinking bracket.
    pub(crate) fn root_between_ends(&self, guess: f64) -> f64 {
        let slope = self.derivative();
        let rising = self.coefficients[0] < 0.0;
        let (mut low, mut high, mut t) = (0.0, 1.0, guess);
        for _ in 0..80 {
            let value = self.eval(t);
            if value == 0.0 {
                break;
            }
            if (value < 0.0) == rising {
                low = t;
            } else {
                high = t;
            }
            let newton = t - value / slope.eval(t);
            let next = if newton > low && newton < high {
                newton
            } else {
                (low + high) / 2.0
            };
            if (next - t).abs() <= NOTHING || high - low <= NOTHING {
                t = next;
                break;
            }
            t = next;
        }
        t
    }
}

fn binomial(n: usize, k: usize) -> f64 {
    const ROWS: [[f64; ROOM]; ROOM] = {
        let mut rows = [[0.0; ROOM]; ROOM];
        let mut n = 0;
        while n < ROOM {
            rows[n][0] = 1.0;
            let mut k = 1;
            while k <= n {
                rows[n][k] = rows[n - 1][k - 1] + rows[n - 1][k];
                k += 1;
            }
            n += 1;
        }
        rows
    };
    ROWS[n][k]
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn from_roots(roots: &[f64]) -> Poly {
        roots.iter().fold(Poly::new(&[1.0]), |poly, root| {
            poly.times(&Poly::new(&[-root, 1.0 - root]))
        })
    }

    #[test]
    fn products_sums_and_slopes_agree_with_their_values() {
        let (a, b) = (Poly::new(&[1.0, -2.0, 3.0]), Poly::new(&[0.5, 4.0]));
        for t in [0.0, 0.3, 1.0] {
            assert!((a.times(&b).eval(t) - a.eval(t) * b.eval(t)).abs() < 1e-14);
            assert!((a.plus(-2.0, &b).eval(t) - (a.eval(t) - 2.0 * b.eval(t))).abs() < 1e-14);
            let slope = (a.eval(t + 1e-6) - a.eval(t - 1e-6)) / 2e-6;
            assert!((a.derivative().eval(t) - slope).abs() < 1e-8);
        }
    }

    #[test]
    fn a_polynomial_of_nothing_has_no_roots() {
        assert!(Poly::new(&[0.0; 4]).roots().as_slice().is_empty());
        assert!(Poly::new(&[2.0, 1.0, 3.0]).roots().as_slice().is_empty());
    }

    proptest! {
        #[test]
        fn every_root_is_found(wanted in prop::collection::vec(-0.5..1.5_f64, 1..6)) {
            let found = from_roots(&wanted).roots();
            for (at, root) in wanted.iter().enumerate() {
                let alone = wanted.iter().enumerate().all(|(other, value)| other == at || (value - root).abs() > 1e-2);
                if (1e-9..1.0 - 1e-9).contains(root) && alone {
                    let close = found.as_slice().iter().any(|value| (value - root).abs() < 1e-9);
                    prop_assert!(close, "{root} of {wanted:?} not in {found:?}");
                }
            }
            for value in found.as_slice() {
                let near = wanted.iter().any(|root| (value - root).abs() < 1e-3);
                prop_assert!(near, "{value} is no root of {wanted:?}");
            }
        }
    }
}
