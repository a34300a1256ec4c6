//! How the work is held, plugged and tried.

use super::*;
use quillet_plan::{MandrelKind, Pass, TailSupport, Threading, Workholding};

/// M13x0.8 is 12.02 at its root, M12x0.8 11.02, M10x0.75 9.08: 0.3 under them, to a tenth, pass.
#[test]
fn a_die_passes_over_its_plug() {
    let mut seen = 0;
    for name in SOUND {
        for route in &planned(name).routes {
            for (at, it) in route.operations.iter().enumerate() {
                let Work::Support { plug } = it.work else {
                    continue;
                };
                let plan = planned(name);
                let plug = &plan.mandrels[plug];
                let die = route.operations[at..].iter().find_map(|it| match &it.work {
                    Work::Thread(cut) if cut.method == Threading::Die => Some(cut),
                    _ => None,
                });
                let form = die.expect("a die follows").thread.thread;
                let passes = match form.major().to_mm() {
                    13.0 => 11.7,
                    12.0 => 10.7,
                    10.0 => 8.7,
                    9.0 => 7.7,
                    11.0 => 9.7,
                    other => panic!("{other}"),
                };
                assert!(plug.outside_dia().to_mm() <= passes, "{name}: {plug:?}");
                // What stands out is turned of one thickness, or is hidden by the holder.
                if plug.thread.is_none() {
                    assert!(plug.shank_length < Length::mm(3.0), "{plug:?}");
                }
                seen += 1;
            }
        }
    }
    assert!(seen >= 6, "{seen}");
}

/// A screwed plug that no shoulder can be given is a stud below the face.
#[test]
fn a_plug_that_would_stop_the_die_has_no_head() {
    let plan = planned("avocet");
    let stud = plan.mandrels.iter().find(|it| it.headless);
    for made in plan
        .mandrels
        .iter()
        .filter(|it| it.kind == MandrelKind::Plug)
    {
        assert!(made.headless || made.shank == made.front_spigot.unwrap().dia || made.centred);
    }
    if let Some(stud) = stud {
        assert_eq!(
            (stud.shank_length, stud.outside_dia()),
            (Length::ZERO, Length::ZERO)
        );
    }
}

/// A wall of 1.5 under the thread bears the die by itself: M10x0.75 is 9.08 at its root, 1.54 over
/// a hole of 6.
#[test]
fn a_thick_wall_needs_no_plug() {
    let plugs = |drill: f64| {
        let design = written(&format!(
            "part thing from a to b {{\n  blank of reed rod 16\n  length 30\n  \
             outside {{ at 8 dia 12; at 30 dia 12 }}\n  \
             from a {{ tenon for 8; thread M10x0.75 outside for 6; drill {drill} to 12 }}\n}}\n"
        ));
        let plan = plan_part(
            design.part("thing").unwrap(),
            design.bench(None).map(AsRef::as_ref),
        );
        let works = plan.routes[RouteId::nth(0)].operations.iter();
        works
            .filter(|it| matches!(it.work, Work::Support { .. }))
            .count()
    };
    assert_eq!((plugs(6.0), plugs(6.2)), (0, 1));
}

/// The die of M13x0.8 leaves 2.4 incomplete: the mandrel has that as relief behind its thread, at
/// 12.02 less 0.1, to a tenth.
#[test]
fn a_mandrel_is_relieved_behind_its_thread() {
    let plan = planned("heron");
    let made = plan.mandrels.iter().find(|it| {
        it.kind == MandrelKind::Male
            && it
                .thread
                .as_ref()
                .is_some_and(|it| it.thread.major() == Length::mm(13.0))
    });
    let relief = made.unwrap().relief.unwrap();
    assert_eq!(
        (relief.length, relief.dia),
        (Length::mm(2.4), Length::mm(11.9))
    );
}

/// Avocet's section is 9.6 over an M9 thread: 9.4 would leave a ring of 0.2; half a millimetre asks for
/// a nose of 10, and the last cut may touch that.
#[test]
fn a_female_mandrel_bears_with_a_ring_of_half_a_millimetre() {
    for name in SOUND {
        let plan = planned(name);
        for made in plan
            .mandrels
            .iter()
            .filter(|it| it.kind == MandrelKind::Female)
        {
            let major = made.thread.as_ref().unwrap().thread.major();
            assert!(made.shoulder - major >= Length::mm(1.0), "{name}: {made:?}");
        }
    }
    let plan = planned("avocet");
    let female = plan
        .mandrels
        .iter()
        .find(|it| it.kind == MandrelKind::Female)
        .unwrap();
    assert!(female.shoulder >= Length::mm(10.0) && female.touched);
}

/// Turning stops at the nub's 6 (or 10) and 2; the nub comes off with the tail centre drawn back, and nothing
/// grips it.
#[test]
fn the_nub_stands_until_it_comes_off() {
    for name in SOUND {
        for route in &planned(name).routes {
            let Some(nub) = route.blank.nub else { continue };
            // One that is gripped while two are turned joined is stouter.
            let (dia, length) = if nub.gripped {
                (10.0, 15.0)
            } else {
                (6.0, 6.0)
            };
            assert_eq!((nub.dia, nub.length), (Length::mm(dia), Length::mm(length)));
            let (off, it) = find(route, |work| matches!(work, Work::RemoveNub { .. }));
            let Workholding::Mandrel(mount) = it.hold else {
                panic!("{name}: {:?}", it.hold)
            };
            assert_eq!(mount.tail, TailSupport::Free);
            for it in &route.operations[..off] {
                if let Work::Outside(pass) = &it.work {
                    let core = pass.core.expect("a core is left");
                    assert_eq!((core.dia, core.nub), (Length::mm(dia + 2.0), Some(nub)));
                }
                if let Workholding::Collet(grip) = it.hold {
                    assert!(grip.dia == route.blank.dia);
                }
            }
        }
    }
}

/// A 60° cone on Heron's tip of 8.6 is 8.6 − 1.155 × 1.2 = 7.21 where the thread's 6.9 begins.
#[test]
fn the_tail_centre_touches_no_thread() {
    let plan = planned("heron");
    let plug = route(&plan, "section")
        .operations
        .iter()
        .find_map(|it| match it.hold {
            Workholding::Mandrel(mount) => match mount.tail {
                TailSupport::Plug(plug) => Some(&plan.mandrels[plug]),
                _ => None,
            },
            _ => None,
        });
    let plug = plug.expect("a plug is drawn");
    assert!(plug.centred && plug.thread.is_none());
    assert_eq!(plug.front_spigot.unwrap().dia, Length::mm(8.6));
    assert!(plug.shoulder > Length::mm(8.6));
}

/// Nothing is put anew on the mandrel it sits on.
#[test]
fn the_work_stays_on_the_mandrel_it_sits_on() {
    for name in SOUND {
        for route in &planned(name).routes {
            let mut on = None;
            for it in &route.operations {
                let now = match it.hold {
                    Workholding::Mandrel(mount) => Some((mount.mandrel, mount.end)),
                    _ => None,
                };
                let taken = matches!(it.work, Work::TakeHold);
                assert!(!(taken && now.is_some() && now == on), "{name}: {route:#?}");
                on = now;
            }
        }
    }
}

/// Curlew's refill stands in the section with its tip in the hole that is drilled from the tip.
#[test]
fn a_mate_is_tried_after_all_that_it_touches() {
    let plan = planned("curlew");
    let route = route(&plan, "section");
    let (at, gate) = find(
        route,
        |work| matches!(work, Work::Try(it) if &*it.mate == "refill"),
    );
    let (hole, _) = find(
        route,
        |work| matches!(work, Work::Inside(cut) if cut.shape.widest() == Length::mm(2.6)),
    );
    assert!(hole < at && gate.needs.contains(&hole), "{hole} {at}");
}

/// M10x0.75 is 9.08 at its root: 8.7 passes. A tail centre drawn back is no new holding.
#[test]
fn the_plan_says_what_the_sheet_needs() {
    let plan = planned("heron");
    let plug = plan
        .mandrels
        .iter()
        .find(|it| it.kind == MandrelKind::Plug && !it.centred);
    assert_eq!(plug.unwrap().under_die, Some(Length::mm(8.7)));
    let cap = route(&plan, "cap");
    let holdings = cap.holdings();
    let lathe: Vec<_> = holdings
        .iter()
        .filter(|it| it.hold != Workholding::Bench)
        .collect();
    assert_eq!(lathe.len(), 3);
    assert_eq!(
        holdings.last().unwrap().operations.end,
        cap.operations.len()
    );
    assert_eq!(lathe[1].set_rev_min, Some(700.0));
}

/// The worked example of the document on how a route is found.
#[test]
fn the_worked_example_goes_as_it_is_told() {
    let design = written(
        "part ferrule from mouth to tail {\n  blank of reed rod 18\n  length 30\n  \
         outside { at 0 dia 14; at 24 dia 13; at tail dia 0 dome }\n  \
         from mouth { drill 9.3 to 12; thread M10x0.75 inside to 9 }\n}\n",
    );
    let part = design.part("ferrule").expect("the part is there");
    let plan = plan_part(part, design.bench(None).map(AsRef::as_ref));
    right(&plan);
    let route = &plan.routes[RouteId::nth(0)];
    assert_eq!(route.blank.length(), Length::mm(2.5 + 30.0 + 6.0 + 2.5));
    let short = |it: &Operation| match &it.work {
        Work::Saw { .. } => "saw",
        Work::TakeHold => "hold",
        Work::Face {
            end: End::First, ..
        } => "face mouth",
        Work::Face { .. } => "face nub",
        Work::Centre { in_nub: true, .. } => "centre nub",
        Work::Centre { .. } => "centre mouth",
        Work::Inside(_) => "drill",
        Work::Thread(_) => "tap",
        Work::Outside(it) if it.pass == Pass::Rough => "rough",
        Work::Outside(_) => "turn",
        Work::RemoveNub { .. } => "nub off",
        Work::Polish { .. } => "sand",
        _ => "other",
    };
    let order: Vec<_> = route.operations.iter().map(short).collect();
    let wanted = "saw, hold, face nub, centre nub, hold, face mouth, centre mouth, drill, tap, hold, \
                  rough, turn, nub off, sand";
    assert_eq!(order.join(", "), wanted);
}

/// The land that runs in the mouth is a male's; a female's hole has room for its tap's lead.
#[test]
fn only_a_male_mandrel_has_a_land() {
    use quillet_plan::MandrelStep::{Land, Thread};
    for made in SOUND.iter().flat_map(|name| planned(name).mandrels) {
        let steps = made.steps();
        let male = made.kind == MandrelKind::Male;
        assert_eq!(steps.contains(&Land), male, "{steps:?}");
        assert_eq!(steps.contains(&Thread), made.thread.is_some());
        if made.kind == MandrelKind::Female {
            let beyond = made.bore.unwrap().length - made.thread_length;
            assert!(beyond >= Length::mm(2.0), "{made:?}");
        }
    }
}

/// Beyond an M10x0.75 to 9 the hole is ⌀8.9 as deep as it is drilled, and closes in its point, which takes
/// 2.67 more: of a spigot 8 plain are wanted, so there is none where it is drilled to less than 17.
#[test]
fn a_mandrel_stays_out_of_the_point_of_a_drill() {
    let spigot = |depth: &str| {
        let design = written(&format!(
            "part cap from mouth to crown {{\n blank of reed rod 18\n length 60\n outside dia 14\n from mouth {{\n \
             countersink 10.4\n drill 8.9 to {depth}\n thread M10x0.75 inside to 9\n }}\n}}\n"
        ));
        let plan = plan_part(design.part("cap").unwrap(), None);
        let made = plan.mandrels.iter().find(|it| it.thread.is_some());
        let spigot = made.expect("it is held by its thread").front_spigot;
        spigot.map(|it| (it.dia.to_mm(), it.length.to_mm()))
    };
    assert_eq!(spigot("30"), Some((8.9, 7.0)));
    assert_eq!(spigot("17"), Some((8.9, 7.0)));
    assert_eq!(spigot("16.9"), None);
    assert_eq!(spigot("14.4"), None);
}

/// Godwit's cap closes over its section's grip, on a thread that is cut once the grip is turned: the cap is
/// tried behind thread and relief, the centre drawn back for it; until the pass
/// joined with the barrel the work stays on its mandrel.
#[test]
fn a_cap_is_tried_on_a_thread_that_is_cut_late() {
    let plan = planned("godwit");
    let section = route(&plan, "section");
    let (tried, gate) = find(section, |work| match work {
        Work::Try(gate) => &*gate.mate == "cap",
        _ => false,
    });
    let after = |wanted: &dyn Fn(&Work) -> bool| {
        let last = section.operations.iter().rposition(|it| wanted(&it.work));
        last.expect("there is one")
    };
    assert!(after(&|work| matches!(work, Work::Thread(_))) < tried);
    assert!(after(&|work| matches!(work, Work::Turn(_))) < tried);
    assert!(tried < after(&|work| matches!(work, Work::Polish { .. })));
    let free = |hold: Workholding| match hold {
        Workholding::Mandrel(mount) => mount.tail == TailSupport::Free,
        _ => false,
    };
    assert!(free(gate.hold), "{:?}", gate.hold);
    let joined = after(&|work| matches!(work, Work::Outside(it) if it.pass == Pass::Blend));
    let turned = section.holdings().into_iter();
    let turned = turned
        .filter(|it| it.operations.contains(&tried))
        .collect::<Vec<_>>();
    let (roughed, _) = find(section, |work| matches!(work, Work::Outside(_)));
    assert!(turned[0].operations.contains(&roughed) && turned[0].operations.end == joined);
}

/// The die comes over the ferrule's far end and the cap over the near one: what is tried waits for the thread,
/// off the lathe, for on its mandrel the near end is hidden.
#[test]
fn a_thread_cut_from_the_far_end_is_tried_too() {
    let design = written(
        "part cap from mouth to crown {\n  blank of reed rod 18\n  length 30\n  outside dia 15\n  from mouth {\n    \
         drill 12.2 to 16\n    thread M13x0.8 inside to 8\n  }\n}\n\
         part ferrule from a to b {\n  blank of reed rod 18\n  length 40\n  outside {\n    at 0 dia 11\n    \
         at 4 dia 11 step 12.9\n    at 12 dia 12.9 step 11.4\n    at 40 dia 11.4\n  }\n  from a {\n    \
         drill 8 to 20\n  }\n  from b {\n    thread M13x0.8 outside for 8 at 28\n  }\n}\n\
         pen own {\n  screw ferrule.a into cap.mouth\n}\n",
    );
    let plan = plan_pen(&design.pens[0], design.bench(None).map(AsRef::as_ref));
    let ferrule = route(&plan, "ferrule");
    let (threaded, _) = find(ferrule, |work| matches!(work, Work::Thread(_)));
    let (tried, gate) = find(ferrule, |work| matches!(work, Work::Try(_)));
    assert!(threaded < tried && gate.hold == Workholding::Bench);
}

/// Snipe's clutch is slit from its mouth into the bore: a centre there would be cut into, and spread what is
/// slit. It lies in the cap whole: it is turned to the hole there, and nothing is sanded.
#[test]
fn what_is_slit_from_its_end_is_slit_without_the_centre() {
    let plan = planned("snipe");
    let clutch = route(&plan, "clutch");
    let free = |work: &dyn Fn(&Work) -> bool| {
        let (_, it) = find(clutch, work);
        matches!(it.hold, Workholding::Mandrel(mount) if mount.tail == TailSupport::Free)
    };
    assert!(!free(&|work| matches!(work, Work::Outside(_))));
    assert!(free(&|work| matches!(work, Work::Side { .. })));
    let sanded = |it: &Operation| matches!(it.work, Work::Polish { .. });
    assert!(!clutch.operations.iter().any(sanded));
    let (_, turned) = find(clutch, |work| match work {
        Work::Outside(pass) => pass.over == Length::ZERO,
        _ => false,
    });
    // Drawn 14.4, with 0.1 for the glue: limits of its own would overlap those of the hole.
    let to_the_hole = quillet_plan::Note::ToTheHole {
        drawn: Length::mm(14.4),
        under: Length::mm(0.1),
    };
    assert!(turned.checks.is_empty() && turned.notes.contains(&to_the_hole));
}

/// Of stock no more than 1.0 fatter than the outside nothing is roughed.
#[test]
fn what_is_no_fatter_is_not_roughed() {
    let roughed = |rod: &str| {
        let design = written(&format!(
            "part sleeve from a to b {{\n  blank of reed rod {rod}\n  length 30\n  outside dia 13\n  from a \
             {{\n    drill 8 through\n    thread M9x0.75 inside to 8\n  }}\n}}\n"
        ));
        let part = design.part("sleeve").expect("it is there");
        let plan = plan_part(part, design.bench(None).map(AsRef::as_ref));
        let route = route(&plan, "sleeve");
        let passes = route.operations.iter().filter_map(|it| match &it.work {
            Work::Outside(pass) => Some(pass.over.to_mm()),
            _ => None,
        });
        passes.collect::<Vec<_>>()
    };
    assert_eq!(
        (roughed("14"), roughed("14.5")),
        (vec![0.1], vec![1.0, 0.1])
    );
}
