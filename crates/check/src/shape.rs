//! Questions about a part's profiles that several rules ask.

use quillet_geometry::{Chain, Length, Segment, put_in_order};
use quillet_model::{Cut, CutId, End, Feature, Origin, Part, Solid, ThreadDef};
use quillet_syntax::Span;
use quillet_syntax::ast::Side;
use std::sync::Arc;

/// A thread cut on a part.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Threaded<'a> {
    /// The cut's index in the part.
    pub(crate) index: CutId,
    /// The cut.
    pub(crate) feature: &'a Feature,
    /// The thread.
    pub(crate) thread: &'a Arc<ThreadDef>,
}

impl<'a> Threaded<'a> {
    /// One of a part's cuts, where it is a thread.
    pub(crate) fn of((index, feature): (CutId, &'a Feature)) -> Option<Self> {
        let (thread, _) = feature.thread()?;
        Some(Self {
            index,
            feature,
            thread,
        })
    }
}

/// The threads cut on one side of a part.
pub(crate) fn threads(part: &Part, wanted: Side) -> impl Iterator<Item = Threaded<'_>> {
    let all = part.features.with_ids().filter_map(Threaded::of);
    all.filter(move |it| it.feature.is_inside() == (wanted == Side::Inside))
}

/// Whether a thread whose designation stands at a place is cut on a part.
pub(crate) fn cuts_thread(part: &Part, designation: Span) -> bool {
    let mut threads = part.features.iter().filter_map(Feature::thread);
    threads.any(|(it, _)| it.designation.span == designation)
}

/// The stations between which a cut's own surface is left on any of these chains.
pub(crate) fn left_of(part: &Part, chains: &[Chain], index: CutId) -> Option<(f64, f64)> {
    let profiles = part.profiles.as_ref()?;
    let mine = |piece: &&Segment| {
        profiles.origin(piece.tag) == Origin::Feature(index) && !piece.curve.is_vertical()
    };
    let pieces = chains.iter().flat_map(Chain::segments).filter(mine);
    pieces
        .map(|piece| (piece.curve.start().z, piece.curve.end().z))
        .reduce(|whole, next| (whole.0.min(next.0), whole.1.max(next.1)))
}

/// How deep a piece of a cut's floor lies below what was turned, between two stations and where that is
/// the surface meant, mm; 0 where it lies nowhere below it.
pub(crate) fn deepest_mm(
    turned: &Chain,
    floor: &Segment,
    (start, end): (f64, f64),
    is_meant: &dyn Fn(f64, f64) -> bool,
) -> f64 {
    // Just inside its ends, where a step of the outside is no longer felt.
    let near = (end - start) * 1e-7;
    let places = [start + near, (start + end) / 2.0, end - near];
    let deep = places.into_iter().filter_map(|z| {
        let outside = turned.least_at(z).filter(|r| is_meant(z, *r))?;
        Some(outside - floor.curve.radius_at(z))
    });
    deep.fold(0.0, f64::max)
}

/// How far a bore goes on from a station, away from `end`, before it is narrower than `dia`.
fn room_beyond(part: &Part, solid: &Solid, end: End, station: Length, dia: Length) -> Length {
    let about = part.length.to_mm();
    let (z, least) = (station.to_mm(), dia.to_mm() / 2.0 - 1e-6);
    let turned = |bore: &Chain| match end {
        End::First => bore.clone(),
        End::Second => bore.reversed(about),
    };
    let z = if end == End::First { z } else { about - z };
    let mut reached = z;
    let mut bores: Vec<Chain> = solid.inner.iter().map(turned).collect();
    put_in_order(&mut bores, |it| it.start().z);
    for bore in bores {
        for piece in bore.segments() {
            let (start, finish) = (piece.curve.start(), piece.curve.end());
            if finish.z <= z + 1e-9 || piece.curve.is_vertical() {
                continue;
            }
            if start.z > reached + 1e-6 || start.r.min(finish.r) < least {
                return Length::mm(reached - z);
            }
            reached = finish.z;
        }
    }
    Length::mm(reached - z)
}

/// The plain hole that an inside thread is cut in: the widest that covers its middle and is
/// narrower than the thread.
pub(crate) fn tapped_hole<'a>(part: &'a Part, threaded: &Threaded<'a>) -> Option<&'a Feature> {
    let major = threaded.thread.thread.major();
    let narrower = |hole: &&Feature| hole.dia().is_some_and(|dia| dia < major);
    let covering = plain_holes_over(part, threaded).filter(narrower);
    covering.max_by_key(|hole| hole.dia())
}

/// The plain holes that cover the middle of a thread.
fn plain_holes_over<'a>(
    part: &'a Part,
    threaded: &Threaded<'a>,
) -> impl Iterator<Item = &'a Feature> {
    let (low, high) = threaded.feature.stations(part.length);
    let middle = low + (high - low).half();
    let covers = move |hole: &&Feature| {
        let (from, to) = hole.stations(part.length);
        let plain = matches!(
            hole.cut,
            Cut::Drill { .. } | Cut::Bore { .. } | Cut::Ream { .. }
        );
        plain && from <= middle && middle <= to
    };
    part.features.iter().filter(covers)
}

/// The hole that leaves nothing of an inside thread: the widest that covers its middle and is as
/// wide as the thread, where none of the thread's own surface is left.
pub(crate) fn swallowing_hole<'a>(part: &'a Part, threaded: &Threaded<'a>) -> Option<&'a Feature> {
    let roots = &part.profiles.as_ref()?.root.inner;
    if left_of(part, roots, threaded.index).is_some() {
        return None;
    }
    let major = threaded.thread.thread.major();
    let wide = |hole: &&Feature| hole.dia().is_some_and(|dia| dia >= major);
    // A thread that has a hole of its own is cut away by what comes from the other end.
    let end = threaded.feature.end;
    let own = tapped_hole(part, threaded).is_some_and(|hole| hole.end == end);
    let covering = plain_holes_over(part, threaded)
        .filter(wide)
        .filter(|hole| !own || hole.end == end);
    covering.max_by_key(|hole| hole.dia())
}

/// How deep the hole of an inside thread stays wide enough for its tap, from the face of the end
/// it is cut from; none where it is open beyond, or no plain hole lies under it.
pub(crate) fn tapped_to(part: &Part, threaded: &Threaded<'_>) -> Option<Length> {
    let (solid, cut) = (&part.profiles.as_ref()?.crest, threaded.feature);
    let dia = tapped_hole(part, threaded)?.dia()?;
    let full_form_to = part.station(cut.end, cut.to);
    let bottom = cut.to + room_beyond(part, solid, cut.end, full_form_to, dia);
    (bottom < part.length).then_some(bottom)
}

/// Where a die is stopped behind a thread: the first place fatter than it, from the end's face.
pub(crate) fn shoulder_behind(
    part: &Part,
    end: End,
    from: Length,
    major: Length,
) -> Option<Length> {
    let outer = &part.profiles.as_ref()?.crest.outer;
    let turned = match end {
        End::First => outer.clone(),
        End::Second => outer.reversed(part.length.to_mm()),
    };
    let fat = major.to_mm() / 2.0 + 1e-6;
    turned
        .segments()
        .iter()
        .filter(|piece| !piece.curve.is_vertical() && piece.curve.end().z > from.to_mm() + 1e-6)
        .find(|piece| piece.curve.start().r > fat || piece.curve.end().r > fat)
        .map(|piece| Length::mm(piece.curve.start().z).max(from))
}

/// The tenon that an outside thread is cut on, where one covers it.
pub(crate) fn tenon_under<'a>(part: &'a Part, threaded: &Threaded<'a>) -> Option<&'a Feature> {
    let covers = |tenon: &&Feature| {
        matches!(tenon.cut, Cut::Tenon { .. })
            && tenon.end == threaded.feature.end
            && tenon.from <= threaded.feature.from
            && tenon.to > threaded.feature.from
    };
    part.features.iter().find(covers)
}
