//! What is turned joined, and how the two are held.

use super::*;
use quillet_plan::{Pass, TailSupport, Workholding};

/// The Heron with its cap flush on the barrel.
fn flush() -> Plan {
    let heron = include_str!("../../../../examples/heron.quillet");
    let text = heron.replace("dia 14.4  as shoulder", "dia 15.2 as shoulder");
    let design = design(
        "flush.quillet",
        &[&[("flush.quillet", &*text)][..], &SHARED[..]].concat(),
    );
    plan_pen(
        design.pen("heron").expect("the pen is there"),
        design.bench(None).map(AsRef::as_ref),
    )
}

/// Heron's barrel is 0.8 below its cap: nothing is turned joined.
#[test]
fn only_what_is_flush_is_turned_joined() {
    let joined = |plan: &Plan| {
        let all = plan.routes.iter().flat_map(|it| &it.operations);
        all.filter(|it| matches!(&it.work, Work::Outside(it) if it.pass == Pass::Blend))
            .count()
    };
    assert_eq!(joined(&planned("heron")), 0);
    assert_eq!(joined(&flush()), 2);
}

/// Where two parts are turned joined, the tail's nub is gripped and long enough for it, and neither
/// route goes on before the mate is turned.
#[test]
fn a_joined_pass_waits_for_both_turnings() {
    let plan = flush();
    right(&plan);
    assert_eq!(
        plan.sequence.len(),
        plan.routes
            .iter()
            .map(|it| it.operations.len())
            .sum::<usize>()
    );
    for name in ["cap", "barrel"] {
        let route = route(&plan, name);
        let gripped = name == "barrel";
        let nub = route.blank.nub.unwrap();
        let size = if gripped { (10.0, 15.0) } else { (6.0, 6.0) };
        assert_eq!((nub.dia.to_mm(), nub.length.to_mm()), size, "{name}");
        let (_, it) = find(
            route,
            |work| matches!(work, Work::Outside(it) if it.pass == Pass::Blend),
        );
        assert_eq!(
            it.hold,
            Workholding::Joined {
                collet: Length::mm(10.0),
                tail: TailSupport::Centre,
            }
        );
        let after = it.after.unwrap();
        assert_ne!(&*plan.routes[after.route].part.name.text, name);
        let before = &plan.routes[after.route].operations[after.operation].work;
        assert!(matches!(before, Work::Outside(it) if it.pass == Pass::Finish));
        let place =
            |wanted: quillet_plan::OperationRef| plan.sequence.iter().position(|it| *it == wanted);
        let own = plan
            .routes
            .position(|it| it.part.name.text.as_ref() == name)
            .unwrap();
        let (at, _) = find(
            route,
            |work| matches!(work, Work::Outside(it) if it.pass == Pass::Blend),
        );
        let here = place(quillet_plan::OperationRef {
            route: own,
            operation: at,
        });
        assert!(place(after) < here);
    }
}

/// A section has no nub: the barrel's is gripped, and the tail centre stands in the mouth of the section's tip,
/// as while the section alone was turned. Godwit's two are to be flush.
#[test]
fn a_section_that_is_flush_is_turned_on_its_barrel() {
    let plan = planned("godwit");
    right(&plan);
    let mut tails = Vec::new();
    for (name, mate) in [("section", "barrel"), ("barrel", "section")] {
        let (at, it) = find(
            route(&plan, name),
            |work| matches!(work, Work::Outside(it) if it.pass == Pass::Blend),
        );
        let Workholding::Joined { collet, tail } = it.hold else {
            panic!("{name}: {:?}", it.hold)
        };
        assert_eq!(collet, Length::mm(10.0));
        let bench = quillet_plan::ToolList::of(&plan, None);
        let grips = quillet_plan::Tool::Collet { dia: collet };
        assert!(
            bench.tools.iter().any(|it| it.tool == grips),
            "it is laid out"
        );
        tails.push(tail);
        let after = it.after.expect("it waits for its mate");
        assert_eq!(&*plan.routes[after.route].part.name.text, mate);
        let own = &route(&plan, name).operations;
        let finished = |it: &quillet_plan::Operation| matches!(&it.work, Work::Outside(it) if it.pass == Pass::Finish);
        assert!(own[..at].iter().any(finished), "{name}");
    }
    let alone = route(&plan, "section")
        .operations
        .iter()
        .find_map(|it| match it.hold {
            Workholding::Mandrel(mount) => Some(mount.tail).filter(|it| *it != TailSupport::Free),
            _ => None,
        });
    assert_eq!(tails, [alone.unwrap(); 2]);
    // Sanded as one, the nub still standing; its end is sanded when it is off.
    for (name, rest) in [("section", 0), ("barrel", 1)] {
        let own = &route(&plan, name).operations;
        let sanded = own
            .iter()
            .position(|it| matches!(it.work, Work::Polish { .. }));
        let sanded = sanded.expect("it is sanded");
        assert!(matches!(own[sanded].hold, Workholding::Joined { tail, .. } if tail == tails[0]));
        let after = own[sanded + 1..].iter();
        let after = after.filter(|it| !matches!(it.work, Work::TakeHold));
        assert_eq!(after.clone().count(), rest, "{name}");
        let over = Length::ZERO;
        let off = |it: &quillet_plan::Operation| matches!(it.work, Work::RemoveNub { over: left, .. } if left == over);
        assert!(after.into_iter().all(off), "{name}");
    }
    let nub = route(&plan, "barrel").blank.nub.expect("it has a nub");
    assert!(nub.gripped && nub.dia == Length::mm(10.0));
}

/// Godwit's barrel and section are each turned and sanded while they are joined: four steps in a row.
#[test]
fn neither_is_taken_off_the_other_before_both_are_sanded() {
    let plan = planned("godwit");
    let both: Vec<bool> = plan
        .sequence
        .iter()
        .map(|it| {
            matches!(
                plan.routes[it.route].operations[it.operation].hold,
                Workholding::Joined { .. }
            )
        })
        .collect();
    let first = both.iter().position(|it| *it).expect("they are joined");
    assert_eq!(both[first..].iter().take_while(|it| **it).count(), 4);
    assert_eq!(both.iter().filter(|it| **it).count(), 4);
}

/// What is not said to be flush, and is drawn with a step, is left alone.
#[test]
fn without_flush_a_step_keeps_two_parts_apart() {
    let godwit = include_str!("../../../../examples/godwit.quillet");
    let joined = |text: &str| {
        let design = design(
            "own.quillet",
            &[&[("own.quillet", text)][..], &SHARED[..]].concat(),
        );
        let bench = design.bench(None).map(AsRef::as_ref);
        let plan = plan_pen(design.pen("godwit").expect("the pen is there"), bench);
        let all = plan.routes.iter().flat_map(|it| it.operations.iter());
        all.filter(|it| matches!(it.hold, Workholding::Joined { .. }))
            .count()
    };
    let stepped = godwit
        .replace("    flush\n", "    want turns within 0..99\n")
        .replace("step 13.6 as shoulder", "step 13.2 as shoulder")
        .replace("at 34.5         dia 13.6", "at 34.5         dia 13.2");
    assert_eq!((joined(godwit), joined(&stepped)), (4, 0));
}
