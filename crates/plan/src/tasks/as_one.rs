//! Parts joined before they are turned, whose outsides are turned as one.

use crate::id::TaskId;
use crate::tasks::beside::beside_at;
use crate::tasks::blank::{Blank, CLEAR, LEAST_GRIP, gripped};
use crate::tasks::feature_map::{ENDS, FeatureMap};
use crate::tasks::lining::map_of;
use crate::tasks::mate::{Mates, gap, mates};
use crate::tasks::task::{Access, BlendPartner, Stage, Tasks};
use crate::tasks::work_map::{map_of_work, mates_of_work};
use crate::tools::bench_tools::BenchTools;
use crate::{JoinedAt, JoinedIn, Nub, Strategy, Work};
use quillet_geometry::Length;
use quillet_model::{AsOne, AsOneMember, ById, Cut, End, Part, PartId, Pen};
use quillet_syntax::ast::Verb;

/// How much of its part a route makes.
pub(crate) enum Extent {
    /// All of it, turned joined with that one where there is one.
    Whole(Option<BlendPartner>),
    /// All but its outside, which is turned in a work with others.
    Inside(InWork),
    /// The outside alone, of a work whose parts are made.
    Outside(Begun),
}

/// What of a part is left for the work that it is in, beside its outside.
#[derive(Clone, Copy, Default)]
pub(crate) struct InWork {
    /// The end that keeps a nub.
    pub(crate) nub: Option<End>,
    /// The end that is faced when it is joined: before that nothing holds it.
    pub(crate) faced_later: Option<End>,
}

/// A work of which the parts are made: what there is of it when they are joined.
pub(crate) struct Begun {
    pub(crate) blank: Blank,
    /// What is joined, one after the other.
    pub(crate) joined: Vec<JoinedIn>,
    /// Where it is no longer the stock of what carries the others, stations.
    pub(crate) turned: Vec<(Length, Length)>,
    /// The ends that are faced then: where more than one face is level, or one is not faced yet.
    pub(crate) faced: Vec<End>,
}

impl Extent {
    /// With what it is turned joined.
    pub(crate) fn blended(&self) -> Option<BlendPartner> {
        match self {
            Extent::Whole(with) => *with,
            _ => None,
        }
    }

    /// The end that is faced when it is joined with others.
    pub(crate) fn faced_later(&self) -> Option<End> {
        match self {
            Extent::Inside(it) => it.faced_later,
            _ => None,
        }
    }

    /// Where it is no longer stock when it begins, stations.
    pub(crate) fn turned(&self) -> Vec<(Length, Length)> {
        match self {
            Extent::Outside(begun) => begun.turned.clone(),
            _ => Vec::new(),
        }
    }

    /// The nub beyond its closed end, where it keeps one.
    pub(crate) fn nub(&self, map: &FeatureMap, strategy: &Strategy) -> Option<Nub> {
        let end = strategy.nub?;
        Some(match self {
            Extent::Inside(_) => Nub::in_work(map, end),
            _ => Nub::of(end, self.blended().is_some_and(|it| it.gripped)),
        })
    }

    /// The broad choices for so much of a part.
    pub(crate) fn strategy(
        &self,
        map: &FeatureMap,
        mates: &Mates,
        bench_tools: BenchTools,
    ) -> Strategy {
        let whole = Strategy::of(map, mates, bench_tools);
        match self {
            Extent::Whole(_) => whole,
            Extent::Outside(_) => Strategy {
                on_stub: false,
                ring: false,
                ..whole
            },
            Extent::Inside(InWork { nub, faced_later }) => {
                let bare =
                    |end: &End| !map.open[end.index()] && !map.zone[end.index()].is_positive();
                // What is shaped at neither end is cut at the one that is joined.
                let joined = || ENDS.into_iter().find(|end| !bare(end));
                let first = match (nub, whole.mandrel) {
                    (Some(nub), _) => nub.other(),
                    (None, Some(_)) => whole.first,
                    (None, None) => joined().unwrap_or(whole.first),
                };
                Strategy {
                    first,
                    nub: *nub,
                    // Nothing is mounted by an end that is not faced.
                    mandrel: whole.mandrel.filter(|_| faced_later.is_none()),
                    on_stub: false,
                    ..whole
                }
            }
        }
    }
}

/// What of a part is left for the work that it is in.
pub(crate) fn in_work(pen: &Pen, work: &AsOne, part: PartId, bench_tools: BenchTools) -> InWork {
    let known = || {
        let map = map_of_work(pen, work)?;
        let nub = Strategy::of(&map, &mates_of_work(pen, work), bench_tools).nub;
        let member = work.members.iter().find(|it| it.part == part)?;
        let at_end = |end: End| work.level(member, &pen.parts[part], end);
        let nub = nub.and_then(at_end);
        let own = map_of(pen, part)?;
        let in_work = InWork {
            nub,
            faced_later: None,
        };
        let strategy = Extent::Inside(in_work).strategy(&own, &mates(pen, part), bench_tools);
        let second = strategy.first.other();
        let cut = own.part.features.iter();
        let mut cut = cut.filter(|it| it.end == second && !matches!(it.cut, Cut::Edge(_)));
        let bare = cut.next().is_none() && !beside_at(own.part, second);
        let shows = ENDS.into_iter().any(|end| at_end(end) == Some(second));
        let grip = own.part.length - own.zone[strategy.first.index()] - CLEAR;
        let later = nub.is_none() && !strategy.ring && bare && shows && grip < LEAST_GRIP;
        Some(InWork {
            nub,
            faced_later: later.then_some(second),
        })
    };
    known().unwrap_or_default()
}

/// What is left to be faced at an end of a work.
fn left_to_face(pen: &Pen, work: &AsOne, end: End, bench_tools: BenchTools) -> Length {
    let each = work.members.iter().filter_map(|it| {
        let own = work.level(it, &pen.parts[it.part], end)?;
        let in_work = in_work(pen, work, it.part, bench_tools);
        in_work.faced_later.filter(|it| *it == own)?;
        let (map, extent) = (map_of(pen, it.part)?, Extent::Inside(in_work));
        let strategy = extent.strategy(&map, &mates(pen, it.part), bench_tools);
        let blank = Blank::of(&map, &strategy, None, bench_tools, &mut Vec::new());
        Some(blank.facing[own.index()])
    });
    each.max().unwrap_or_default()
}

/// What there is of a work when its parts are made, each by its route.
pub(crate) fn begun(
    pen: &Pen,
    work: &AsOne,
    nub: Option<End>,
    bench_tools: BenchTools,
) -> Option<Begun> {
    let carrier = map_of(pen, work.members.first()?.part)?;
    let (dia, _) = gripped(&carrier, bench_tools, &mut Vec::new());
    let nub = nub.and_then(|end| nub_at(pen, work, end));
    let mut ends = [Length::ZERO, work.part.length];
    if let Some(nub) = nub {
        match nub.end {
            End::First => ends[0] -= nub.length,
            End::Second => ends[1] += nub.length,
        }
    }
    let joined = work.members.iter().filter_map(|it| joined(pen, work, it));
    let raw = ENDS.map(|end| left_to_face(pen, work, end, bench_tools));
    ends = [ends[0] - raw[0], ends[1] + raw[1]];
    let faced = ENDS.into_iter().filter(|end| {
        let parts = work.members.iter();
        let level = parts.filter(|it| work.level(it, &pen.parts[it.part], *end).is_some());
        level.count() > 1 || raw[end.index()].is_positive()
    });
    let blank = Blank {
        from: ends[0],
        to: ends[1],
        dia,
        rounded: false,
        facing: raw,
        nub,
        stub: None,
        pieces: ById::default(),
    };
    Some(Begun {
        turned: not_stock(pen, work, ends),
        blank,
        joined: joined.collect(),
        faced: faced.collect(),
    })
}

/// The nub at an end of a work, as the part that bears it keeps it.
fn nub_at(pen: &Pen, work: &AsOne, end: End) -> Option<Nub> {
    let mut members = work.members.iter();
    members.find_map(|it| {
        let own = work.level(it, &pen.parts[it.part], end)?;
        let nub = Nub::in_work(&map_of(pen, it.part)?, own);
        Some(Nub { end, ..nub })
    })
}

/// Where a work cannot be gripped by the stock of what carries the others: where that is turned already, and
/// where the others are.
fn not_stock(pen: &Pen, work: &AsOne, ends: [Length; 2]) -> Vec<(Length, Length)> {
    let span = |it: &AsOneMember, from: Length, to: Length| {
        let at = [from, to].map(|at| Length::mm(it.place.of(at.to_mm())));
        (at[0].min(at[1]), at[0].max(at[1]))
    };
    let whole = |it: &AsOneMember, part: &Part| span(it, Length::ZERO, part.length);
    let mut found = Vec::new();
    for (nth, it) in work.members.iter().enumerate() {
        let part = &pen.parts[it.part];
        if nth > 0 {
            found.push(whole(it, part));
            continue;
        }
        let (from, to) = whole(it, part);
        found.extend([(ends[0], from), (to, ends[1])]);
        found.push(span(it, Length::ZERO, part.zone(End::First)));
        found.push(span(it, part.length - part.zone(End::Second), part.length));
    }
    found.retain(|(from, to)| from < to);
    found
}

/// How one of a work is joined to what is there; nothing of what carries the others. What a joint holds between
/// its two parts goes over the one that goes in.
fn joined(pen: &Pen, work: &AsOne, member: &AsOneMember) -> Option<JoinedIn> {
    let joint = pen.joints.get(member.joint?)?;
    let goes_in = joint.male.part == member.part;
    let (there, over) = match goes_in {
        true => (joint.female, false),
        false => (joint.male, true),
    };
    let to = &pen.parts[there.part];
    let own = ENDS.into_iter();
    let own = own.flat_map(|end| mates(pen, member.part)[end.index()].clone());
    let mut own = own.filter(|it| it.part == to.name.text && it.goes_in == goes_in);
    let level = |end: &End| work.level(member, &pen.parts[member.part], *end);
    Some(JoinedIn {
        part: member.name.clone(),
        end: ENDS
            .into_iter()
            .find(|end| level(end).is_some())
            .unwrap_or(End::Second),
        gap: gap(joint).filter(|_| !member.between),
        pressed: joint.verb == Verb::Press,
        home: own.find_map(|it| it.home).filter(|_| !member.between),
        at: Some(JoinedAt {
            part: to.name.text.clone(),
            end: to.end_name(there.end).into(),
            over,
        }),
    })
}

/// Adds the joining of a work's parts, and the facing of the ends at which more than one of them is level;
/// the last of all.
pub(crate) fn join_tasks(map: &FeatureMap, begun: &Begun, tasks: &mut Tasks) -> Vec<TaskId> {
    let mut last = Vec::new();
    for (order, joined) in (0..).zip(&begun.joined) {
        let rank = (Stage::Outside, 0, order);
        last = vec![tasks.put(Work::JoinIn(joined.clone()), Access::Bench, rank, last)];
    }
    for end in &begun.faced {
        let to = map.part.station(*end, Length::ZERO);
        let work = Work::Face { end: *end, to };
        let rank = (Stage::Outside, 10, 0);
        last = vec![tasks.put(work, Access::End(*end), rank, last)];
    }
    last
}
