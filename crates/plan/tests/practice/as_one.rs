//! Parts that are joined before they are turned, of which more than one has an outside.

use super::*;
use quillet_plan::{Note, Pass};

/// Oak over brass: bush and tube lie within the barrel, the plug stands out of its tail.
const LAPWING: &str = include_str!("../../../fixture/more-pens/lapwing.quillet");

fn lapwing() -> Design {
    let bought = include_str!("../../../fixture/more-pens/bought.quillet");
    let text = LAPWING.replace("../../../examples/", "");
    design(
        "lapwing.quillet",
        &[
            ("lapwing.quillet", &*text),
            ("bought.quillet", bought),
            SHARED[0],
        ],
    )
}

fn at(route: &Route, wanted: impl Fn(&Work) -> bool) -> usize {
    find(route, wanted).0
}

fn turned(route: &Route) -> bool {
    let mut all = route.operations.iter();
    all.any(|it| matches!(it.work, Work::Outside(_) | Work::Polish { .. }))
}

/// Barrel and plug are cut but for their outside; then they are glued and that is turned as one, held by the bush's
/// thread and the plug's nub, and sanded and lacquered as one: 0.1 under what is written, since the coat
/// brings that.
#[test]
fn what_stands_out_is_turned_with_what_it_is_glued_into() {
    let design = lapwing();
    let pen = design.pen("lapwing").unwrap();
    let plan = plan_pen(pen, design.bench(None).map(AsRef::as_ref));
    right(&plan);
    for part in ["barrel", "plug"] {
        let own = route(&plan, part);
        assert!(!turned(own), "{}", listed(&plan, own));
        assert_eq!(own.outside_in.as_deref(), Some("barrel with plug"));
    }
    let work = route(&plan, "barrel with plug");
    assert_eq!(work.part.length, Length::mm(80.0));
    let glued = at(
        work,
        |it| matches!(it, Work::JoinIn(it) if &*it.part == "plug"),
    );
    let Work::JoinIn(joined) = &work.operations[glued].work else {
        unreachable!("it was found as one")
    };
    let to = joined.at.as_ref().expect("it is joined to the barrel");
    assert_eq!((&*to.part, &*to.end, to.over), ("barrel", "tail", false));
    let finished = at(
        work,
        |it| matches!(it, Work::Outside(pass) if pass.pass == Pass::Finish),
    );
    assert!(glued < finished);
    let pass = &work.operations[finished];
    let under = Length::mm(0.1);
    assert!(pass.notes.contains(&Note::UnderCoat { under }), "{pass:?}");
    let Work::Outside(spans) = &pass.work else {
        unreachable!("it was found as one")
    };
    assert_eq!(spans.spans, [(Length::ZERO, Length::mm(80.0))]);
    let nub_off = at(work, |it| matches!(it, Work::RemoveNub { .. }));
    let polished = at(work, |it| matches!(it, Work::Polish { .. }));
    assert!(finished < nub_off && nub_off < polished);
}

/// One table from one datum: the mouth's 15, 14.6 at 30, and 12.6 on both sides of the seam at 74, each 0.1
/// less for the coat.
#[test]
fn one_caliper_table_goes_over_the_seam() {
    let design = lapwing();
    let plan = plan_pen(design.pen("lapwing").unwrap(), None);
    let work = route(&plan, "barrel with plug");
    let table = caliper_table(&work.part, &work.asked, End::First, Length::mm(5.0)).unwrap();
    let dia = |at: f64| {
        let near = |it: &&quillet_plan::CaliperRow| (it.at.to_mm() - at).abs() < 1e-6;
        let row = table.rows.iter().find(near).expect("a row stands there");
        [row.before.to_mm(), row.after.to_mm()]
    };
    for (at, wanted) in [(0.0, 14.9), (30.0, 14.5), (74.0, 12.5)] {
        for found in dia(at) {
            near(found, wanted);
        }
    }
    assert!(table.rows.iter().all(|it| !it.finished));
}

/// All of it in one sequence, each part made before it is glued.
#[test]
fn the_work_waits_for_its_parts() {
    let design = lapwing();
    let plan = plan_pen(design.pen("lapwing").unwrap(), None);
    let place = |part: &str, last: bool| {
        let own = plan
            .routes
            .iter()
            .position(|it| &*it.part.name.text == part);
        let of = |it: &quillet_plan::OperationRef| Some(quillet_model::Id::index(it.route)) == own;
        let found = match last {
            true => plan.sequence.iter().rposition(of),
            false => plan.sequence.iter().position(of),
        };
        found.expect("it is a step")
    };
    for part in ["barrel", "bush", "tube", "plug"] {
        assert!(
            place(part, true) < place("barrel with plug", false),
            "{part}"
        );
    }
    let steps: usize = plan.routes.iter().map(|it| it.operations.len()).sum();
    assert_eq!(plan.sequence.len(), steps);
}

/// A band over the tenon of a cap's mouth: the cap carries it, and its face is faced with the cap's.
#[test]
fn a_band_is_turned_with_the_cap_it_goes_over() {
    let design = written(
        "part cap from mouth to crown {\n blank of reed rod 18\n length 60\n outside {\n at 6 dia 15 as shoulder\n \
         at 56 dia 14\n at crown dia 0 dome\n }\n from mouth {\n tenon 13.9 for 6\n drill 12.2 to 46\n \
         thread M13x0.8 starts 3 inside to 5\n }\n}\npart band from front to back {\n blank of brass rod 18\n \
         length 6\n outside {\n at 0 dia 15\n at back dia 15\n }\n from front {\n ream 14 through\n }\n}\n\
         pen sketch {\n glue cap.mouth into band.back by 6 gap 0.1 before turning\n}\n",
    );
    let pen = design.pen("sketch").unwrap();
    let told: Vec<_> = design.findings.iter().map(|it| &it.rule).collect();
    assert!(!told.iter().any(|it| **it == "not-reckoned"), "{told:?}");
    for bench in [None, design.bench(None).map(AsRef::as_ref)] {
        let plan = plan_pen(pen, bench);
        right(&plan);
        let work = route(&plan, "cap with band");
        let joined = find(work, |it| matches!(it, Work::JoinIn(_))).1;
        let Work::JoinIn(joined) = &joined.work else {
            unreachable!("it was found as one")
        };
        assert!(
            joined
                .at
                .as_ref()
                .is_some_and(|it| it.over && &*it.end == "mouth")
        );
        assert!(turned(work) && !turned(route(&plan, "band")));
    }
}

/// A ring of brass is held between a barrel and its plug: it is glued over the plug's tenon, then that into the
/// barrel, and all three outsides are turned in one route of 60 + 3 + 19 mm.
#[test]
fn what_two_parts_hold_between_them_is_turned_with_both() {
    let text = "use \"saltings.quillet\"\n\
        part barrel from mouth to tail {\n  blank of reed rod 18\n  length 60\n  outside dia 14\n\
        from mouth {\n    drill 9.3 to 12\n    thread M10x0.75 inside to 9\n    drill 6 to 30\n  }\n\
        from tail {\n    bore 8.6 to 9\n  }\n}\n\
        part ring from front to back {\n  blank of brass rod 18\n  length 3\n  outside dia 14\n\
        from front {\n    bore 8.6 through\n  }\n}\n\
        part plug from shank to end {\n  blank of wrack rod 17\n  length 30\n  outside {\n\
        at 11 dia 14\n    at end dia 12 smooth\n  }\n  from shank {\n    tenon 8.5 for 11\n  }\n}\n\
        pen any {\n  glue plug.shank into barrel.tail through ring gap 0.1 before turning\n}\n";
    let design = design("ringed.quillet", &[("ringed.quillet", text), SHARED[0]]);
    let told: Vec<_> = design.findings.iter().map(|it| it.rule).collect();
    assert!(told.is_empty(), "{told:?}");
    let plan = plan_pen(
        design.pen("any").unwrap(),
        design.bench(None).map(AsRef::as_ref),
    );
    right(&plan);
    for part in ["barrel", "ring", "plug"] {
        let own = route(&plan, part);
        assert!(!turned(own), "{}", listed(&plan, own));
    }
    let work = route(&plan, "barrel with ring and plug");
    assert_eq!(work.part.length, Length::mm(82.0));
    let joined = work.operations.iter().filter_map(|it| match &it.work {
        Work::JoinIn(it) => it.at.as_ref().map(|at| (&*it.part, &*at.part, at.over)),
        _ => None,
    });
    let joined: Vec<_> = joined.collect();
    assert_eq!(joined, [("ring", "plug", true), ("plug", "barrel", false)]);
}
