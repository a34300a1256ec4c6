//! What a route tells its maker: what the calipers must read, what to count, which hold to take.

mod figures;

use super::*;

/// ISO 286-2 at 10: H7 is +0.015 to 0, g6 −0.005 to −0.014, p6 +0.024 to +0.015.
#[test]
fn a_fit_sets_what_the_calipers_must_read() {
    let text = |joint: &str| {
        format!(
            "use \"saltings.quillet\"\n\
             part ring from front to back {{\n  blank of chalk rod 16\n  length 4\n  outside dia 13\n  \
             from front {{ ream 10 through }}\n}}\n\
             part barrel from mouth to tail {{\n  blank of chalk rod 16\n  length 40\n  \
             outside {{ at 0 dia 13; at 40 dia 12 }}\n  from mouth {{ tenon 10 for 5; chamfer 0.5 }}\n}}\n\
             pen plain {{\n  {joint}\n}}\n"
        )
    };
    let limits = |joint: &str| {
        let text = text(joint);
        let design = design(
            "fit.quillet",
            &[&[("fit.quillet", &*text)][..], &SHARED[..]].concat(),
        );
        let plan = plan_pen(&design.pens[0], design.bench(None).map(AsRef::as_ref));
        let of = |name: &str, dia: f64| {
            let route = plan
                .routes
                .iter()
                .find(|it| &*it.part.name.text == name)
                .unwrap();
            let from = quillet_model::End::First;
            let table = caliper_table(&route.part, &route.asked, from, Length::mm(2.0)).unwrap();
            let outside = table.rows.iter().filter_map(|it| it.asked);
            let holes = table.holes.iter().map(|it| it.class);
            let in_table: Vec<_> = outside.chain(holes).map(|it| it.limits).collect();
            let checks = route.operations.iter().flat_map(|it| &it.checks);
            let dia = Length::mm(dia);
            let mut checks = checks.filter(|it| {
                it.nominal == dia && !matches!(it.what, quillet_plan::Measured::Depth { .. })
            });
            let checked = checks.next().unwrap().limits;
            assert!(
                in_table.iter().all(|it| *it == checked),
                "{name}: {in_table:?}"
            );
            (
                !in_table.is_empty(),
                checked.min().to_mm(),
                checked.max().to_mm(),
            )
        };
        (of("ring", 10.0), of("barrel", 10.0))
    };
    let slips = limits("slip ring.back onto barrel.mouth fit H7/g6");
    assert_eq!(slips, ((true, 10.0, 10.015), (true, 9.986, 9.995)));
    let pressed = limits("press ring.back onto barrel.mouth fit H7/p6");
    assert_eq!(pressed, ((true, 10.0, 10.015), (true, 10.015, 10.024)));
    // Nothing asked: ISO 2768-1 fine, 0.1 either way over 6 to 30, and no limits in the table.
    let plain = limits("glue ring.back onto barrel.mouth");
    assert_eq!(plain, ((false, 9.9, 10.1), (false, 9.9, 10.1)));
}

/// By hand: the cap's thread begins 2.5 deep; the barrel's ends 6.5 deep when its shoulder bears,
/// 4.0 of travel over a lead of 2.4. Its mandrel's thread ends a pitch of 0.8 before the cap's does,
/// 6.7 deep: 4.2 of travel.
#[test]
fn a_stop_says_what_to_count_and_what_to_see() {
    use quillet_plan::Home;
    let design = heron();
    let plan = plan_pen(
        design.pen("heron").unwrap(),
        design.bench(None).map(AsRef::as_ref),
    );
    let gates = plan.routes.iter().flat_map(|route| {
        let works = route.operations.iter().map(|it| &it.work);
        let name = &*route.part.name.text;
        works.filter_map(move |it| match it {
            Work::Try(gate) => Some((name, gate)),
            _ => None,
        })
    });
    let gates: Vec<_> = gates.collect();
    let gate = |part: &str, mate: &str| {
        let found = gates.iter().find(|it| it.0 == part && &*it.1.mate == mate);
        found
            .unwrap_or_else(|| panic!("{part} is tried with {mate}"))
            .1
    };
    let near = |found: Option<f64>, wanted: f64| {
        let found = found.expect("it is threaded");
        assert!((found - wanted).abs() < 1e-6, "{found}, {wanted}");
    };
    let cap = gate("cap", "barrel");
    near(cap.turns, 4.2 / 2.4);
    assert!(cap.copy && cap.home == Some(Home::Shoulder));
    let barrel = gate("barrel", "cap");
    near(barrel.turns, 4.0 / 2.4);
    let Some(Home::Bears { own, mate }) = &barrel.home else {
        panic!("{barrel:?}")
    };
    assert_eq!(
        (&*own.part, own.face.as_deref()),
        ("barrel", Some("shoulder"))
    );
    assert_eq!((&*mate.part, mate.face.as_deref()), ("cap", Some("mouth")));
    // The barrel's begins where its countersink is as wide as the crests: (10.4 − 9.3) / 2 deep; its
    // mandrel's thread is a pitch shorter than the 9 it goes into.
    near(gate("barrel", "section").turns, (8.25 - 0.55) / 0.75);
    // As many as the joint itself is worked out to take.
    let joint = &design.pen("heron").unwrap().assembly.joints[quillet_model::JointId::nth(2)];
    near(
        gate("section", "barrel").turns,
        joint.engagements[0].turns(),
    );
    let housing = gate("section", "nib-unit");
    // The unit's thread ends 30.7 − 22.5 = 8.2 deep, and the section's begins behind its mouth
    // bore of 1.2: 7.0 over a lead of 0.5.
    near(housing.turns, 14.0);
    assert!(housing.bought && !housing.goes_in);
}

/// A left-hand thread is unscrewed by the cut in forward rotation: another hold is found where
/// there is one, and what is left says so.
#[test]
fn a_left_hand_thread_holds_nothing_that_can_be_held_otherwise() {
    let text = |joint: &str, tail: &str| {
        format!(
            "use \"saltings.quillet\"\npart piece from mouth to tail {{\n  blank of reed rod 18\n  \
             length 40\n  outside {{ at 0 dia 14; at 40 dia 13 }}\n  from mouth {{ drill 9 to 14; \
             thread {joint} inside to 10 }}\n  {tail}\n}}\n"
        )
    };
    let route = |joint: &str, tail: &str| {
        let text = text(joint, tail);
        let design = design(
            "left.quillet",
            &[&[("left.quillet", &*text)][..], &SHARED[..]].concat(),
        );
        let plan = plan_part(
            design.part("piece").unwrap(),
            design.bench(None).map(AsRef::as_ref),
        );
        right(&plan);
        let notes = plan.routes[RouteId::nth(0)]
            .operations
            .iter()
            .flat_map(|it| &it.notes);
        let unscrews = notes
            .filter(|it| **it == quillet_plan::Note::LeftHandUnscrews)
            .count();
        (plan.routes[RouteId::nth(0)].strategy.mandrel, unscrews)
    };
    use quillet_model::End;
    use quillet_plan::MandrelKind;
    let right_hand = (End::First, MandrelKind::Male);
    assert_eq!(route("M10x1", "").0, Some(right_hand));
    // Nothing is cut at the tail: it is turned whole, from a stub beyond it.
    assert_eq!(route("M10x1-LH", ""), (None, 0));
    // A right-hand thread at the tail, though its own mate would come second.
    let tail = "from tail { drill 8.3 to 12; thread M9x0.75 inside to 9 }";
    assert_eq!(
        route("M10x1-LH", tail),
        (Some((End::Second, MandrelKind::Male)), 0)
    );
    // Two of them: the mandrel is all there is, and mounting it says so.
    let tail = "from tail { drill 8.3 to 12; thread M9x0.75-LH inside to 9 }";
    let (mandrel, unscrews) = route("M10x1-LH", tail);
    assert!(mandrel.is_some() && unscrews > 0, "{unscrews}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_part_comes_out_as_designed(text in generated::part()) {
        let design = design("any.quillet", &[&[("any.quillet", &*text)][..], &SHARED[..]].concat());
        for part in design.parts.iter().filter(|it| !it.is_bought()) {
            for bench in [None, design.bench(None).map(AsRef::as_ref)] {
                let plan = plan_part(part, bench);
                for route in &plan.routes {
                    let wrong = lathe::carry_out(&plan, route);
                    prop_assert!(wrong.is_empty(), "{text}\n{wrong:#?}\n{}", listed(&plan, route));
                }
            }
        }
    }
}
