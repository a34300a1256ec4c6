//! The simulated lathe itself: it does not pass what a lathe would not.

use super::*;
use quillet_plan::Workholding;

fn wrong(plan: &Plan, part: &str, change: impl Fn(&mut Route)) -> Vec<String> {
    let mut changed = route(plan, part).clone();
    change(&mut changed);
    lathe::carry_out(plan, &changed)
}

fn message(found: &[String], what: &str) {
    assert!(
        found.iter().any(|it| it.contains(what)),
        "{what}: {found:#?}"
    );
}

#[test]
fn a_single_point_too_fast_is_noticed() {
    let plan = planned("whimbrel");
    let found = wrong(&plan, "barrel", |route| {
        let at = find(
            route,
            |work| matches!(work, Work::Thread(cut) if !cut.inside),
        )
        .0;
        let speed = route.operations[at].speed.as_mut().unwrap();
        speed.set_rev_min = Some(250.0);
    });
    message(&found, "before it is stopped");
}

#[test]
fn a_plug_fatter_than_the_die_is_noticed() {
    let mut plan = planned("heron");
    for made in plan.mandrels.iter_mut() {
        made.shank = Length::mm(12.0);
        made.headless = false;
    }
    message(&wrong(&plan, "barrel", |_| {}), "the die passes");
}

#[test]
fn a_stop_before_its_cuts_is_noticed() {
    let plan = planned("curlew");
    let found = wrong(&plan, "section", |route| {
        let at = find(
            route,
            |work| matches!(work, Work::Try(it) if &*it.mate == "refill"),
        )
        .0;
        let gate = route.operations.remove(at);
        route.operations.insert(4, gate);
    });
    message(&found, "a mate was tried before this was cut");
}

#[test]
fn a_grip_on_what_is_turned_away_is_noticed() {
    let plan = planned("heron");
    let found = wrong(&plan, "cap", |route| {
        let collet = route.operations.iter().find_map(|it| match it.hold {
            Workholding::Collet(_) => Some(it.hold),
            _ => None,
        });
        let off = find(route, |work| matches!(work, Work::RemoveNub { .. })).0;
        route.operations[off].hold = collet.unwrap();
    });
    message(&found, "no longer stock");
}

#[test]
fn a_joint_face_left_as_sawn_is_noticed() {
    let plan = planned("avocet");
    let found = wrong(&plan, "barrel", |route| {
        let at = find(route, |work| matches!(work, Work::FacePiece(_))).0;
        route.operations.remove(at);
    });
    message(&found, "a joint face is not faced");
}

#[test]
fn a_cone_on_a_thread_is_noticed() {
    let plan = planned("heron");
    let found = wrong(&plan, "section", |route| {
        for it in &mut route.operations {
            if let Workholding::Mandrel(mount) = &mut it.hold
                && mount.tail != quillet_plan::TailSupport::Free
            {
                mount.tail = quillet_plan::TailSupport::BullNose;
            }
        }
    });
    message(&found, "bruises the thread");
}
