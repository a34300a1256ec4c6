//! What is read and minded at an operation, in few words.

use super::row_words::{RowContext, dia_of};
use quillet_geometry::{Angle, Length};
use quillet_plan::{Home, Note, Operation, Tool};

/// Readings of scales: each on a line of its own that never breaks.
pub(super) fn readings(words: &RowContext, operation: &Operation) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(tailstock) = &operation.tailstock {
        let stops: Vec<String> = tailstock.stops.iter().map(|it| words.tenth(*it)).collect();
        // A single stop at the depth that the row says already is no news.
        let known = operation.depth.is_some_and(|it| it.to_point.is_none());
        if stops.len() > 1 || !known {
            lines.push(format!("scale {}", stops.join(", then ")));
        }
    }
    if let Some(peck) = operation.peck {
        let depth = operation.depth.map_or(Length::ZERO, |it| it.to_corner);
        let whole = |it: Length| words.whole(it);
        let outs: Vec<Length> = (0..i64::from(peck.count))
            .map(|at| peck.free + peck.step * at)
            .filter(|it| *it < depth)
            .collect();
        lines.extend(match outs.as_slice() {
            [] => None,
            all if all.len() <= 3 => {
                let all: Vec<String> = all.iter().map(|it| whole(*it)).collect();
                Some(format!("out at {}", all.join(" · ")))
            }
            [first, ..] => Some(format!(
                "out at {}, every {}",
                whole(*first),
                whole(peck.step)
            )),
        });
    }
    let by_tool = matches!(operation.tool, Some(Tool::Tap { .. }));
    if let Some(point) = operation
        .depth
        .and_then(|it| it.to_point)
        .filter(|_| by_tool)
    {
        lines.push(format!("point at {}", words.tenth(point)));
    }
    lines
}

/// What is tried in a hole that no caliper reads.
pub(super) fn pin(words: &RowContext, operation: &Operation) -> Option<String> {
    operation.notes.iter().find_map(|it| match it {
        Note::ShankGoesHome { dia, stays_out } => {
            let goes = dia_of(words.units, *dia);
            Some(match stays_out {
                Some(out) => format!("{goes} goes {} not", words.units.plain(*out)),
                None => format!("{goes} goes home"),
            })
        }
        Note::ToTheHole { under, .. } => Some(format!("hole − {}", words.units.plain(*under))),
        _ => None,
    })
}

pub(super) fn note(words: &RowContext, note: &Note) -> Option<String> {
    match note {
        Note::LeftHandUnscrews => Some("in reverse: else it unscrews".into()),
        Note::LeftHandThread => Some("left hand".into()),
        Note::ReverseUnscrews => None,
        Note::IndexStarts { pitch, .. } => {
            Some(format!("index {} a start", words.units.plain(*pitch)))
        }
        // The strip's figures are those of the bare outside.
        Note::UnderCoat { .. } => Some("sizes before the coat".into()),
        Note::Coat { name, thickness } => Some(format!(
            "then {name}, {} thick, joints masked",
            words.units.plain(*thickness)
        )),
        Note::BreaksThrough => Some("ease the feed".into()),
        Note::LineUp => Some("line it up".into()),
        Note::Degrease => Some("clean, roughen".into()),
        Note::SpeedUnknown => Some("begin slowly".into()),
        Note::CleanLine => Some("wipe it off".into()),
        Note::ByCrank => Some("by the crank".into()),
        Note::FeedFromTouch { depth } => {
            Some(format!("feed {} from touch", words.units.plain(*depth)))
        }
        Note::ToSuit { mate, hole, .. } => {
            Some(format!("suits {mate}’s {}", dia_of(words.units, *hole)))
        }
        Note::LevelWith { part } => Some(format!("level with {part}")),
        Note::HoldWork => Some("hold work backing out".into()),
        Note::BeginsAt { clockwise } if *clockwise == Angle::ZERO => {
            Some("begin at the mark".into())
        }
        Note::BeginsAt { clockwise } => Some(format!("begin {clockwise} past the mark")),
        _ => None,
    }
}

/// What shows that a mate is home.
pub(super) fn home(words: &RowContext, home: &Home) -> String {
    match home {
        Home::Shoulder => "shoulder bears".into(),
        Home::GoesIn(deep) => format!("{} in, by friction", words.units.plain(*deep)),
        Home::Level => "far face level with the mouth".into(),
        Home::StandsOut => "starts square, stands out".into(),
        Home::Bears { own, mate } => {
            let part = &*words.route.part.name.text;
            let faces = [own, mate].map(|it| (it.part.as_ref() == part, it.face.as_deref()));
            let named = |own: bool| faces.iter().find(|it| it.0 == own).and_then(|it| it.1);
            let face = named(true).or(named(false)).unwrap_or("face");
            format!("no light at {face}")
        }
    }
}
