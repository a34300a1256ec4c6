//! How far a thread comes out before it lets go of its mate.

use super::Placement;
use super::radial_clearance::Reach;
use crate::{CutId, Feature, Part, Profiles};
use quillet_geometry::{Chain, Curve, Line, Point};

/// How far the male comes out before its crests and the female's no longer overlap, mm, both in
/// their places at rest; less than nothing where they never reach each other, none where the
/// crests would pass each other everywhere.
///
/// The crests as they are left: an edge that is broken, a countersink, a wider mouth or a curved
/// outside takes of them what it takes, and a part of a crest still holds.
pub(super) fn lets_go_mm(
    (male, male_thread, male_place): (&Part, CutId, Placement),
    (female, female_thread, female_place): (&Part, CutId, Placement),
) -> Option<f64> {
    let outer = |profiles: &Profiles, (from, to)| profiles.crest.outer.between(from, to);
    let male = crests(male, male_thread, |profiles, reach| {
        outer(profiles, reach).into_iter().collect()
    })?;
    let female = crests(female, female_thread, |profiles, (from, to)| {
        let bores = profiles.crest.inner.iter();
        bores.filter_map(|bore| bore.between(from, to)).collect()
    })?;
    let (ahead, mouth) = (facing(&male, male_place), facing(&female, female_place));
    // The male's foremost face reaches in to the axis, the female's first out to all round.
    let foremost = ahead.last.map(|at| face(at.z, 0.0, at.r));
    let first = mouth.first.map(|at| face(at.z, at.r, at.r + WIDE_MM));
    let males = || ahead.curves.iter().copied().chain(foremost);
    let females = mouth.curves.iter().copied().chain(first);
    let met = females
        .flat_map(|other| males().filter_map(move |one| Some(one.meeting(&other)?.travel_mm)));
    met.reduce(f64::min).map(|travel_mm| -travel_mm)
}

/// Wider than any thread, mm.
const WIDE_MM: f64 = 1000.0;

/// The surface of a thread's crests over its reach.
fn crests(
    part: &Part,
    thread: CutId,
    of: impl Fn(&Profiles, Reach) -> Vec<Chain>,
) -> Option<Vec<Chain>> {
    let feature: &Feature = part.features.get(thread)?;
    let (from, to) = feature.stations(part.length);
    Some(of(part.profiles.as_ref()?, (from.to_mm(), to.to_mm())))
}

/// What of a surface narrows along an axis: of an outside what leads, of a bore what receives.
struct Facing {
    curves: Vec<Curve>,
    first: Option<Point>,
    last: Option<Point>,
}

fn facing(chains: &[Chain], place: Placement) -> Facing {
    let laid = |chain: &Chain| match place.reversed {
        false => chain.moved(place.offset_mm),
        true => chain.reversed(place.offset_mm),
    };
    let laid: Vec<Chain> = chains.iter().map(laid).collect();
    let pieces = laid.iter().flat_map(Chain::segments);
    let curves = pieces.flat_map(|piece| piece.curve.monotone_pieces());
    let by_z = |a: &Point, b: &Point| a.z.total_cmp(&b.z);
    Facing {
        curves: curves.filter(|it| it.end().r < it.start().r).collect(),
        first: laid.iter().map(Chain::start).min_by(by_z),
        last: laid.iter().map(Chain::end).max_by(by_z),
    }
}

fn face(z: f64, from_r: f64, to_r: f64) -> Curve {
    Curve::Line(Line {
        start: Point::new(z, from_r),
        end: Point::new(z, to_r),
    })
}
