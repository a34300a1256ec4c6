//! The plan of a pen, or of a part by itself.

use crate::holding::blend::blends;
use crate::holding::mandrel_set::MandrelSet;
use crate::route::{Route, route};
use crate::tasks::as_one::Extent;
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::lining::map_of;
use crate::tasks::mate::{Mates, mates};
use crate::tasks::task::BlendPartner;
use crate::tools::bench_tools::BenchTools;
use crate::works::{extent, told_of, work_of, work_route, works};
use crate::{Mandrel, MandrelId, OperationRef, RouteId};
use quillet_model::{Bench, ById, Part, PartId, Pen};
use quillet_syntax::ast::Verb;
use std::collections::BTreeSet;
use std::sync::Arc;

/// How a pen's parts are made.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    /// A route for each part that is cut, females first, males to suit.
    pub routes: ById<RouteId, Route>,
    /// All steps in order; a part may wait while it is blended with another.
    pub sequence: Vec<OperationRef>,
    /// The mandrels and plugs to make, each once.
    pub mandrels: ById<MandrelId, Mandrel>,
}

/// Plans all parts of a pen that are cut. Without a bench nothing is assumed owned.
pub fn plan_pen(pen: &Pen, bench: Option<&Bench>) -> Plan {
    let bench_tools = BenchTools { bench };
    let mut mandrel_set = MandrelSet::default();
    // Of what is not known there is no route.
    let known = |part: &PartId| pen.parts[*part].lacks_making().is_none();
    let order: Vec<PartId> = making_order(pen).into_iter().filter(known).collect();
    let place = |part: PartId| order.iter().position(|it| *it == part).map(RouteId::nth);
    let works = works(pen);
    let blends = blends(pen, &works, bench_tools);
    let mut plan = Plan::default();
    for index in &order {
        let part = &pen.parts[*index];
        let with = blends.iter().find_map(|blend| {
            Some(BlendPartner {
                route: place(blend.partner(*index)?)?,
                gripped: blend.gripped == *index,
                goes_in: blend.goes_in,
            })
        });
        let work = work_of(&works, *index);
        let extent = extent(pen, work, *index, with, bench_tools);
        let route = |map| {
            let mates = mates(pen, *index);
            let route = route(part, map, &mates, extent, bench_tools, &mut mandrel_set);
            Route {
                outside_in: work.map(|it| it.part.name.text.clone()),
                ..route
            }
        };
        plan.routes.extend(map_of(pen, *index).map(route));
    }
    for work in &works {
        let made = work_route(pen, work, bench_tools, &mut mandrel_set);
        plan.routes.extend(made);
    }
    plan.join();
    plan.mandrels = mandrel_set.mandrels;
    plan.sequence = plan.in_sequence();
    plan
}

/// Plans one of a pen's parts by itself, as the pen sees it: its mates are known, but it is
/// blended with none of them.
pub fn plan_part_of(pen: &Pen, part: PartId, bench: Option<&Bench>) -> Plan {
    let Some(it) = pen.parts.get(part).filter(|it| !it.is_bought()) else {
        return Plan::default();
    };
    let bench_tools = BenchTools { bench };
    let mut mandrel_set = MandrelSet::default();
    let works = works(pen);
    let work = work_of(&works, part);
    let extent = extent(pen, work, part, None, bench_tools);
    let known = map_of(pen, part).map(|map| (it, map, extent));
    let mut plan = plan_each(known, &mates(pen, part), bench_tools, &mut mandrel_set);
    if let Some(route) = plan.routes.iter_mut().next()
        && let Some(work) = work
        && let Some(made) = work_route(pen, work, bench_tools, &mut mandrel_set)
    {
        let told = made.problems.iter();
        let told = told.filter_map(|it| told_of(pen, work, part, it));
        route.problems.extend(told);
    }
    plan.mandrels = mandrel_set.mandrels;
    plan
}

/// Plans one part by itself.
pub fn plan_part(part: &Arc<Part>, bench: Option<&Bench>) -> Plan {
    plan_parts(std::slice::from_ref(part), bench)
}

/// Plans parts that are in no pen: mandrels and stock serve them all.
pub fn plan_parts(parts: &[Arc<Part>], bench: Option<&Bench>) -> Plan {
    let mates = Mates::default();
    let cut = parts.iter().filter(|it| !it.is_bought());
    let known = cut.filter_map(|part| Some((part, FeatureMap::of(part)?, Extent::Whole(None))));
    let mut mandrel_set = MandrelSet::default();
    let mut plan = plan_each(known, &mates, BenchTools { bench }, &mut mandrel_set);
    plan.mandrels = mandrel_set.mandrels;
    plan
}

/// The routes of parts, whose mandrels are added to the set.
fn plan_each<'a>(
    parts: impl IntoIterator<Item = (&'a Arc<Part>, FeatureMap<'a>, Extent)>,
    mates: &Mates,
    bench_tools: BenchTools,
    mandrel_set: &mut MandrelSet,
) -> Plan {
    let routes = parts
        .into_iter()
        .map(|(part, map, extent)| route(part, map, mates, extent, bench_tools, mandrel_set));
    let mut plan = Plan {
        routes: routes.collect(),
        ..Plan::default()
    };
    plan.sequence = plan.in_sequence();
    plan
}

/// The parts that are cut: what receives before what goes in, else as written.
fn making_order(pen: &Pen) -> Vec<PartId> {
    let cut = pen.parts.ids().filter(|it| !pen.parts[*it].is_bought());
    let mut left: BTreeSet<PartId> = cut.collect();
    // What each part receives, and how many still have to be made before a part.
    let mut received: ById<PartId, Vec<PartId>> = pen.parts.map(|_| Vec::new());
    let mut before = pen.parts.map(|_| 0_usize);
    for joint in &pen.joints {
        let (male, female) = (joint.male.part, joint.female.part);
        let counts = !matches!(joint.verb, Verb::Post | Verb::Rest) && male != female;
        if counts && left.contains(&male) && left.contains(&female) {
            received[female].push(male);
            before[male] += 1;
        }
    }
    let mut ready: BTreeSet<PartId> = left.iter().copied().filter(|it| before[*it] == 0).collect();
    let mut order = Vec::new();
    // Parts that go into each other in a circle are taken as written.
    while let Some(next) = ready.first().or(left.first()).copied() {
        ready.remove(&next);
        left.remove(&next);
        order.push(next);
        for male in &received[next] {
            before[*male] -= 1;
            if before[*male] == 0 && left.contains(male) {
                ready.insert(*male);
            }
        }
    }
    order
}
