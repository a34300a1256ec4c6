//! What is joined into a part before its outside is turned.

use crate::id::TaskId;
use crate::tasks::feature_map::{FeatureMap, Lining};
use crate::tasks::mate::{Mate, gap, mates};
use crate::tasks::task::{Access, Stage, Tasks};
use crate::{JoinedIn, Work};
use quillet_geometry::Length;
use quillet_model::{PartId, Pen};
use quillet_syntax::ast::Verb;

/// A pen's part as the lathe sees it, with what lines it when its outside is turned.
pub(crate) fn map_of(pen: &Pen, part: PartId) -> Option<FeatureMap<'_>> {
    let mut map = FeatureMap::of(pen.parts.get(part)?)?;
    let lining = |it: quillet_model::Lining| {
        let joint = pen.joints.get(it.joint)?;
        Some(Lining {
            map: map_of(pen, it.part)?,
            mates: mates(pen, it.part),
            ends: it.ends,
            joined: JoinedIn {
                part: pen.parts[it.part].name.text.clone(),
                end: joint.female.end,
                gap: gap(joint),
                pressed: joint.verb == Verb::Press,
                home: None,
                at: None,
            },
        })
    };
    map.linings = pen.linings(part).into_iter().filter_map(lining).collect();
    Some(map)
}

/// Adds the joining of all that lines a part, one after the other, once it is cut, and the facing of the ends
/// that are level with what is in them; the last of all.
pub(crate) fn lining_tasks(
    feature_map: &FeatureMap,
    own: &[Vec<Mate>; 2],
    cut: Vec<TaskId>,
    tasks: &mut Tasks,
) -> Vec<TaskId> {
    let mut last = cut;
    let mut level = Vec::new();
    for (order, lining) in (0..).zip(&feature_map.linings) {
        let mut joined = lining.joined.clone();
        let mate = own[joined.end.index()].iter();
        let mut mate = mate.filter(|it| it.part == joined.part && !it.goes_in);
        let mate = mate.next();
        joined.home = mate.and_then(|it| it.home.clone());
        let end = joined.end;
        if mate.is_some_and(|it| it.depth == lining.map.part.length) && !level.contains(&end) {
            level.push(end);
        }
        let rank = (Stage::Outside, 0, order);
        last = vec![tasks.put(Work::JoinIn(joined), Access::Bench, rank, last)];
    }
    // What was made by itself is never level to a hair: the end is faced once more over both.
    for end in level {
        let to = feature_map.part.station(end, Length::ZERO);
        let rank = (Stage::Outside, 10, 0);
        last = vec![tasks.put(Work::Face { end, to }, Access::End(end), rank, last)];
    }
    last
}
