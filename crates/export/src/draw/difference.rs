//! What lies between two shapes of one part, station by station.

use quillet_geometry::{Chain, put_in_order};
use quillet_model::Solid;

/// A stretch of metal that one of them has and the other has not: station, and from which radius to which
/// there, mm.
pub(super) type Band = Vec<(f64, f64, f64)>;

/// How the new shape differs from the old.
pub(super) struct Difference {
    /// What was there before and is not now.
    pub(super) gone: Vec<Band>,
    /// What is there now and was not before.
    pub(super) come: Vec<Band>,
}

/// A place where the outside differs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Notable {
    pub(super) z_mm: f64,
    /// Old and new diameter, mm.
    pub(super) old_mm: f64,
    pub(super) new_mm: f64,
    /// A curve begins or ends here in both; else the difference is greatest between two such places.
    pub(super) is_written: bool,
}

/// Stations stand no further apart than this, mm; what differs by less, on radius, is the same.
const STEP_MM: f64 = 0.25;
const SAME_MM: f64 = 1e-4;
/// Nearer than this two stations are one, mm.
const HERE_MM: f64 = 1e-6;
/// On diameter, what is worth a figure, and by how much an extreme must stand out of its neighbours, mm.
const WORTH_MM: f64 = 0.01;

impl Difference {
    pub(super) fn of(old: &Solid, new: &Solid) -> Difference {
        Difference {
            gone: less(old, new),
            come: less(new, old),
        }
    }

    pub(super) fn is_none(&self) -> bool {
        self.gone.is_empty() && self.come.is_empty()
    }
}

/// What the first has and the second has not.
fn less(one: &Solid, other: &Solid) -> Vec<Band> {
    let stations = stations([one, other]);
    let outside = bands(&stations, |from, to| {
        let (a, b) = (ring(one, from, to), ring(other, from, to));
        [0, 1].map(|end| (b[end].0.max(a[end].1), a[end].0))
    });
    let inside = bands(&stations, |from, to| {
        let (a, b) = (ring(one, from, to), ring(other, from, to));
        [0, 1].map(|end| (a[end].1, b[end].1.min(a[end].0)))
    });
    outside.into_iter().chain(inside).collect()
}

/// Outer and inner radius just after a station and just before the next; nothing where it is not.
fn ring(solid: &Solid, from: f64, to: f64) -> [(f64, f64); 2] {
    let Some(outer) = over(&solid.outer, from, to) else {
        return [(0.0, 0.0); 2];
    };
    let bore = solid.inner.iter().find_map(|it| over(it, from, to));
    let inner = bore.unwrap_or_default();
    [(outer.0, inner.0), (outer.1, inner.1)]
}

/// Its radii just after a station and just before the next, where it reaches over both.
fn over(chain: &Chain, from: f64, to: f64) -> Option<(f64, f64)> {
    let (start, end) = (chain.start().z, chain.end().z);
    if start > from + HERE_MM || end < to - HERE_MM {
        return None;
    }
    let (_, after) = chain.radii_at(from.max(start))?;
    let (before, _) = chain.radii_at(to.min(end))?;
    Some((after, before))
}

/// The ends of all curves, and steps between them.
fn stations(solids: [&Solid; 2]) -> Vec<f64> {
    let chains = solids
        .into_iter()
        .flat_map(|it| std::iter::once(&it.outer).chain(&it.inner));
    let ends = sorted(chains.flat_map(knots));
    let mut all: Vec<f64> = ends.first().copied().into_iter().collect();
    for pair in ends.windows(2) {
        let steps = ((pair[1] - pair[0]) / STEP_MM).ceil().clamp(1.0, 4096.0);
        all.extend(
            (1..=steps as u32).map(|step| pair[0] + (pair[1] - pair[0]) * f64::from(step) / steps),
        );
    }
    all
}

fn knots(chain: &Chain) -> Vec<f64> {
    let ends = chain.segments().iter().map(|it| it.curve.end().z);
    std::iter::once(chain.start().z).chain(ends).collect()
}

fn sorted(stations: impl IntoIterator<Item = f64>) -> Vec<f64> {
    let mut all: Vec<f64> = stations.into_iter().collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < HERE_MM);
    all
}

/// Where the upper edge lies over the lower, `edges` of a step being (lower, upper) at its two ends.
fn bands(stations: &[f64], edges: impl Fn(f64, f64) -> [(f64, f64); 2]) -> Vec<Band> {
    let (mut bands, mut open): (Vec<Band>, Band) = (Vec::new(), Vec::new());
    for pair in stations.windows(2) {
        let [one, two] = edges(pair[0], pair[1]);
        let (a, b) = (one.1 - one.0, two.1 - two.0);
        if a <= SAME_MM && b <= SAME_MM {
            bands.extend((open.len() > 1).then(|| std::mem::take(&mut open)));
            open.clear();
            continue;
        }
        let at = |share: f64| {
            let along = |from: f64, to: f64| from + (to - from) * share;
            let (low, high) = (along(one.0, two.0), along(one.1, two.1));
            (along(pair[0], pair[1]), low, high.max(low))
        };
        // Where the edges cross within the step, the band begins or ends there.
        let crossing = a / (a - b);
        let from = if a < 0.0 { at(crossing) } else { at(0.0) };
        if open.last() != Some(&from) {
            open.push(from);
        }
        open.push(if b < 0.0 { at(crossing) } else { at(1.0) });
        if b <= SAME_MM {
            bands.push(std::mem::take(&mut open));
        }
    }
    bands.extend((open.len() > 1).then_some(open));
    bands
}

/// The difference on diameter along the outside, new less old: station and millimetres, two places at a
/// step; where both are.
pub(super) fn curve(old: &Chain, new: &Chain) -> Vec<(f64, f64)> {
    let end = old.end().z.min(new.end().z);
    let ends = sorted(knots(old).into_iter().chain(knots(new)));
    let mut places = Vec::new();
    for pair in ends.windows(2).filter(|pair| pair[1] <= end + HERE_MM) {
        let steps = ((pair[1] - pair[0]) / STEP_MM).ceil().clamp(1.0, 4096.0);
        let at = |step: f64| pair[0] + (pair[1] - pair[0]) * step / steps;
        for step in 0..steps as u32 {
            let (from, to) = (at(f64::from(step)), at(f64::from(step) + 1.0));
            if let (Some(a), Some(b)) = (over(old, from, to), over(new, from, to)) {
                places.push((from, 2.0 * (b.0 - a.0)));
                places.push((to, 2.0 * (b.1 - a.1)));
            }
        }
    }
    places.dedup_by(|a, b| (a.0 - b.0).abs() < HERE_MM && (a.1 - b.1).abs() < 1e-9);
    places
}

/// Where curves of both begin or end and the outside differs, and where it differs most between two such
/// places; by station.
pub(super) fn notable(old: &Chain, new: &Chain) -> Vec<Notable> {
    let known = knots(new);
    let both: Vec<f64> = sorted(knots(old))
        .into_iter()
        .filter(|z| known.iter().any(|it| (it - z).abs() < HERE_MM))
        .collect();
    let mut found: Vec<Notable> = both.iter().filter_map(|z| written(old, new, *z)).collect();
    let all = curve(old, new);
    for pair in both.windows(2) {
        let within: Vec<(f64, f64)> = all
            .iter()
            .copied()
            .filter(|it| it.0 > pair[0] - HERE_MM && it.0 < pair[1] + HERE_MM)
            .collect();
        for sign in [1.0, -1.0] {
            found.extend(extreme(old, new, &within, pair, sign));
        }
    }
    put_in_order(&mut found, |it| it.z_mm);
    found
}

fn written(old: &Chain, new: &Chain, z_mm: f64) -> Option<Notable> {
    let (a, b) = (old.radii_at(z_mm)?, new.radii_at(z_mm)?);
    let sides = [(a.0, b.0), (a.1, b.1)];
    let most = sides
        .into_iter()
        .max_by(|one, two| (one.1 - one.0).abs().total_cmp(&(two.1 - two.0).abs()))?;
    let (old_mm, new_mm) = (2.0 * most.0, 2.0 * most.1);
    ((new_mm - old_mm).abs() >= WORTH_MM).then_some(Notable {
        z_mm,
        old_mm,
        new_mm,
        is_written: true,
    })
}

fn extreme(
    old: &Chain,
    new: &Chain,
    within: &[(f64, f64)],
    ends: &[f64],
    sign: f64,
) -> Option<Notable> {
    let most = within
        .iter()
        .copied()
        .max_by(|a, b| (sign * a.1).total_cmp(&(sign * b.1)))?;
    let inside = ends.iter().all(|end| (end - most.0).abs() > STEP_MM);
    // The sides of a step that face this stretch.
    let (first, last) = (within.first()?.1, within.last()?.1);
    let stands_out = sign * most.1 - (sign * first).max(sign * last) >= WORTH_MM;
    if !(inside && stands_out && sign * most.1 >= WORTH_MM) {
        return None;
    }
    Some(Notable {
        z_mm: most.0,
        old_mm: 2.0 * old.radii_at(most.0)?.0,
        new_mm: 2.0 * new.radii_at(most.0)?.0,
        is_written: false,
    })
}
