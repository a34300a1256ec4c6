//! The order in which parts stand along the axis once each is drawn out of the others: on the side on which
//! it comes out.

use super::super::member::Member;
use quillet_geometry::put_in_order;
use quillet_model::Pen;
use quillet_syntax::ast::Verb;

/// How fine a part is looked at along the axis, mm.
const STEP_MM: f64 = 0.5;
/// What differs by less from slice to slice is one stretch, mm of radius. Less than any wall, and no more than
/// two threads mesh by.
const ALIKE_MM: f64 = 0.1;

/// A stretch of a part on the axis, and the least and the greatest radius of what is solid in it, mm.
struct Stretch {
    from: f64,
    to: f64,
    inner: f64,
    outer: f64,
}

/// The places in a list of parts, from the foremost on.
pub(super) fn order(pen: &Pen, members: &[Member]) -> Vec<usize> {
    let stretches: Vec<Vec<Stretch>> = members.iter().map(stretches).collect();
    let stands_left = |one: usize, other: usize| {
        let (one, other) = (&stretches[one], &stretches[other]);
        let (out, back) = (stopped(one, other), stopped(other, one));
        out + ALIKE_MM / 2.0 < back
    };
    let mut left: Vec<usize> = (0..members.len()).collect();
    put_in_order(&mut left, |it| foremost(&members[*it]));
    let mut ordered: Vec<usize> = Vec::new();
    while !left.is_empty() {
        let is_free = |one: usize| !left.iter().any(|it| *it != one && stands_left(*it, one));
        let free: Vec<usize> = left.iter().copied().filter(|it| is_free(*it)).collect();
        // What is glued into the last one goes with it, where nothing says otherwise.
        let last = ordered.last().copied();
        let goes_with = |one: usize| last.is_some_and(|it| are_glued(pen, members, it, one));
        let next = free.iter().copied().find(|it| goes_with(*it));
        let Some(next) = next.or_else(|| free.first().or(left.first()).copied()) else {
            break;
        };
        left.retain(|it| *it != next);
        ordered.push(next);
    }
    ordered
}

fn foremost(member: &Member) -> f64 {
    let [a, b] =
        [member.solid.outer.start(), member.solid.outer.end()].map(|it| member.place.of(it.z));
    a.min(b)
}

fn are_glued(pen: &Pen, members: &[Member], one: usize, other: usize) -> bool {
    let ids = [members[one].id, members[other].id];
    pen.joints.iter().any(|joint| {
        let both = [joint.male.part, joint.female.part];
        matches!(joint.verb, Verb::Glue) && both.iter().all(|it| ids.contains(it))
    })
}

/// How much one part is in the way of another that is drawn past it to the right, mm of radius; nothing where
/// they meet nowhere.
fn stopped(one: &[Stretch], moved: &[Stretch]) -> f64 {
    let pairs = one.iter().flat_map(|a| moved.iter().map(move |b| (a, b)));
    pairs
        .filter(|(a, b)| a.to > b.from + STEP_MM)
        .map(|(a, b)| a.outer.min(b.outer) - a.inner.max(b.inner))
        .fold(0.0, f64::max)
}

fn stretches(member: &Member) -> Vec<Stretch> {
    let solid = member.solid;
    let (start, end) = (solid.outer.start().z, solid.outer.end().z);
    let count = ((end - start) / STEP_MM).ceil().clamp(1.0, 10_000.0);
    let step = (end - start) / count;
    let mut all: Vec<Stretch> = Vec::new();
    for at in 0..count as usize {
        let station = start + (at as f64 + 0.5) * step;
        let outer = solid.outer.greatest_at(station).unwrap_or(0.0);
        let bores = solid.inner.iter().filter_map(|it| it.least_at(station));
        let inner = bores.fold(0.0, f64::max);
        let ends = [station - step / 2.0, station + step / 2.0].map(|it| member.place.of(it));
        let (from, to) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        match all.last_mut() {
            Some(last)
                if (last.outer - outer).abs() < ALIKE_MM
                    && (last.inner - inner).abs() < ALIKE_MM =>
            {
                (last.from, last.to) = (last.from.min(from), last.to.max(to));
                (last.outer, last.inner) = (last.outer.max(outer), last.inner.min(inner));
            }
            _ => all.push(Stretch {
                from,
                to,
                inner,
                outer,
            }),
        }
    }
    all
}
