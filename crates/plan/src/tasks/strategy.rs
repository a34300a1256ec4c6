//! The broad choices for a part: by which end it is held while its outside is turned, which
//! end is cut first, whether a centre nub stands beyond a closed end.

use crate::MandrelKind;
use crate::tasks::beside::beside_at;
use crate::tasks::feature_map::{ENDS, FeatureMap};
use crate::tasks::mate::Mates;
use crate::tools::bench_tools::BenchTools;
use quillet_geometry::Length;
use quillet_model::{Cut, End};
use quillet_standards::thread::Hand;
use quillet_syntax::ast::Side;

/// The broad choices for a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Strategy {
    /// The end that is cut first.
    pub first: End,
    /// The mandrel the part goes on: at which end, and what kind.
    pub mandrel: Option<(End, MandrelKind)>,
    /// A closed end that keeps a centre nub till last.
    pub nub: Option<End>,
    /// Nothing to mount it by: turned whole from a stub beyond the second end, then parted.
    pub on_stub: bool,
    /// A ring, parted over size and finished clamped on a stepped mandrel.
    pub ring: bool,
}

/// A plain bore shallower than this holds nothing.
const LEAST_SPIGOT: Length = Length::from_nm(4_000_000);

impl Strategy {
    pub(crate) fn of(feature_map: &FeatureMap, mates: &Mates, bench_tools: BenchTools) -> Strategy {
        let ring = feature_map.is_ring();
        let mandrel = best_mandrel(feature_map, mates, bench_tools);
        let cut_at = |end: End| {
            let plain = |cut: &Cut| matches!(cut, Cut::Edge(_));
            feature_map
                .part
                .features
                .iter()
                .any(|it| it.end == end && !plain(&it.cut))
                || beside_at(feature_map.part, end)
        };
        let bored_from = |end: End| {
            let mut features = feature_map.part.features.iter();
            let own = features.any(|it| it.is_inside() && it.end == end);
            own || feature_map.is_lined_at(end)
        };
        let first = match mandrel {
            // A spigot goes into a hole that is there: where that comes from the far end, this one is first.
            Some((end, MandrelKind::Spigot)) if !bored_from(end) => end.other(),
            Some((end, _)) => end,
            // The stub is beyond the end that nothing must come to.
            None => match inside_or_threaded(feature_map, End::Second) {
                true => End::Second,
                false => End::First,
            },
        };
        let far = mandrel.map_or(first.other(), |it| it.0.other());
        let closed = !feature_map.open[far.index()] && !cut_at(far);
        Strategy {
            first,
            mandrel,
            nub: (closed && mandrel.is_some()).then_some(far),
            on_stub: mandrel.is_none(),
            ring,
        }
    }
}

/// The mandrel that suits best. One whose thread is left-handed is unscrewed by the cut in forward
/// rotation: any other hold goes before it, also a stub to turn the part whole from.
fn best_mandrel(
    feature_map: &FeatureMap,
    mates: &Mates,
    bench_tools: BenchTools,
) -> Option<(End, MandrelKind)> {
    let all = ENDS
        .into_iter()
        .flat_map(|end| mandrels_at(feature_map, end, mates, bench_tools));
    let (unscrews, holds): (Vec<_>, Vec<_>) =
        all.partition(|(_, end, kind)| unscrews(feature_map, *end, *kind, mates));
    let best = |found: Vec<(u32, End, MandrelKind)>| {
        let best = found
            .into_iter()
            .reduce(|best, next| if next.0 > best.0 { next } else { best });
        best.map(|(_, end, kind)| (end, kind))
    };
    let stub_does = !ENDS
        .into_iter()
        .all(|end| inside_or_threaded(feature_map, end));
    best(holds).or_else(|| best(unscrews).filter(|_| !stub_does))
}

/// Whether a mandrel of this kind holds the work by a left-hand thread, or by a spigot that would
/// have to run in one.
fn unscrews(feature_map: &FeatureMap, end: End, kind: MandrelKind, mates: &Mates) -> bool {
    let (map, at, side) = match kind {
        MandrelKind::Female => (feature_map, end, Side::Outside),
        _ => {
            let (map, at, _) = feature_map.mouth(end, mates);
            (map, at, Side::Inside)
        }
    };
    let thread = map.thread_at(at, side).and_then(|it| it.thread());
    thread.is_some_and(|(it, _)| it.thread.hand() == Hand::Left)
}

/// Whether a tool must come to an end from the tailstock.
fn inside_or_threaded(feature_map: &FeatureMap, end: End) -> bool {
    feature_map
        .part
        .features
        .iter()
        .any(|it| it.end == end && (it.is_inside() || it.thread().is_some()))
        || beside_at(feature_map.part, end)
}

/// The mandrels an end would take, each with how well it suits.
fn mandrels_at(
    feature_map: &FeatureMap,
    end: End,
    mates: &Mates,
    bench_tools: BenchTools,
) -> Vec<(u32, End, MandrelKind)> {
    let mut found = Vec::new();
    if feature_map.is_ring() {
        found.push((
            if end == End::First { 9 } else { 8 },
            end,
            MandrelKind::Stepped,
        ));
        return found;
    }
    let (inner, at, within) = feature_map.mouth(end, mates);
    let received = within[at.index()].iter().find(|it| !it.goes_in);
    let received = received.map(|it| it.bought);
    let socket = mates[end.index()].iter().find(|it| it.goes_in);
    let made_socket = socket.is_some_and(|it| !it.bought);
    if let Some(thread) = inner.thread_at(at, Side::Inside) {
        // Its die is at hand where the mate is made, or where the lathe cuts threads; the
        // thread of a bought part has no die on the bench.
        let own = thread
            .thread()
            .is_some_and(|(it, _)| bench_tools.die(&it.thread).is_some());
        let suits = match received {
            Some(false) => 7,
            Some(true) if !own && !bench_tools.screwcutting() => 1,
            _ if own => 5,
            _ => 3,
        };
        found.push((suits, end, MandrelKind::Male));
    }
    if feature_map.thread_at(end, Side::Outside).is_some() {
        found.push((if made_socket { 6 } else { 4 }, end, MandrelKind::Female));
    }
    if let Some((dia, reach)) = inner.bore_at(at)
        && reach >= LEAST_SPIGOT
        && dia >= LEAST_SPIGOT
    {
        found.push((2, end, MandrelKind::Spigot));
    }
    found
}
