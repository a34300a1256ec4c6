//! What passes through what: the narrowest throat against the fattest that goes through it.

use super::place::Placement;
use crate::outline::Radii;
use band::{SurfaceBand, bands, parted};
use quillet_geometry::Tag;

mod band;
mod beyond;

pub(crate) use beyond::{NearlyPassing, nearly};

/// The tightest place on the way in: a place of the female and the place of the male that passes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct RadialClearance {
    /// The female's radius less the male's, mm.
    pub(crate) gap_mm: f64,
    /// The place on the female.
    pub(crate) female: ClearanceSide,
    /// The place on the male that passes it.
    pub(crate) male: ClearanceSide,
}

/// A place on one of the two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct ClearanceSide {
    /// Its station on its own part.
    pub(crate) station_mm: f64,
    pub(crate) radius_mm: f64,
    pub(crate) tag: Tag,
    /// Its surface ends before it comes to the other's place, and is looked at as going on.
    pub(crate) beyond: bool,
}

/// The tightest places on the way in, more than one where some are as tight: the least of all gaps, both in place at rest: a place of the male that lies
/// deeper than a place of the female has passed it. Empty where nothing of the male is inside.
/// A male thread passes the female one that matches it: of each pair in `threads`, from where to
/// where both lie on the joint's axis. Nothing passes the surfaces of the female that are `stops`.
pub(crate) fn throats(
    male: (&Radii, Placement),
    female: (&Radii, Placement),
    threads: &[(Reach, Reach)],
    stops: impl Fn(Tag) -> bool,
) -> Vec<RadialClearance> {
    let ends =
        |of: fn(&(Reach, Reach)) -> Reach| threads.iter().map(of).flat_map(|it| [it.0, it.1]);
    let mut outside = parted(bands(male.0.straight(false), male.1), ends(|it| it.0));
    let mut inside = parted(bands(female.0.straight(true), female.1), ends(|it| it.1));
    let deepest_mm = outside.iter().map(|it| it.to_mm);
    let deepest_mm = deepest_mm.fold(f64::NEG_INFINITY, f64::max);
    inside.retain(|it| it.from_mm < deepest_mm - 1e-9 && !stops(it.tag));
    let first_mm = inside.iter().map(|it| it.from_mm);
    let first_mm = first_mm.fold(f64::INFINITY, f64::min);
    outside.retain(|it| it.to_mm > first_mm + 1e-9);
    let passes = |passed: &SurfaceBand, throat: &SurfaceBand| {
        passed.to_mm > throat.from_mm + 1e-9 && !excused(passed, throat, threads)
    };
    // The fattest past the narrowest is seldom far from the tightest, and spares most others.
    let fattest = (outside.iter()).reduce(|a, b| if b.most_r() > a.most_r() { b } else { a });
    let narrowest = (inside.iter()).reduce(|a, b| if b.least_r() < a.least_r() { b } else { a });
    let Some((fattest, narrowest)) = fattest.zip(narrowest) else {
        return Vec::new();
    };
    let thickest = fattest.most_r();
    let mut least_mm = match passes(fattest, narrowest) {
        true => tightest(fattest, narrowest).gap_mm,
        false => f64::INFINITY,
    };
    let mut best: Option<(RadialClearance, usize)> = None;
    let mut as_tight = Vec::new();
    for throat in &inside {
        let wide = |most_r: f64, least_mm: f64| throat.least_r() - most_r > least_mm + 1e-9;
        if wide(thickest, least_mm) {
            continue;
        }
        for passed in &outside {
            if wide(passed.most_r(), least_mm) || !passes(passed, throat) {
                continue;
            }
            let found = tightest(passed, throat);
            let level = levels(passed, throat, &found);
            let better = best.is_none_or(|(best, before)| {
                let slack = if level > before { -1e-9 } else { 1e-9 };
                found.gap_mm < best.gap_mm - slack
            });
            if better {
                best = Some((found, level));
                least_mm = least_mm.min(found.gap_mm);
            }
            as_tight.push((found, level));
        }
    }
    as_tight.retain(|(it, level)| {
        best.is_some_and(|(best, least)| *level == least && it.gap_mm - best.gap_mm < 1e-9)
    });
    as_tight.into_iter().map(|(it, _)| it).collect()
}

/// Of two places as tight, which counts: a cylinder before the corner it ends in. Where a cone runs
/// out into a cylinder, a hole is never narrower than it and an outside never fatter, however the
/// corner moves; but what slopes past a corner that moves is another size there, unless it is met
/// at its own end.
fn levels(passed: &SurfaceBand, throat: &SurfaceBand, found: &RadialClearance) -> usize {
    match (passed.is_level(), throat.is_level()) {
        (true, true) => 2,
        (false, true) => usize::from(found.male.radius_mm >= passed.most_r()),
        (true, false) => usize::from(found.female.radius_mm <= throat.least_r()),
        (false, false) => 0,
    }
}

/// The least gap of two bands: of what is drawn straight, it lies at an end of one of them.
fn tightest(passed: &SurfaceBand, throat: &SurfaceBand) -> RadialClearance {
    let last = throat.to_mm.min(passed.to_mm);
    let at = |z_mm: f64| {
        // Of what lies deeper, the fattest.
        let from = passed.from_mm.max(z_mm);
        let z_male = match passed.radius_at(from) < passed.radius_at(passed.to_mm) {
            true => passed.to_mm,
            false => from,
        };
        let (male, female) = (passed.side(z_male), throat.side(z_mm));
        RadialClearance {
            gap_mm: female.radius_mm - male.radius_mm,
            female,
            male,
        }
    };
    let places = [last, passed.from_mm.clamp(throat.from_mm, last)];
    places
        .into_iter()
        .map(at)
        .fold(at(throat.from_mm), |best, next| {
            if next.gap_mm < best.gap_mm - 1e-9 {
                next
            } else {
                best
            }
        })
}

/// From one place on an axis to another, mm.
pub(crate) type Reach = (f64, f64);

/// Whether the two lie in threads that match.
fn excused(male: &SurfaceBand, female: &SurfaceBand, threads: &[(Reach, Reach)]) -> bool {
    threads
        .iter()
        .any(|(one, other)| male.within(*one) && female.within(*other))
}

/// Over how much of their length the male's outside lies within `most_mm` of the female's inside,
/// mm; what lies in threads that match does not count.
pub(crate) fn beside(
    male: (&Radii, Placement),
    female: (&Radii, Placement),
    threads: &[(Reach, Reach)],
    most_mm: f64,
) -> f64 {
    let mut outside = bands(male.0.short(false), male.1);
    let mut inside = bands(female.0.short(true), female.1);
    keep_level(&mut outside, &inside);
    keep_level(&mut inside, &outside);
    let mut length_mm = 0.0;
    for one in &outside {
        for other in &inside {
            let (from, to) = (one.from_mm.max(other.from_mm), one.to_mm.min(other.to_mm));
            if to - from <= 1e-9 || excused(one, other, threads) {
                continue;
            }
            let middle = (from + to) / 2.0;
            if other.radius_at(middle) - one.radius_at(middle) <= most_mm {
                length_mm += to - from;
            }
        }
    }
    length_mm
}

/// Keeps of some bands those that lie level with others.
fn keep_level(bands: &mut Vec<SurfaceBand>, others: &[SurfaceBand]) {
    let from_mm = others.iter().map(|it| it.from_mm);
    let to_mm = others.iter().map(|it| it.to_mm);
    let from_mm = from_mm.fold(f64::INFINITY, f64::min);
    let to_mm = to_mm.fold(f64::NEG_INFINITY, f64::max);
    bands.retain(|it| it.to_mm > from_mm && it.from_mm < to_mm);
}

/// Two cylinders count as a close fit within this, mm on the radius.
const CLOSE_MM: f64 = 0.05;

/// Cylinders that fit closely in each other at rest: a place of each, and for how far they stay so
/// while the male is drawn out.
pub(crate) fn tight(
    male: (&Radii, Placement),
    female: (&Radii, Placement),
    threads: &[(Reach, Reach)],
) -> Vec<(ClearanceSide, ClearanceSide, f64)> {
    let mut outside = bands(male.0.short(false), male.1);
    let mut inside = bands(female.0.short(true), female.1);
    keep_level(&mut outside, &inside);
    keep_level(&mut inside, &outside);
    let widest = inside.iter().map(SurfaceBand::least_r).fold(0.0, f64::max);
    let mut found = Vec::new();
    for one in outside.iter().filter(|it| it.most_r() <= widest + 1e-6) {
        for other in &inside {
            let gap = other.least_r() - one.most_r();
            if !(-1e-6..=CLOSE_MM).contains(&gap) {
                continue;
            }
            let overlap = one.to_mm.min(other.to_mm) - one.from_mm.max(other.from_mm);
            if overlap > 1e-6 && !excused(one, other, threads) {
                // The male's rear may follow its front through the same bore.
                let stroke_mm = one.to_mm - other.from_mm;
                found.push((one.fattest(), other.narrowest(), stroke_mm.max(overlap)));
            }
        }
    }
    found
}
