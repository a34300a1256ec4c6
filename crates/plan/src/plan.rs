//! The plan of a pen, or of a part by itself.

use crate::holding::schedule::MandrelSet;
use crate::route::{Route, route};
use crate::tasks::feature_map::FeatureMap;
use crate::tasks::mate::{Mates, closing_partner, mates};
use crate::tasks::task::BlendPartner;
use crate::tools::bench_tools::BenchTools;
use crate::{Mandrel, MandrelId, OperationRef, Pass, RouteId, Strategy, Work};
use quillet_geometry::Length;
use quillet_model::{Bench, ById, End, JointEnd, Part, PartId, Pen};
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
    let blended = blended_parts(pen, bench_tools);
    let mut plan = Plan::default();
    for index in &order {
        let part = &pen.parts[*index];
        let with = blended.and_then(|[cap, body]| match *index {
            it if it == cap => Some((place(body)?, false)),
            it if it == body => Some((place(cap)?, true)),
            _ => None,
        });
        let with = with.map(|(route, gripped)| BlendPartner { route, gripped });
        plan.routes.extend(route(
            part,
            &mates(pen, *index),
            with,
            bench_tools,
            &mut mandrel_set,
        ));
    }
    plan.join();
    plan.mandrels = mandrel_set.mandrels;
    plan.sequence = plan.in_sequence();
    plan
}

/// Plans one of a pen's parts by itself, as the pen sees it: its mates are known, but it is
/// blended with none of them.
pub fn plan_part_of(pen: &Pen, part: PartId, bench: Option<&Bench>) -> Plan {
    match pen.parts.get(part) {
        Some(it) if !it.is_bought() => plan_each([(it, &mates(pen, part))], bench),
        _ => Plan::default(),
    }
}

/// Plans one part by itself.
pub fn plan_part(part: &Arc<Part>, bench: Option<&Bench>) -> Plan {
    plan_parts(std::slice::from_ref(part), bench)
}

/// Plans parts that are in no pen: mandrels and stock serve them all.
pub fn plan_parts(parts: &[Arc<Part>], bench: Option<&Bench>) -> Plan {
    let mates = Mates::default();
    let cut = parts.iter().filter(|it| !it.is_bought());
    plan_each(cut.map(|part| (part, &mates)), bench)
}

fn plan_each<'a>(
    parts: impl IntoIterator<Item = (&'a Arc<Part>, &'a Mates)>,
    bench: Option<&Bench>,
) -> Plan {
    let mut mandrel_set = MandrelSet::default();
    let routes = parts.into_iter().filter_map(|(part, mates)| {
        route(part, mates, None, BenchTools { bench }, &mut mandrel_set)
    });
    let mut plan = Plan {
        routes: routes.collect(),
        ..Plan::default()
    };
    plan.mandrels = mandrel_set.mandrels;
    plan.sequence = plan.in_sequence();
    plan
}

impl Plan {
    /// A joined pass waits for its mate's own turning: routes are one graph.
    fn join(&mut self) {
        let turned = |route: &Route| {
            let last = |work: &Work| matches!(work, Work::Outside(it) if it.pass == Pass::Finish);
            route.operations.iter().rposition(|it| last(&it.work))
        };
        let turned = self.routes.map(turned);
        for route in self.routes.iter_mut() {
            let Some((at, with)) = route.blend_at() else {
                continue;
            };
            let operation = turned.get(with).copied().flatten();
            route.operations[at].after = operation.map(|operation| OperationRef {
                route: with,
                operation,
            });
        }
    }

    /// Route after route, but a part that is blended waits for its partner.
    fn in_sequence(&self) -> Vec<OperationRef> {
        let mut steps = Vec::new();
        let mut waiting: Vec<(RouteId, usize)> = Vec::new();
        for (route, it) in self.routes.with_ids() {
            let count = it.operations.len();
            let step = move |operation| OperationRef { route, operation };
            let Some((at, with)) = it.blend_at() else {
                steps.extend((0..count).map(step));
                continue;
            };
            steps.extend((0..at).map(step));
            if with > route {
                waiting.push((route, at));
                continue;
            }
            let partner = waiting.iter().position(|it| it.0 == with);
            let partner = partner.map(|index| waiting.remove(index));
            steps.extend(partner.map(|(route, operation)| OperationRef { route, operation }));
            steps.push(step(at));
            if let Some((route, operation)) = partner {
                let count = self.routes[route].operations.len();
                steps.extend(
                    (operation + 1..count).map(|operation| OperationRef { route, operation }),
                );
            }
            steps.extend((at + 1..count).map(step));
        }
        steps
    }
}

impl Route {
    /// Where it is blended, and with which route.
    fn blend_at(&self) -> Option<(usize, RouteId)> {
        self.operations
            .iter()
            .enumerate()
            .find_map(|(at, operation)| match &operation.work {
                Work::Outside(pass) if pass.pass == Pass::Blend => Some((at, pass.with?)),
                _ => None,
            })
    }
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

/// A step between two outsides no higher than this is turned away, on diameter (common practice, no
/// published source).
const TURNED_AWAY: Length = Length::from_nm(200_000);

/// The cap and what it closes on, where the two are turned joined: where they are to be flush, or
/// drawn nearly so, and each keeps a centre nub.
fn blended_parts(pen: &Pen, bench_tools: BenchTools) -> Option<[PartId; 2]> {
    let [(cap, _), (body, _)] = closing_partner(pen)?;
    let nubbed = |id: PartId| {
        let part = pen.parts.get(id).filter(|it| !it.is_bought())?;
        let feature_map = FeatureMap::of(part)?;
        Strategy::of(&feature_map, &mates(pen, id), bench_tools).nub
    };
    let (id, joint) = pen
        .joints
        .with_ids()
        .find(|(_, joint)| joint.verb == Verb::Close)?;
    // The female's outside at its face, and the male's where that face comes to.
    let outside = |side: JointEnd, inward_mm: f64| {
        let part = pen.parts.get(side.part)?;
        let at = part.station(side.end, Length::mm(inward_mm)).to_mm();
        let found = part.profiles.as_ref()?.turned().radii_at(at)?;
        Some(if side.end == End::First {
            found.1
        } else {
            found.0
        })
    };
    let rest = pen.assembly.joints.get(id)?;
    let step = outside(joint.male, rest.goes_in_mm)
        .zip(outside(joint.female, 0.0))
        .map(|(male, female)| Length::mm((male - female).abs() * 2.0));
    let even = joint.flush.is_some() || step.is_some_and(|step| step <= TURNED_AWAY);
    (cap != body && even && nubbed(cap).is_some() && nubbed(body).is_some()).then_some([cap, body])
}
