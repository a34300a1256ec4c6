//! A work of several parts as the lathe sees it, and what its ends meet.

use crate::tasks::asked::AskedSize;
use crate::tasks::feature_map::{ENDS, FeatureMap, Lining};
use crate::tasks::lining::map_of;
use crate::tasks::mate::{Mate, Mates, mates};
use quillet_geometry::Length;
use quillet_model::{AsOne, AsOneMember, CutId, End, Origin, Pen, StationId};

/// A work as the lathe sees it, when its parts are joined.
pub(crate) fn map_of_work<'p>(pen: &'p Pen, work: &'p AsOne) -> Option<FeatureMap<'p>> {
    let mut map = FeatureMap::of(&work.part)?;
    for it in &work.members {
        let part = &pen.parts[it.part];
        let own = map_of(pen, it.part)?;
        let at_ends = ENDS.map(|end| work.level(it, part, end));
        for lining in own.linings {
            let ends = at_ends.map(|own| own.and_then(|own| lining.ends[own.index()]));
            map.linings.push(Lining { ends, ..lining });
        }
    }
    Some(map)
}

/// What the ends of a work meet: what those of its parts meet there.
pub(crate) fn mates_of_work(pen: &Pen, work: &AsOne) -> Mates {
    ENDS.map(|end| {
        let each = work.members.iter().flat_map(|it| {
            let own = work.level(it, &pen.parts[it.part], end);
            let own = own.map(|own| mates(pen, it.part)[own.index()].clone());
            let later = own
                .into_iter()
                .flatten()
                .filter(|mate| !mate.before_turning);
            later.map(|mate| on_work(work, it, end, mate))
        });
        each.collect()
    })
}

fn on_work(work: &AsOne, member: &AsOneMember, end: End, mate: Mate) -> Mate {
    let cut = |own: CutId| work.cuts.position(|it| *it == (member.part, own));
    let asked = mate.asked.map(|it| {
        let at = [it.from, it.to].map(|at| Length::mm(member.place.of(at.to_mm())));
        AskedSize {
            end,
            origin: match it.origin {
                Origin::Feature(own) => cut(own).map_or(it.origin, Origin::Feature),
                _ => Origin::Outside(StationId::nth(0)),
            },
            from: at[0].min(at[1]),
            to: at[0].max(at[1]),
            ..it
        }
    });
    Mate {
        thread: mate.thread.and_then(cut),
        asked,
        ..mate
    }
}
