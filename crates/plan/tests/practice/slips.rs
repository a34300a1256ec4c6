//! The simulated lathe itself: a plan with one thing wrong in it does not pass.

use super::*;
use quillet_plan::{MandrelKind, TailSupport, Threading, Workholding};

/// What the lathe says of a part of a plan that was spoilt.
fn said(name: &str, part: &str, spoil: impl FnOnce(&mut Plan, RouteId)) -> String {
    let mut plan = planned(name);
    let at = plan
        .routes
        .position(|it| &*it.part.name.text == part)
        .expect("the part has a route");
    assert!(lathe::carry_out(&plan, &plan.routes[at]).is_empty());
    spoil(&mut plan, at);
    let at = plan
        .routes
        .position(|it| &*it.part.name.text == part)
        .expect("the part has a route");
    lathe::carry_out(&plan, &plan.routes[at]).join("\n")
}

fn place(plan: &Plan, route: RouteId, wanted: impl Fn(&Work) -> bool) -> usize {
    find(&plan.routes[route], wanted).0
}

#[test]
fn a_die_that_meets_its_plug_is_seen() {
    let fat = said("heron", "section", |plan, at| {
        let support = place(plan, at, |it| matches!(it, Work::Support { .. }));
        let Work::Support { plug } = plan.routes[at].operations[support].work else {
            unreachable!()
        };
        plan.mandrels[plug].shank = Length::mm(12.0);
    });
    assert!(fat.contains("the die passes"), "{fat}");
    let long = said("heron", "section", |plan, at| {
        let support = place(plan, at, |it| matches!(it, Work::Support { .. }));
        let Work::Support { plug } = plan.routes[at].operations[support].work else {
            unreachable!()
        };
        plan.mandrels[plug].shank_length = Length::mm(30.0);
    });
    assert!(long.contains("the pin stands out 30"), "{long}");
    let none = said("heron", "section", |plan, at| {
        let support = place(plan, at, |it| matches!(it, Work::Support { .. }));
        plan.routes[at].operations.remove(support);
    });
    assert!(none.contains("nothing is in the thin tenon"), "{none}");
}

#[test]
fn a_grip_on_what_is_no_longer_there_is_seen() {
    let turned = said("heron", "barrel", |plan, at| {
        let tenon = place(plan, at, |it| matches!(it, Work::Turn(_)));
        let operation = &mut plan.routes[at].operations[tenon];
        let Workholding::Collet(grip) = &mut operation.hold else {
            unreachable!()
        };
        (grip.from, grip.to) = (Length::ZERO, Length::mm(20.0));
    });
    assert!(turned.contains("meets the collet"), "{turned}");
    // The centre nub comes off before the outside is turned on it.
    let nub = said("heron", "cap", |plan, at| {
        let rough = place(plan, at, |it| matches!(it, Work::Outside(_)));
        let off = place(plan, at, |it| matches!(it, Work::RemoveNub { .. }));
        let moved = plan.routes[at].operations.remove(off);
        plan.routes[at].operations.insert(rough, moved);
    });
    assert!(nub.contains("the tail centre finds no centre"), "{nub}");
    let bull_nose = said("heron", "section", |plan, at| {
        for it in &mut plan.routes[at].operations {
            if let Workholding::Mandrel(mount) = &mut it.hold
                && matches!(mount.tail, TailSupport::Plug(_))
            {
                mount.tail = TailSupport::BullNose;
            }
        }
    });
    assert!(bull_nose.contains("bruises the thread"), "{bull_nose}");
    let spigot = said("avocet", "cap", |plan, _| {
        let own = |it: &quillet_plan::Mandrel| it.kind == MandrelKind::Male;
        for made in plan.mandrels.iter_mut().filter(|it| own(it)) {
            for spigot in made.front_spigot.iter_mut() {
                spigot.dia += Length::mm(0.5);
            }
        }
    });
    assert!(spigot.contains("no hole takes the spigot"), "{spigot}");
}

#[test]
fn a_single_point_without_time_to_stop_is_seen() {
    for (part, inside, fast) in [
        ("cap", true, 450.0),
        ("barrel", true, 700.0),
        ("barrel", false, 250.0),
    ] {
        let said = said("whimbrel", part, |plan, at| {
            for it in &mut plan.routes[at].operations {
                let Work::Thread(cut) = &it.work else {
                    continue;
                };
                if cut.method == Threading::SinglePoint && cut.inside == inside {
                    it.speed.as_mut().expect("it turns").set_rev_min = Some(fast);
                }
            }
        });
        assert!(said.contains("before it is stopped"), "{part}: {said}");
    }
    let odd = said("heron", "cap", |plan, at| {
        let speed = plan.routes[at]
            .operations
            .iter_mut()
            .find_map(|it| it.speed.as_mut());
        speed.expect("something turns").set_rev_min = Some(1234.0);
    });
    assert!(odd.contains("the lathe does not turn at 1234"), "{odd}");
}

#[test]
fn a_stop_before_its_cuts_or_without_its_mate_is_seen() {
    let early = said("curlew", "section", |plan, at| {
        let stop = plan.routes[at]
            .operations
            .iter()
            .rposition(|it| matches!(it.work, Work::Try(_)))
            .expect("the refill is tried");
        let tip = place(
            plan,
            at,
            |it| matches!(it, Work::Inside(cut) if cut.shape.widest() == Length::mm(2.6)),
        );
        let moved = plan.routes[at].operations.remove(stop);
        plan.routes[at].operations.insert(tip, moved);
    });
    assert!(
        early.contains("a mate was tried before this was cut"),
        "{early}"
    );
    let alone = said("heron", "section", |plan, _| plan.routes.reverse());
    assert!(alone.contains("there is no barrel to try yet"), "{alone}");
    let uncopied = said("heron", "cap", |plan, _| {
        plan.mandrels.iter_mut().for_each(|it| it.copy_of = None);
    });
    assert!(
        uncopied.contains("there is no barrel to try yet"),
        "{uncopied}"
    );
}
