//! What was worked out of a cut: its wall, its reach, its drill, what it weighs.

use super::{Sheet, thread, weight};
use crate::sizes::Sizes;
use quillet_check::{PartView, Wall, assumed};
use quillet_geometry::number;
use quillet_geometry::{Angle, Edge, Length};
use quillet_model::{Cut, CutId, Feature, Hand, Origin, Part};
use quillet_standards::drill::{self, Drill};
use quillet_standards::thread::{ThreadForm, ThreadSide};
use quillet_syntax::ast::Side;

/// The facts of a part's cut.
pub(super) fn facts(sheet: &mut Sheet, view: &PartView<'_>, index: CutId) {
    let part = view.part;
    let feature = &part.features[index];
    sheet.paragraph(format!("**{}** of {}", feature.cut.word(), part.name.text));
    let around = around(view, index);
    let wall = least(&around);
    match &feature.cut {
        Cut::Thread { thread, side } => {
            let side = match side {
                Side::Inside => ThreadSide::Internal,
                Side::Outside => ThreadSide::External,
            };
            thread::sizes(sheet, &thread.thread, Some(side));
            if let Some(hole) = hole_of(part, feature) {
                sheet.row(
                    "thread in its hole",
                    &thread.thread.percent_of_thread(hole).to_string(),
                );
            }
        }
        Cut::Drill { dia, point, .. } => {
            drilled(sheet, view, feature, (*dia, *point), wall);
        }
        Cut::Edge(edge) => {
            let (what, size) = match edge {
                Edge::Round(radius) => ("radius", radius),
                Edge::Chamfer(leg) => ("leg", leg),
            };
            sheet.size(what, *size);
        }
        _ => {
            if let Some(dia) = feature.dia() {
                diameter(sheet, dia);
            }
        }
    }
    // The tap drill that a thread is given stands in the thread's own line.
    let units = sheet.sizes().units();
    let here = part.features.iter().filter(|it| it.span == feature.span);
    for message in here.filter_map(|it| assumed::text(it, units)) {
        sheet.row("assumed", &message);
    }
    walls(sheet, view, &around);
    // A thread is as wide as it is called.
    if feature.thread().is_none() {
        weight::cut(sheet, view, index);
    }
}

/// Of some walls, the least as drawn, and what is left at worst of that which leaves least then;
/// with what they lie between.
pub(super) fn walls(sheet: &mut Sheet, view: &PartView<'_>, walls: &[&Wall]) {
    let hand = Hand::at(view.bench);
    let Some(wall) = least(walls) else {
        return;
    };
    let worst = |wall: &Wall| wall.worst(view.part, &hand);
    let at_worst = walls.iter().map(|it| (*it, worst(it)));
    let shows = |it: &(&Wall, Length)| it.1 + SHOWS < worst(wall);
    let worse = at_worst.min_by_key(|it| it.1).filter(shows);
    sheet.size("least wall", wall.least);
    if worse.is_none() && worst(wall) != wall.least {
        sheet.size("at its worst", worst(wall));
    }
    between(sheet, view.part, wall);
    if let Some((wall, worst)) = worse {
        sheet.size("at its worst", worst);
        between(sheet, view.part, wall);
    }
}

/// Two sizes of two decimals differ by this.
const SHOWS: Length = Length::from_nm(5_000);

fn between(sheet: &mut Sheet, part: &Part, wall: &Wall) {
    let sizes = sheet.sizes();
    let words = [wall.outer_words(part), wall.inner_words(part)];
    let [outer, inner] = words.map(|it| it.in_units(sizes.units()));
    let at = sizes.figure(wall.at.to_mm(), 2);
    sheet.row("between", &format!("{outer} and {inner}, at station {at}"));
}

/// The least of some walls as drawn.
fn least<'a>(walls: &[&'a Wall]) -> Option<&'a Wall> {
    walls.iter().copied().min_by_key(|wall| wall.least)
}

/// A drilled hole: its apex, how deep it is for its size, and the drills next to it.
fn drilled(
    sheet: &mut Sheet,
    view: &PartView<'_>,
    feature: &Feature,
    (dia, point): (Length, Angle),
    wall: Option<&Wall>,
) {
    diameter(sheet, dia);
    if !feature.through {
        let apex = feature.to + drill::point_length(dia, point);
        sheet.size("depth to the apex", apex);
    }
    let depth = feature.to - feature.from;
    sheet.row("depth over diameter", &number(depth.ratio(dia), 1));
    flutes(sheet, view, feature.to, dia);
    let thread = thread_in(view.part, feature);
    if let Some(thread) = thread {
        sheet.row(
            "thread it leaves",
            &thread.percent_of_thread(dia).to_string(),
        );
    }
    let sizes = sizes_at_hand(view, sheet.sizes());
    let below = sizes.iter().rfind(|size| **size < dia);
    let above = sizes.iter().find(|size| **size > dia);
    for (what, other) in [("next drill down", below), ("next drill up", above)] {
        if let Some(other) = other {
            let message = neighbour(sheet.sizes(), *other, dia, wall, thread);
            sheet.row(what, &message);
        }
    }
}

/// A diameter, with the nearest fraction where inches are told.
pub(super) fn diameter(sheet: &mut Sheet, dia: Length) {
    sheet.size("diameter", dia);
    if dia.is_positive() {
        sheet.fraction(dia);
    }
}

/// What is left of the flutes at the bottom of a hole: of the bench's own drill where its reach is
/// said, else of a jobber drill.
fn flutes(sheet: &mut Sheet, view: &PartView<'_>, depth: Length, dia: Length) {
    let own = view.bench.into_iter().flat_map(|bench| &bench.drills);
    let own = own
        .filter(|drill| drill.dia == dia)
        .filter_map(|drill| drill.reach)
        .max();
    let (whose, reach) = match own {
        Some(reach) => ("the bench drill", reach),
        None => match drill::jobber(dia).and_then(Drill::flute) {
            Some(flute) => ("a jobber drill", flute),
            None => return,
        },
    };
    let reserve = reach - depth;
    let size = sheet.sizes().one(reserve.abs());
    let message = match reserve.is_negative() {
        true => format!("{whose} is {size} too short"),
        false => format!("{size} of {whose}'s left"),
    };
    sheet.row("flutes", &message);
}

/// The drills of the bench, smallest first; the unit's own series where no bench is known.
fn sizes_at_hand(view: &PartView<'_>, sizes: Sizes) -> Vec<Length> {
    let owned = view
        .bench
        .iter()
        .flat_map(|bench| &bench.drills)
        .map(|drill| drill.dia);
    let owned: Vec<Length> = owned.collect();
    if !owned.is_empty() {
        return owned;
    }
    let series = sizes.units().drills();
    let bought = drill::all()
        .iter()
        .filter(|it| series.contains(&it.series()));
    let mut bought: Vec<Length> = bought.map(Drill::diameter).collect();
    bought.sort();
    bought
}

/// Another drill, with the wall and the thread it would leave.
fn neighbour(
    sizes: Sizes,
    other: Length,
    dia: Length,
    wall: Option<&Wall>,
    thread: Option<&ThreadForm>,
) -> String {
    let called = sizes.units().is_drill(other);
    let called = called.then(|| sizes.units().drill(other));
    let mut reported: Vec<String> = called.into_iter().chain([sizes.one(other)]).collect();
    if let Some(wall) = wall {
        let left = wall.least - (other - dia).half();
        reported.push(format!("wall {}", sizes.short(left, 2)));
    }
    if let Some(thread) = thread {
        reported.push(thread.percent_of_thread(other).to_string());
    }
    reported.join(", ")
}

/// The drilled or bored hole in which an inside thread is cut: the widest that reaches as deep.
fn hole_of(part: &Part, thread: &Feature) -> Option<Length> {
    let holes = part.features.iter().filter(|hole| {
        matches!(
            hole.cut,
            Cut::Drill { .. } | Cut::Bore { .. } | Cut::Ream { .. }
        ) && hole.end == thread.end
            && hole.from <= thread.from
            && hole.to >= thread.to
    });
    let thread_form = thread.thread().map(|(thread, _)| &thread.thread)?;
    let holes = holes
        .filter_map(Feature::dia)
        .filter(|dia| *dia < thread_form.major());
    holes.max().filter(|_| thread.is_inside())
}

/// The inside thread that is cut in a hole.
fn thread_in<'a>(part: &'a Part, hole: &Feature) -> Option<&'a ThreadForm> {
    let mut threads = part
        .features
        .iter()
        .filter(|it| it.is_inside() && it.end == hole.end);
    threads.find_map(|it| {
        let (thread, _) = it.thread()?;
        (hole_of(part, it) == hole.dia()).then_some(&thread.thread)
    })
}

/// The walls that have a cut on their inner side; else those that have it on their outer one.
fn around<'a>(view: &'a PartView<'_>, index: CutId) -> Vec<&'a Wall> {
    let by = |of: fn(&Wall) -> Origin| {
        let walls = view.reported_walls().iter();
        walls
            .filter(move |wall| of(wall).feature() == Some(index))
            .collect::<Vec<_>>()
    };
    let inner = by(|wall| wall.inner);
    match inner.is_empty() {
        true => by(|wall| wall.outer),
        false => inner,
    }
}
