//! What all cases come to together.

use super::cause::chief;
use super::{Asked, Case, Cause, FoundAt, Hands, Share, Way};
use quillet_model::Dimension;
use quillet_syntax::Severity;
use std::collections::BTreeMap;

/// What comes of a pen that a hand makes many times.
#[derive(Clone, Debug)]
pub struct Spread {
    /// The seed of the draws.
    pub seed: u64,
    /// How many of all pass.
    pub passing: Share,
    /// What fails the others, what fails most of them first.
    pub failures: Vec<Failure>,
    /// What each want's measure comes to.
    pub measures: Vec<MeasureSpread>,
}

/// Something that is found of some of the pens.
#[derive(Clone, Debug)]
pub struct Failure {
    /// What, and where.
    pub at: FoundAt,
    /// How grave it is at most.
    pub severity: Severity,
    /// Of how many.
    pub share: Share,
    /// The size that it goes with most, where one stands out.
    pub cause: Option<Cause>,
    /// How many of those pens have that size on the side of what is drawn on which it comes; where it comes
    /// either way, by more than half of all pens have.
    pub on_that_side: u32,
}

/// What a measure comes to, over all pens in which it is known.
#[derive(Clone, Debug)]
pub struct MeasureSpread {
    /// As it is wanted: `mass(uncapped)`.
    pub asked: String,
    /// What it measures.
    pub dimension: Dimension,
    /// In how many pens it is known.
    pub known: u32,
    /// The least and the greatest, in its own unit.
    pub range: (f64, f64),
    /// The mean.
    pub mean: f64,
    /// The standard deviation of the sample.
    pub sd: f64,
    /// How many lie in each of equal stretches of the range.
    pub bins: Vec<u32>,
    /// The size that it goes with most, where one stands out.
    pub cause: Option<Cause>,
}

/// As many stretches as a histogram has.
const BINS: usize = 16;

impl Spread {
    /// Of all cases, in their order.
    pub fn of(hands: &Hands<'_>, cases: &[Case]) -> Self {
        let of = u32::try_from(cases.len()).unwrap_or(u32::MAX);
        let passing = cases.iter().filter(|it| it.found.is_empty()).count();
        let mut by_finding: BTreeMap<FoundAt, (u32, Severity)> = BTreeMap::new();
        for (at, severity) in cases.iter().flat_map(|it| &it.found) {
            let (count, gravest) = by_finding.entry(*at).or_insert((0, *severity));
            (*count, *gravest) = (*count + 1, *severity.max(gravest));
        }
        let mut failures: Vec<Failure> = by_finding
            .into_iter()
            .map(|(at, (count, severity))| {
                Failure::of(hands, cases, at, severity, Share { count, of })
            })
            .collect();
        failures.sort_by_key(|it| (std::cmp::Reverse(it.share.count), it.at));
        let asked = hands.asked.iter().enumerate();
        Spread {
            seed: hands.seed,
            passing: Share {
                count: passing as u32,
                of,
            },
            failures,
            measures: asked
                .filter_map(|(nth, asked)| MeasureSpread::of(hands, cases, nth, asked))
                .collect(),
        }
    }
}

impl Failure {
    fn of(
        hands: &Hands<'_>,
        cases: &[Case],
        at: FoundAt,
        severity: Severity,
        share: Share,
    ) -> Self {
        let fails = |case: &Case| case.found.contains_key(&at);
        let values: Vec<f64> = cases
            .iter()
            .map(|it| f64::from(u8::from(fails(it))))
            .collect();
        let cause = chief(&hands.draws, &values);
        let on_that_side = cause.map_or(0, |cause| {
            let ranks = &hands.draws[cause.size].ranks;
            let quarter = share.of / 4;
            let on_side = |rank: u32| match cause.way {
                Way::Over => 2 * rank >= share.of,
                Way::Under => 2 * rank < share.of,
                Way::Either => rank < quarter || rank >= share.of - quarter,
            };
            let cases = cases.iter().zip(ranks);
            cases
                .filter(|(case, rank)| fails(case) && on_side(**rank))
                .count() as u32
        });
        Failure {
            at,
            severity,
            share,
            cause,
            on_that_side,
        }
    }
}

impl MeasureSpread {
    fn of(hands: &Hands<'_>, cases: &[Case], nth: usize, asked: &Asked) -> Option<Self> {
        let values = cases.iter().map(|it| it.measured.get(nth).copied()?);
        let known: Vec<f64> = values.clone().flatten().collect();
        let least = known.iter().copied().min_by(f64::total_cmp)?;
        let most = known.iter().copied().max_by(f64::total_cmp)?;
        let count = known.len() as f64;
        let mean = known.iter().sum::<f64>() / count;
        let squares = known.iter().map(|it| (it - mean).powi(2)).sum::<f64>();
        let mut bins = vec![0; BINS];
        for value in &known {
            let share = (value - least) / (most - least);
            let bin = (share * BINS as f64) as usize;
            bins[bin.min(BINS - 1)] += 1;
        }
        // Of some pens alone nothing is said of the sizes of all.
        let all: Option<Vec<f64>> = values.collect();
        Some(MeasureSpread {
            asked: asked.0.clone(),
            dimension: asked.1?,
            known: known.len() as u32,
            range: (least, most),
            mean,
            sd: (squares / (count - 1.0).max(1.0)).sqrt(),
            bins,
            cause: all.and_then(|all| chief(&hands.draws, &all)),
        })
    }
}
