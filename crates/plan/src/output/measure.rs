//! What to measure after an operation, and between which limits.

use crate::output::check::{self, Check, Measured};
use crate::tasks::anatomy::Anatomy;
use crate::tasks::mate::Mates;
use crate::{AskedSize, InsideShape, Operation, Tool, TurnKind, Work};
use quillet_geometry::Length;
use quillet_model::{End, Hand, Origin};
use quillet_syntax::ast::Kept;

/// The checks after an operation.
pub(crate) fn checks(
    anatomy: &Anatomy,
    mates: &Mates,
    hand: &Hand,
    operation: &Operation,
) -> Vec<Check> {
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
    let general = |what: Measured, nominal: Length| {
        let kept = match what {
            Measured::Outside { .. } => Kept::Dia,
            Measured::Hole { .. } => Kept::Bore,
            Measured::Length => Kept::Length,
            Measured::Depth { .. } => match operation.work {
                Work::Inside(_) => Kept::Depth,
                _ => Kept::Shoulder,
            },
        };
        check::general(hand, kept, what, nominal)
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
            let drilled = matches!(operation.tool, Some(Tool::Drill { .. }));
            let size = match (by_fit, drilled) {
                (Some(asked), _) => fitted(what, &asked),
                (None, true) => check::general(hand, Kept::Drill, what, dia),
                (None, false) => general(what, dia),
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
