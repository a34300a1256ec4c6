//! How far what a pen weighs, and where it balances, may lie from what is reckoned.

mod sizes;

use crate::{ById, Configuration, Hand, Material, Part, PartId, Parts, Pen, Weights};
use quillet_geometry::Mass;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What may be other than reckoned in some parts: the densities of their materials, and every
/// size as closely as the maker's hand keeps it.
///
/// A material's density moves all that is made of it together, anywhere in its range, and several
/// materials at their worst together. Sizes stray one by one: what they do is summed as the root
/// of the squares. What is bought is as weighed, and a density that the design states is as stated.
#[derive(Clone, Debug, Default)]
pub struct Doubts {
    weights: Weights,
    densities: Vec<DensityDoubt>,
    sizes: Vec<SizeDoubt>,
}

/// A density that may be other than reckoned, and what it then adds to the parts' masses.
#[derive(Clone, Debug, Default)]
struct DensityDoubt {
    /// At its least.
    less: Vec<(PartId, Mass)>,
    /// At its most.
    more: Vec<(PartId, Mass)>,
}

/// A size of a part that may be other than drawn, and what it then adds to the part's mass.
#[derive(Clone, Copy, Debug)]
struct SizeDoubt {
    part: PartId,
    /// At the least mass; none where it never takes anything away.
    less: Option<Mass>,
    /// At the most.
    more: Mass,
}

/// More materials than this in a pen are taken one by one, and what they do is added up.
const MOST_AT_ONCE: usize = 6;
/// In a pen of more parts than this each part's sizes are taken as one.
const MOST_PARTS: usize = 64;

impl Doubts {
    /// Of parts with what they weigh, each made by a hand.
    pub fn of(parts: &Parts, weights: &Weights, hands: &ById<PartId, Hand>) -> Doubts {
        let cut = || {
            let numbered = parts.with_ids();
            numbered.filter(|(_, part)| !part.is_bought() && part.lacks_mass().is_none())
        };
        let mut sizes = Vec::new();
        for (index, part) in cut() {
            let hand = hands.get(index).copied().unwrap_or_default();
            let of_part = sizes::of(part, &hand);
            match parts.len() > MOST_PARTS {
                true => sizes.extend(together(&of_part, index)),
                false => sizes.extend(of_part.iter().map(|&(less, more)| SizeDoubt {
                    part: index,
                    less: Some(less).filter(|it| it.mass_g != 0.0),
                    more,
                })),
            }
        }
        Doubts {
            weights: weights.clone(),
            densities: densities(cut()),
            sizes,
        }
    }

    /// Of one part by itself, made by a hand.
    pub fn alone(part: &Arc<Part>, hand: &Hand) -> Doubts {
        Doubts::of(
            &ById::alone(part.clone()),
            &ById::alone(part.weigh()),
            &ById::alone(*hand),
        )
    }

    /// From what to what each of some figures may lie that are worked out together from what the
    /// parts weigh; none where they cannot be. `enters` says of which parts: what only others are
    /// made of is passed over.
    pub fn ranges<const N: usize>(
        &self,
        enters: &dyn Fn(PartId) -> bool,
        figures: &dyn Fn(&Weights) -> Option<[f64; N]>,
    ) -> Option<[(f64, f64); N]> {
        let drawn = figures(&self.weights)?;
        let mut scratch = self.weights.clone();
        let mut at = |changes: &[(PartId, Mass)]| {
            for (part, change) in changes {
                if let Some(Some(weight)) = scratch.get_mut(*part) {
                    *weight = [*weight, *change].into_iter().sum();
                }
            }
            let values = figures(&scratch);
            for (part, _) in changes {
                scratch[*part] = self.weights[*part];
            }
            values
        };
        let entering = |it: &&DensityDoubt| it.more.iter().any(|(part, _)| enters(*part));
        let densities: Vec<&DensityDoubt> = self.densities.iter().filter(entering).collect();
        let mut ranges = drawn.map(|it| (it, it));
        match densities.len() {
            count if count <= MOST_AT_ONCE => {
                for corner in 0..1_usize << count {
                    let numbered = densities.iter().enumerate();
                    let ways = numbered.map(|(bit, doubt)| match corner >> bit & 1 {
                        0 => doubt.less.as_slice(),
                        _ => doubt.more.as_slice(),
                    });
                    let all: Vec<_> = ways.flatten().copied().collect();
                    for ((low, high), value) in ranges.iter_mut().zip(at(&all)?) {
                        (*low, *high) = (low.min(value), high.max(value));
                    }
                }
            }
            _ => {
                for doubt in &densities {
                    let (less, more) = (at(&doubt.less)?, at(&doubt.more)?);
                    for (figure, (low, high)) in ranges.iter_mut().enumerate() {
                        let [a, b] = [less, more].map(|it| it[figure] - drawn[figure]);
                        (*low, *high) = (*low + a.min(b).min(0.0), *high + a.max(b).max(0.0));
                    }
                }
            }
        }
        let mut squares = [(0.0, 0.0); N];
        for doubt in self.sizes.iter().filter(|it| enters(it.part)) {
            let mut with = |change| at(&[(doubt.part, change)]);
            let (less, more) = (
                doubt.less.map_or(Some(drawn), &mut with)?,
                with(doubt.more)?,
            );
            for (figure, (down, up)) in squares.iter_mut().enumerate() {
                let [a, b] = [less, more].map(|it| it[figure] - drawn[figure]);
                *down += a.min(b).min(0.0).powi(2);
                *up += a.max(b).max(0.0).powi(2);
            }
        }
        for ((low, high), (down, up)) in ranges.iter_mut().zip(squares) {
            (*low, *high) = (*low - f64::sqrt(down), *high + f64::sqrt(up));
        }
        Some(ranges)
    }

    /// From what to what the mass of one of the parts may lie, g; none where nothing of it is in
    /// doubt, or it is not known.
    pub fn of_part(&self, part: PartId) -> Option<(f64, f64)> {
        let mass = |weights: &Weights| Some([weights.get(part)?.as_ref()?.mass_g]);
        let [range] = self.ranges(&|it| it == part, &mass)?;
        Some(range).filter(|(low, high)| low < high)
    }

    /// From what to what a figure may lie of the mass of a pen in a configuration, filled; none as
    /// [`of_part`](Self::of_part).
    pub fn of_pen(
        &self,
        pen: &Pen,
        it: &Configuration,
        figure: fn(Mass) -> f64,
    ) -> Option<(f64, f64)> {
        it.filled?;
        let ink = pen.assembly.ink.as_ref();
        let enters = |part| it.holds(part);
        let figures = |weights: &Weights| it.weigh(weights, ink).map(|mass| [figure(mass)]);
        let [range] = self.ranges(&enters, &figures)?;
        Some(range).filter(|(low, high)| low < high)
    }
}

/// One doubt for each material whose density is not stated.
fn densities<'p>(parts: impl Iterator<Item = (PartId, &'p Arc<Part>)>) -> Vec<DensityDoubt> {
    let mut known: BTreeMap<&str, DensityDoubt> = BTreeMap::new();
    for (index, part) in parts {
        for body in part.worked_bodies() {
            let Some(piece) = body.piece else {
                continue;
            };
            let material: &Material = &part.blanks()[piece].stock.material;
            let Some((low, high)) = material.density_range_g_cm3 else {
                continue;
            };
            let more = |density: f64| body.volume.of_density(density - body.density_g_cm3);
            let change = |density: f64| (index, more(density));
            let doubt = known.entry(&material.name).or_default();
            doubt.less.push(change(low));
            doubt.more.push(change(high));
        }
    }
    known.into_values().collect()
}

/// All sizes of a part as one: the root of the squares of what they weigh, where most of it lies.
fn together(sizes: &[(Mass, Mass)], part: PartId) -> Option<SizeDoubt> {
    let square = |it: &(Mass, Mass)| it.0.mass_g.abs().max(it.1.mass_g.abs()).powi(2);
    let sum: f64 = sizes.iter().map(square).sum();
    let moment: f64 = sizes.iter().map(|it| square(it) * it.1.centre_mm).sum();
    let mass_g = sum.sqrt();
    (mass_g > 0.0).then(|| SizeDoubt {
        part,
        less: Some(Mass::at(-mass_g, moment / sum)),
        more: Mass::at(mass_g, moment / sum),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: the root of 3² + 4², and where 9 parts of 10 mm and 16 of 30 balance; a drilled hole takes
    /// metal away and never adds any.
    #[test]
    fn sizes_taken_as_one_lie_where_most_of_them_does() {
        let turned = (Mass::at(-3.0, 10.0), Mass::at(3.0, 10.0));
        let drilled = (Mass::default(), Mass::at(-4.0, 30.0));
        let one = together(&[turned, drilled], PartId::nth(0)).expect("they weigh something");
        assert!((one.more.mass_g - 5.0).abs() < 1e-12);
        assert!((one.more.centre_mm - (9.0 * 10.0 + 16.0 * 30.0) / 25.0).abs() < 1e-12);
    }
}
