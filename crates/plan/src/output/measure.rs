//! What to measure after an operation, and between which limits.

use crate::output::inspection::{self, Inspection, Measured};
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::mate::Mates;
use crate::{AskedSize, InsideCut, InsideShape, Note, Operation, Pass, Tool, TurnKind, Work};
use quillet_geometry::Length;
use quillet_model::{CutId, End, Feature, Hand, Origin, Part, Profiles, SideId};
use quillet_syntax::ast::ToleranceKind;

/// The checks after an operation, on a blank whose ends are `now` at these stations.
#[expect(
    clippy::too_many_lines,
    reason = "an arm an operation: it is read as a table"
)]
pub(crate) fn checks(
    feature_map: &FeatureMap,
    mates: &Mates,
    hand: &Hand,
    operation: &Operation,
    now: [Length; 2],
) -> Vec<Inspection> {
    let part = feature_map.part;
    let asked = || mates.iter().flatten().filter_map(|it| it.asked);
    let by_fit = asked().find(|it| {
        let cut = it.origin.feature();
        cut.is_some_and(|index| operation.features.contains(&index))
    });
    let fitted = |what: Measured, it: &AskedSize| Inspection {
        what,
        nominal: it.drawn,
        limits: it.class.limits,
        source: it.class.source,
    };
    let general = |what: Measured, nominal: Length| {
        let kept = match what {
            Measured::Outside { .. } => ToleranceKind::Dia,
            Measured::Hole { .. } => ToleranceKind::Bore,
            Measured::Length => ToleranceKind::Length,
            Measured::Point { .. } => ToleranceKind::Depth,
            Measured::Depth { .. } => match operation.work {
                Work::Inside(_) => ToleranceKind::Depth,
                _ => ToleranceKind::Shoulder,
            },
        };
        inspection::general(hand, kept, what, nominal)
    };
    match &operation.work {
        Work::Face { end, to } => {
            let other = part.station(end.other(), Length::ZERO);
            let makes_length =
                now[end.other().index()] == other && *to == part.station(*end, Length::ZERO);
            let length = makes_length.then(|| general(Measured::Length, part.length));
            length.into_iter().collect()
        }
        Work::Inside(cut) => {
            let dia = cut.shape.widest();
            let what = Measured::Hole { end: cut.end };
            let drilled = matches!(operation.tool, Some(Tool::Drill { .. }));
            let size = match (by_fit, drilled) {
                (Some(asked), _) => fitted(what, &asked),
                (None, true) => inspection::general(hand, ToleranceKind::Drill, what, dia),
                (None, false) => general(what, dia),
            };
            let opening = matches!(cut.shape, InsideShape::Drill { opening: true, .. });
            if opening {
                return Vec::new();
            }
            let mut found = Vec::new();
            // A caliper reads a hole at its mouth; one that lies behind a wider is tried by a pin, behind
            // a narrower by nothing.
            let behind = operation
                .notes
                .iter()
                .any(|it| matches!(it, Note::ShankGoesHome { .. } | Note::FeedFromTouch { .. }));
            if !behind || by_fit.is_some() {
                found.push(size);
            }
            found.extend(deep(part, cut, operation).map(|(what, to)| general(what, to)));
            found
        }
        Work::Turn(cut) => {
            let what = Measured::Outside {
                end: cut.end,
                at: (cut.from + cut.to).half(),
            };
            let land = match cut.kind {
                TurnKind::Tenon | TurnKind::ThreadLand => part.land(cut.end, cut.from, cut.to),
                _ => None,
            };
            // What is written outside the thread's own limits is measured as it is written.
            let size = match land.filter(|(limits, _)| limits.contains(cut.dia)) {
                Some((limits, source)) => Inspection {
                    what,
                    nominal: cut.dia,
                    limits,
                    source,
                },
                None => by_fit.map_or_else(|| general(what, cut.dia), |it| fitted(what, &it)),
            };
            vec![size, general(Measured::Depth { end: cut.end }, cut.to)]
        }
        Work::RemoveNub { .. } | Work::PartOff { shaping: true, .. } => {
            vec![general(Measured::Length, part.length)]
        }
        Work::Side { cut, .. } => {
            let read = across_flats(part, *cut).into_iter();
            read.map(|(at, size)| {
                let end = End::First;
                general(Measured::Outside { end, at }, size - part.coat_on_dia())
            })
            .collect()
        }
        // What is turned to a hole has its size by the last cut.
        Work::Outside(pass) if pass.pass != Pass::Finish || pass.over.is_positive() => Vec::new(),
        // Its hole, as that came out, is its measure.
        Work::Outside(_) if to_the_hole(mates).is_some() => Vec::new(),
        Work::Polish { .. } | Work::Outside(_) => {
            let at_fattest = feature_map.outer.fattest(0.0, part.length.to_mm());
            let at = at_fattest.map_or(Length::ZERO, |(place, _)| Length::mm(place.z));
            let place = |at: Length| Measured::Outside {
                end: End::First,
                at,
            };
            // A fit on the shaped outside gets its size by the polish.
            let shaped = asked().filter(|it| matches!(it.origin, Origin::Outside(_)));
            let shaped = shaped.map(|it| fitted(place((it.from + it.to).half()), &it));
            let whole = general(place(at), feature_map.fattest - part.coat_on_dia());
            [whole].into_iter().chain(shaped).collect()
        }
        _ => Vec::new(),
    }
}

/// How far under the hole it is glued into a part's whole outside is turned.
pub(crate) fn to_the_hole(mates: &Mates) -> Option<Length> {
    let glued = mates.iter().flatten().filter(|it| it.goes_in);
    glued.filter_map(|it| it.gap).next()
}

/// The depth that can be read of a hole: a flat one's at its bottom, a coned one's at its point
/// where that is still there in the end. A countersink is told by its diameter.
fn deep(part: &Part, cut: &InsideCut, operation: &Operation) -> Option<(Measured, Length)> {
    if cut.through || matches!(cut.shape, InsideShape::Countersink { .. }) {
        return None;
    }
    let Some(point) = operation.depth.and_then(|it| it.to_point) else {
        return Some((Measured::Depth { end: cut.end }, cut.to));
    };
    let removes = |(index, it): (CutId, &Feature)| {
        let (near, far) = match it.end == cut.end {
            true => (it.from, it.to),
            false => (part.length - it.to, part.length - it.from),
        };
        it.is_inside()
            && !operation.features.contains(&index)
            && (it.through || near < point && point <= far)
    };
    let removed = part.features.with_ids().any(removes);
    (!removed).then_some((Measured::Point { end: cut.end }, point))
}

/// Where a cut's flats are read by calipers, and what they measure there.
fn across_flats(part: &Part, cut: SideId) -> Vec<(Length, Length)> {
    let profiles = part.profiles.as_ref();
    let across = profiles.map_or_else(Vec::new, Profiles::across_flats);
    let sets = across.iter().filter(|it| it.side == cut);
    let read = sets.flat_map(|it| {
        // Where both ends measure the same, once in the middle.
        let [from, to] = it.stretch_mm;
        let [first, last] = it.calipers_mm();
        match first == last {
            true => vec![((from + to) / 2.0, first)],
            false => vec![(from, first), (to, last)],
        }
    });
    read.map(|(at, size)| (Length::mm(at), Length::mm(size)))
        .collect()
}
