//! What cuts that run into each other count twice, where each is reckoned as if it were alone.

mod breaks;
mod items;

use crate::chain::SAME;
use crate::section::{Section, section_at};
use crate::side::{Body, SideCut};
use crate::{Chain, Circle, Moments, Pattern, Point, gauss};
use items::Item;

/// What is cut of a body besides its flats.
#[derive(Debug, Clone, Default)]
pub struct Cuts {
    /// Holes and slots from the side; they begin at the flats.
    pub openings: Vec<SideCut>,
    /// Patterns: of what is there, their share goes.
    pub patterns: Vec<Pattern>,
    /// Holes beside the axis, each counted whole.
    pub circles: Vec<Circle>,
}

/// What the flats and these cuts, each counted by itself, take more than is there to be taken: twice
/// where two of them lie over each other, and from the bore or the air where a hole beside the axis
/// breaks out.
///
/// In polar coordinates round the axis, along it and round it by Gauss between the places where
/// anything changes: within 1e-7 of the box round the cuts. Nothing where none of them meet.
pub fn counted_twice(body: &Body, cuts: &Cuts) -> Moments {
    let stations = stations(body, cuts);
    let pairs = stations.windows(2).map(|pair| [pair[0], pair[1]]);
    pairs.map(|pair| over(body, cuts, pair)).sum()
}

/// What a plane square to the axis shows of a body.
struct Plane {
    section: Option<Section>,
    outside_mm: f64,
    bore_mm: f64,
    items: Vec<Item>,
}

impl Plane {
    /// Beyond the body there is nothing to be taken.
    fn at(body: &Body, cuts: &Cuts, z_mm: f64) -> Plane {
        let radius = |chains: &[Chain]| {
            let found = chains
                .iter()
                .find(|it| it.start().z <= z_mm && z_mm <= it.end().z)?;
            found.radii_at(z_mm).map(|it| it.0)
        };
        let outside_mm = radius(body.outside).unwrap_or(0.0);
        let bore_mm = radius(body.inside).unwrap_or(0.0);
        let section = match body.flats.is_empty() {
            true => None,
            false => section_at(Point::new(z_mm, outside_mm), body.flats),
        };
        let low_mm = section.as_ref().map_or(outside_mm, Section::low_mm);
        let mut items = Vec::new();
        if low_mm < outside_mm - SAME {
            items.push(Item::Flats { low_mm });
        }
        for cut in cuts.openings.iter().filter(|it| it.is_possible()) {
            items.extend(Item::strips(cut, z_mm));
        }
        for pattern in &cuts.patterns {
            items.extend(Item::ring(pattern, z_mm, outside_mm));
        }
        for circle in &cuts.circles {
            items.extend(Item::discs(circle, z_mm));
        }
        Plane {
            section,
            outside_mm,
            bore_mm,
            items,
        }
    }

    /// Whether anything in it may be counted more than once, or where nothing is.
    fn meets(&self) -> bool {
        let beyond = |it: &Item| it.reaches_beyond([self.bore_mm, self.outside_mm]);
        self.items.iter().any(beyond) || items::any_meet(&self.items, self.bore_mm)
    }

    /// ∫ of what is counted too much: area, x, y and x² + y².
    fn excess(&self) -> [f64; 4] {
        let angles = breaks::angles(self);
        let mut total = [0.0; 4];
        for pair in angles.windows(2).filter(|pair| pair[1] - pair[0] > 1e-12) {
            let width = pair[1] - pair[0];
            let sums = gauss::rooted(|share| {
                let angle = pair[0] + width * share;
                let [area, first, third] = self.along(angle);
                let (sin, cos) = angle.sin_cos();
                [area, first * cos, first * sin, third]
            });
            (0..4).for_each(|at| total[at] += sums[at] * width);
        }
        total
    }

    /// The same along a ray from the axis: ∫ r dr, r² dr and r³ dr.
    fn along(&self, angle: f64) -> [f64; 3] {
        let deg = angle.to_degrees();
        let flat = self.section.as_ref().map(|it| it.radius_at_mm(deg));
        let ends = [
            self.bore_mm,
            flat.unwrap_or(self.outside_mm),
            self.outside_mm,
        ];
        let spans: Vec<items::Span> = self
            .items
            .iter()
            .filter_map(|it| it.along(angle, ends))
            .collect();
        let mut stops: Vec<f64> = spans.iter().flat_map(|it| [it.from, it.to]).collect();
        stops.extend([self.bore_mm, self.outside_mm]);
        stops.sort_by(f64::total_cmp);
        let mut total = [0.0; 3];
        for pair in stops.windows(2).filter(|pair| pair[1] > pair[0]) {
            let middle = (pair[0] + pair[1]) / 2.0;
            let here = spans.iter().filter(|it| it.from < middle && middle < it.to);
            let counted: f64 = here.clone().map(|it| it.share).sum();
            let left: f64 = here.map(|it| 1.0 - it.share).product();
            let there = self.bore_mm < middle && middle < self.outside_mm;
            let over = counted - if there { 1.0 - left } else { 0.0 };
            for (at, power) in [2, 3, 4].into_iter().enumerate() {
                let span = pair[1].powi(power) - pair[0].powi(power);
                total[at] += over * span / f64::from(power);
            }
        }
        total
    }
}

/// Where along a stretch it is looked whether anything meets.
const SHARES: [f64; 9] = [0.001, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 0.999];

/// Over a stretch on which nothing begins or ends.
fn over(body: &Body, cuts: &Cuts, [from, to]: [f64; 2]) -> Moments {
    let length = to - from;
    let meets = |share: &f64| Plane::at(body, cuts, from + length * share).meets();
    if !SHARES.iter().any(meets) {
        return Moments::default();
    }
    let circles = cuts.circles.iter().map(|it| (it.on_mm + it.hole_mm) / 2.0);
    let outside = body.outside.iter().flat_map(Chain::segments);
    let r = outside
        .map(|it| it.curve.bounds().max.r)
        .chain(circles)
        .fold(0.0, f64::max);
    // Smoothly keeps to 1e-13 of this: 1e-8 of the box.
    let scale = 1e5 * r * r * length;
    let scales = [1.0, r, r, length, length * length, r * r].map(|each| each * scale);
    let found = gauss::smoothly(scales, |part| {
        let z = length * part;
        let [area, x, y, polar] = Plane::at(body, cuts, from + z).excess();
        [area, x, y, area * z, area * z * z, polar].map(|it| it * length)
    });
    Moments::counted_from(from, found)
}

/// Where along it anything begins, ends or changes.
fn stations(body: &Body, cuts: &Cuts) -> Vec<f64> {
    let openings = cuts.openings.iter().flat_map(|it| {
        let round = it.rounding_mm();
        [it.from_mm, it.from_mm + round, it.to_mm - round, it.to_mm]
    });
    let patterns = cuts.patterns.iter().flat_map(|it| [it.from_mm, it.to_mm]);
    let circles = cuts.circles.iter().flat_map(|it| {
        let [before, after] = it.tips_mm;
        [it.from_mm - before, it.from_mm, it.to_mm, it.to_mm + after]
    });
    let mut all: Vec<f64> = body
        .stations()
        .chain(openings)
        .chain(patterns)
        .chain(circles)
        .collect();
    all.retain(|z| z.is_finite());
    all.sort_by(f64::total_cmp);
    all.dedup_by(|next, last| *next - *last <= SAME);
    all
}

#[cfg(test)]
mod tests;
