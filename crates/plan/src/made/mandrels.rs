//! The mandrels of what is still to be done fit what they go into as it came out.

use crate::holding::hold::TailSupport;
use crate::holding::mandrel_set::MandrelSet;
use crate::tools::tool::Tool;
use crate::{Mandrel, MandrelId, Operation, Plan, Work, Workholding, plan_pen};
use quillet_model::{Bench, ById, Pen};

/// Takes the mandrels that the pen as it is made asks for, where they hold the same ends in the same way:
/// what serves two ends as drawn may not as made. One that is done with stays as it is drawn.
pub(super) fn suit(plan: &mut Plan, made: &Pen, bench: Option<&Bench>) {
    let anew = plan_pen(made, bench).mandrels;
    let drawn = std::mem::take(&mut plan.mandrels);
    let mut set = MandrelSet::default();
    for route in plan.routes.iter_mut() {
        let part = route.part.name.text.clone();
        let open = route.operations.iter().filter(|it| it.as_made.is_none());
        let open: Vec<MandrelId> = open.flat_map(uses).collect();
        for operation in &mut route.operations {
            for id in uses_mut(operation) {
                let Some(was) = drawn.get(*id) else {
                    continue;
                };
                let own = was.serves.iter().filter(|it| it.0 == part).cloned();
                let serves: Vec<_> = own.collect();
                let is = as_made(was, &serves, &anew).filter(|_| open.contains(id));
                *id = set.put(Mandrel {
                    serves,
                    ..is.unwrap_or(was).clone()
                });
            }
        }
    }
    plan.mandrels = set.mandrels;
}

/// The mandrel of the made pen's plan that holds one of these ends in the same way.
fn as_made<'m>(
    was: &Mandrel,
    serves: &[(std::sync::Arc<str>, quillet_model::End)],
    anew: &'m ById<MandrelId, Mandrel>,
) -> Option<&'m Mandrel> {
    anew.iter().find(|it| {
        it.kind == was.kind
            && it.thread.is_some() == was.thread.is_some()
            && it.serves.iter().any(|end| serves.contains(end))
    })
}

fn uses(operation: &Operation) -> Vec<MandrelId> {
    let mut operation = operation.clone();
    uses_mut(&mut operation).into_iter().map(|it| *it).collect()
}

/// Each place in which an operation names a mandrel or a plug.
fn uses_mut(operation: &mut Operation) -> Vec<&mut MandrelId> {
    let mut all = Vec::new();
    if let Workholding::Mandrel(mount) = &mut operation.hold {
        all.push(&mut mount.mandrel);
        if let TailSupport::Plug(plug) = &mut mount.tail {
            all.push(plug);
        }
    }
    if let Work::Support { plug } = &mut operation.work {
        all.push(plug);
    }
    if let Some(Tool::Mandrel { which }) = &mut operation.tool {
        all.push(which);
    }
    all
}
