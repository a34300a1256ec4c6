//! What to measure after an operation, and between which limits.

use crate::anatomy::Anatomy;
use crate::check::{Check, Measured, general};
use crate::mate::Mates;
use crate::{AskedSize, InsideShape, Operation, Tool, TurnKind, Work};
use quillet_geometry::{Length, Limits};
use quillet_model::{End, Origin};
use quillet_standards::fit::drilled_hole;

/// The checks after an operation.
pub(crate) fn checks(anatomy: &Anatomy, mates: &Mates, operation: &Operation) -> Vec<Check> {
    let part = anatomy.part;
    let asked = || mates.iter().flatten().filter_map(|it| it.asked);
    let by_fit = asked().find(|it| {
        let cut = it.origin.feature();
        cut.is_some_and(|index| operation.features.contains(&index))
    });
    let fitted = |what: Measured, it: &AskedSize| Check {
        what,
        nominal: it.drawn,
        limits: it.class.limits,
        source: it.class.source,
    };
    match &operation.work {
        Work::Face { end, to } => {
            // The second face gives the length.
            let other = part.station(end.other(), Length::ZERO);
            let whole = (*to - other).abs() == part.length;
            let faced = operation.needs.iter().any(|_| whole) && *end == End::Second;
            faced
                .then(|| general(Measured::Length, part.length))
                .into_iter()
                .collect()
        }
        Work::Inside(cut) => {
            let dia = cut.shape.widest();
            let what = Measured::Hole { end: cut.end };
            let drilled = match operation.tool {
                Some(Tool::Drill { .. }) => drilled_hole(dia).ok(),
                _ => None,
            };
            let size = match (by_fit, drilled) {
                (Some(asked), _) => fitted(what, &asked),
                (None, Some(hole)) => Check {
                    what,
                    nominal: dia,
                    // A drill cuts no smaller than itself, but it may cut to size.
                    limits: Limits::new(dia, hole.over_size.max()),
                    source: hole.source,
                },
                (None, None) => general(what, dia),
            };
            let opening = matches!(cut.shape, InsideShape::Drill { opening: true, .. });
            if opening {
                return Vec::new();
            }
            let mut found = vec![size];
            // A countersink is told by its diameter.
            let sunk = matches!(cut.shape, InsideShape::Countersink { .. });
            if !cut.through && !sunk {
                found.push(general(Measured::Depth { end: cut.end }, cut.to));
            }
            found
        }
        Work::Turn(cut) => {
            let what = Measured::Outside {
                end: cut.end,
                at: (cut.from + cut.to).half(),
            };
            let size = match (cut.kind, part.land(cut.end, cut.from, cut.to)) {
                (TurnKind::Tenon | TurnKind::ThreadLand, Some((limits, source))) => Check {
                    what,
                    nominal: cut.dia,
                    limits,
                    source,
                },
                _ => by_fit.map_or_else(|| general(what, cut.dia), |it| fitted(what, &it)),
            };
            vec![size, general(Measured::Depth { end: cut.end }, cut.to)]
        }
        Work::RemoveNub { .. } | Work::PartOff { shaping: true, .. } => {
            vec![general(Measured::Length, part.length)]
        }
        Work::Polish { .. } => {
            let at_fattest = anatomy.outer.fattest(0.0, part.length.to_mm());
            let at = at_fattest.map_or(Length::ZERO, |(place, _)| Length::mm(place.z));
            let place = |at: Length| Measured::Outside {
                end: End::First,
                at,
            };
            // A fit on the shaped outside gets its size by the polish.
            let shaped = asked().filter(|it| matches!(it.origin, Origin::Outside(_)));
            let shaped = shaped.map(|it| fitted(place((it.from + it.to).half()), &it));
            let whole = general(place(at), anatomy.fattest);
            [whole].into_iter().chain(shaped).collect()
        }
        _ => Vec::new(),
    }
}
