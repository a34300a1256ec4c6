//! What lies between two outlines of a plane section over a strip of it, in closed form.

use std::ops::{Add, Sub};

/// A piece of an outline as a height `u` over `v`, mm: `u` along the direction of a cut, `v` to its
/// clockwise side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Height {
    /// A circle round the axis, u = √(r² - v²); nothing beside it.
    Round(f64),
    /// A straight edge, u = at + slope v.
    Straight {
        /// Over the middle.
        at_mm: f64,
        /// Per mm to the clockwise side.
        slope: f64,
    },
}

/// ∫ over a region of the section: area, u, v and u² + v².
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Sums {
    pub(super) area: f64,
    pub(super) u: f64,
    pub(super) v: f64,
    pub(super) polar: f64,
}

impl Height {
    fn at(self, v: f64) -> f64 {
        match self {
            Height::Round(r) => ((r - v) * (r + v)).max(0.0).sqrt(),
            Height::Straight { at_mm, slope } => at_mm + slope * v,
        }
    }

    /// Everything under it from v = 0 to here.
    fn under(self, v: f64) -> Sums {
        match self {
            Height::Round(r) if r > 0.0 => {
                let v = v.clamp(-r, r);
                let (u, square) = (self.at(v), r * r);
                let area = (v * u + square * (v / r).asin()) / 2.0;
                let cubes = v * u.powi(3) / 4.0 + 0.75 * square * area;
                Sums {
                    area,
                    u: (square * v - v.powi(3) / 3.0) / 2.0,
                    v: (r.powi(3) - u.powi(3)) / 3.0,
                    polar: square * area - cubes * 2.0 / 3.0,
                }
            }
            Height::Round(_) => Sums::default(),
            Height::Straight { at_mm: m, slope: k } => {
                let (v2, v3, v4) = (v * v, v.powi(3), v.powi(4));
                let cubes =
                    m.powi(3) * v + 1.5 * m * m * k * v2 + m * k * k * v3 + k.powi(3) * v4 / 4.0;
                Sums {
                    area: m * v + k * v2 / 2.0,
                    u: (m * m * v + m * k * v2 + k * k * v3 / 3.0) / 2.0,
                    v: m * v2 / 2.0 + k * v3 / 3.0,
                    polar: cubes / 3.0 + m * v3 / 3.0 + k * v4 / 4.0,
                }
            }
        }
    }

    /// Where it is as high as another, if it is anywhere.
    fn meets(self, other: Height) -> [Option<f64>; 2] {
        match (self, other) {
            (Height::Round(r), Height::Straight { at_mm, slope })
            | (Height::Straight { at_mm, slope }, Height::Round(r)) => {
                // (1 + k²) v² + 2 m k v + m² - r² = 0
                let over = 1.0 + slope * slope;
                let root = r * r * over - at_mm * at_mm;
                let at =
                    |sign: f64| (root >= 0.0).then(|| (sign * root.sqrt() - at_mm * slope) / over);
                [at(-1.0), at(1.0)]
            }
            (Height::Straight { at_mm: m, slope: k }, Height::Straight { at_mm: n, slope: l }) => {
                [(k != l).then(|| (n - m) / (k - l)), None]
            }
            (Height::Round(_), Height::Round(_)) => [None, None],
        }
    }
}

/// What a section is towards a cut: under the lowest of some outlines, over the highest of others,
/// between two places beside the middle.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Strip {
    pub(crate) under: Vec<Height>,
    pub(crate) over: Vec<Height>,
    pub(crate) beside_mm: [f64; 2],
}

impl Strip {
    /// The whole of a disc.
    pub(crate) fn round(radius_mm: f64) -> Strip {
        Strip {
            under: vec![Height::Round(radius_mm)],
            over: Vec::new(),
            beside_mm: [-radius_mm, radius_mm],
        }
    }

    /// What of it lies over more outlines, `half` to both sides of the middle.
    pub(super) fn over(&self, more: &[Height], half: f64) -> Sums {
        let lower: Vec<Height> = self.over.iter().chain(more).copied().collect();
        let [from, to] = self.beside_mm;
        between(&self.under, &lower, [from.max(-half), to.min(half)])
    }
}

/// Between the lowest of the upper outlines and the highest of the lower ones; where the lower
/// ones are higher there is nothing.
fn between(upper: &[Height], lower: &[Height], [from, to]: [f64; 2]) -> Sums {
    let all = || upper.iter().chain(lower).copied();
    let mut stops = vec![from, to];
    for (nth, one) in all().enumerate() {
        if let Height::Round(r) = one {
            stops.extend([-r, r]);
        }
        stops.extend(all().take(nth).flat_map(|two| one.meets(two)).flatten());
    }
    stops.retain(|v| from <= *v && *v <= to);
    stops.sort_by(f64::total_cmp);
    let mut total = Sums::default();
    for pair in stops.windows(2) {
        let middle = (pair[0] + pair[1]) / 2.0;
        let low = |it: &&Height| it.at(middle);
        let top = upper.iter().min_by(|a, b| low(a).total_cmp(&low(b)));
        let floor = lower.iter().max_by(|a, b| low(a).total_cmp(&low(b)));
        if let (Some(top), Some(floor)) = (top, floor)
            && top.at(middle) > floor.at(middle)
        {
            let over = |it: &Height| it.under(pair[1]) - it.under(pair[0]);
            total = total + (over(top) - over(floor));
        }
    }
    total
}

impl Add for Sums {
    type Output = Sums;
    fn add(self, other: Sums) -> Sums {
        Sums {
            area: self.area + other.area,
            u: self.u + other.u,
            v: self.v + other.v,
            polar: self.polar + other.polar,
        }
    }
}

impl Sub for Sums {
    type Output = Sums;
    fn sub(self, other: Sums) -> Sums {
        Sums {
            area: self.area - other.area,
            u: self.u - other.u,
            v: self.v - other.v,
            polar: self.polar - other.polar,
        }
    }
}
