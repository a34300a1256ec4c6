//! Speeds, depths and what the calipers can read.

use super::*;
use quillet_plan::{InsideShape, Measured, Note, Threading};

/// 60·w / (lead·t), w less a quarter of the pitch: 60 × 4.8 / (1.6 × 1) = 180 and, unseen,
/// 60 × 1.375 / (0.5 × 2) = 82.5; the lathe's next steps below are 120 and 60.
#[test]
fn a_single_point_leaves_time_to_stop() {
    let plan = planned("whimbrel");
    let of = |part: &str, inside: bool, major: f64| {
        let it = find(route(&plan, part), |work| match work {
            Work::Thread(cut) => {
                cut.method == Threading::SinglePoint
                    && cut.inside == inside
                    && cut.thread.thread.major() == Length::mm(major)
            }
            _ => false,
        });
        let time = it.1.single_point.expect("it is cut by a single point");
        (
            time.most_rev_min,
            it.1.speed.as_ref().and_then(|it| it.set_rev_min),
        )
    };
    let (most, set) = of("barrel", false, 14.0);
    near(most, 180.0);
    assert_eq!(set, Some(120.0));
    let (most, set) = of("section", true, 7.4);
    near(most, 82.5);
    assert_eq!(set, Some(60.0));
    // Inside the point goes on cutting: no further than e of DIN 76-1, 4.2 at a pitch of 0.8 and 4.0 at
    // 0.75, though the hole goes on or opens: 60 × (4.2 − 0.2) / (1.6 × 2) and 60 × (4 − 0.1875) /
    // (0.75 × 2), left-handed too.
    let (most, set) = of("cap", true, 14.0);
    near(most, 75.0);
    assert_eq!(set, Some(60.0));
    let (most, set) = of("barrel", true, 9.0);
    near(most, 152.5);
    assert_eq!(set, Some(120.0));
}

/// Where even the slowest step leaves no time, the crank does it.
#[test]
fn a_thread_without_run_out_is_turned_by_the_crank() {
    let design = written(
        "bench geared { lathe 250, 900 screwcutting }\npart thing from a to b {\n  \
         blank of reed rod 18\n  length 40\n  outside { at 0 dia 12; at 40 dia 12 }\n  \
         from a { drill 9 to 8.2; thread M10x1 inside to 8 }\n}\n",
    );
    let bench = design.benches.iter().find(|it| &*it.name.text == "geared");
    let plan = plan_part(design.part("thing").unwrap(), bench.map(AsRef::as_ref));
    let (_, it) = find(&plan.routes[RouteId::nth(0)], |work| {
        matches!(work, Work::Thread(_))
    });
    assert!(
        it.speed.is_none() && it.notes.contains(&Note::ByCrank),
        "{it:?}"
    );
}

/// Acrylic is drilled at 15 to 45 m/min: 26 in the middle, 678 rev/min on ⌀12.2, 889 on ⌀9.3.
#[test]
fn a_holding_has_one_speed_of_the_lathes_own() {
    let plan = planned("heron");
    for (part, wanted) in [("cap", 700.0), ("barrel", 1100.0), ("section", 1100.0)] {
        let drills = route(&plan, part).operations.iter().filter(|it| {
            matches!(&it.work, Work::Inside(cut) if matches!(cut.shape, InsideShape::Drill { .. }))
        });
        for it in drills {
            let set = it.speed.as_ref().and_then(|it| it.set_rev_min);
            assert_eq!(set, Some(wanted), "{part}: {:?}", it.work);
        }
    }
    for name in SOUND {
        for route in &planned(name).routes {
            for it in route.operations.iter().filter_map(|it| it.speed.as_ref()) {
                let set = it.set_rev_min.expect("the lathe is known");
                let own = it
                    .settings_rev_min
                    .iter()
                    .any(|(a, b)| *a <= set && set <= *b);
                assert!(own, "{name}: {it:?}");
            }
        }
    }
}

/// The facing that makes the length says it, whichever end that is; the one before says how far to
/// go.
#[test]
fn the_length_over_all_is_measured_at_the_facing_that_makes_it() {
    for name in SOUND {
        for route in &planned(name).routes {
            let part = &route.part;
            let mut left = [route.blank.from, route.blank.to];
            for it in &route.operations {
                if let Work::Face { end, to } | Work::PartOff { end, at: to, .. } = &it.work {
                    left[end.index()] = *to;
                }
                if let Work::RemoveNub { end, .. } = &it.work {
                    left[end.index()] = part.station(*end, Length::ZERO);
                }
                let whole = left == [Length::ZERO, part.length];
                let message = it.checks.iter().any(|it| it.what == Measured::Length);
                let ends = matches!(
                    it.work,
                    Work::Face { .. }
                        | Work::RemoveNub { .. }
                        | Work::PartOff { shaping: true, .. }
                );
                assert_eq!(
                    message,
                    whole && ends,
                    "{name} {}: {:?}",
                    part.name.text,
                    it.work
                );
                if matches!(it.work, Work::Face { .. }) && !whole {
                    let reported = it.notes.iter().any(|it| {
                        matches!(
                            it,
                            Note::UntilClean | Note::LongWithNub { .. } | Note::LevelWith { .. }
                        )
                    });
                    assert!(reported, "{name} {}: {:?}", part.name.text, it.notes);
                }
            }
        }
    }
    let plan = planned("heron");
    let long = |it: &Operation| {
        it.notes.iter().find_map(|it| match it {
            Note::LongWithNub { length } => Some(length.to_mm()),
            _ => None,
        })
    };
    let found = route(&plan, "cap").operations.iter().find_map(long);
    assert_eq!(found, Some(70.0));
}

/// Curlew's ⌀6.4 to 22 in the solid: the largest drill of nine tenths is 5.7; its corner at
/// 22 − 2.85 / tan 59° − 0.3 = 19.99.
#[test]
fn a_flat_drill_is_led_by_a_hole() {
    let plan = planned("curlew");
    let (at, flat) = find(
        route(&plan, "section"),
        |work| matches!(work, Work::Inside(cut) if cut.shape.widest() == Length::mm(6.4)),
    );
    let (led, cut) = find(
        route(&plan, "section"),
        |work| matches!(work, Work::Inside(cut) if cut.shape.widest() == Length::mm(5.7)),
    );
    assert!(led < at && flat.needs.contains(&led));
    let Work::Inside(cut) = &cut.work else {
        unreachable!()
    };
    near(cut.to.to_mm(), 19.99);
    // Heron's flats have a hole to lead them, or go no deeper than the drill before them.
    let plan = planned("heron");
    for part in ["cap", "section"] {
        let opening = route(&plan, part).operations.iter().filter(|it| {
            matches!(&it.work, Work::Inside(cut)
                if matches!(cut.shape, InsideShape::Drill { opening: true, .. }))
        });
        assert_eq!(opening.count(), 0, "{part}");
    }
}

/// 54 at the corner of a ⌀12.2 drill is 54 + 6.1 / tan 59° = 57.67 at its point; kept to 0.15.
#[test]
fn limits_stand_only_where_a_caliper_reaches() {
    let plan = planned("heron");
    let drilled = |part: &str, dia: f64| {
        find(
            route(&plan, part),
            |work| matches!(work, Work::Inside(cut) if cut.shape.widest() == Length::mm(dia)),
        )
        .1
    };
    let cap = drilled("cap", 12.2);
    let at_point = cap
        .checks
        .iter()
        .find(|it| it.what == Measured::Point { end: End::First });
    let at_point = at_point.expect("its point is read");
    near(at_point.limits.min().to_mm(), 57.515);
    near(at_point.limits.max().to_mm(), 57.815);
    assert!(
        !cap.checks
            .iter()
            .any(|it| matches!(it.what, Measured::Depth { .. }))
    );
    // The ⌀8 goes through the point of the ⌀9.3, which has opened its mouth.
    let wide = drilled("barrel", 9.3);
    assert!(
        wide.checks
            .iter()
            .all(|it| matches!(it.what, Measured::Hole { .. })),
        "{wide:?}"
    );
    let behind = drilled("barrel", 8.0);
    assert!(
        !behind
            .checks
            .iter()
            .any(|it| matches!(it.what, Measured::Hole { .. }))
    );
    assert!(behind.notes.contains(&Note::ShankGoesHome {
        dia: Length::mm(8.0),
        stays_out: None,
    }));
    // A flat bottom is read where it is.
    let flat = drilled("section", 8.6);
    assert!(
        flat.checks
            .iter()
            .any(|it| matches!(it.what, Measured::Depth { .. }))
    );
}

/// 15.03 and 1 over is 16.0, not 16.1.
#[test]
fn a_roughing_size_is_rounded_to_the_nearest() {
    let design = written(
        "part thing from a to b {\n  blank of reed rod 18\n  length 20\n  \
         outside { at 0 dia 15.03; at 20 dia 15.07 }\n}\n",
    );
    let part = design.part("thing").unwrap();
    let table = caliper_table(part, &[], End::First, Length::mm(20.0)).unwrap();
    let rough: Vec<f64> = table.rows.iter().map(|it| it.rough.to_mm()).collect();
    assert_eq!(rough, [16.0, 16.1]);
}

/// Snipe's groove of 12.3 lies behind its bore of 12.1: neither caliper nor pin comes to it, and the slide
/// is fed (12.3 − 12.1) / 2 from where the tool touches.
#[test]
fn a_groove_behind_a_narrower_mouth_is_fed_by_the_scale() {
    let plan = planned("snipe");
    let clutch = route(&plan, "clutch");
    let recess = |work: &Work| matches!(work, Work::Inside(it) if matches!(it.shape, InsideShape::Recess { .. }));
    let (_, it) = find(clutch, recess);
    let depth = Length::mm(0.1);
    assert!(
        it.notes.contains(&Note::FeedFromTouch { depth }),
        "{:?}",
        it.notes
    );
    let hole =
        |it: &quillet_plan::Inspection| matches!(it.what, quillet_plan::Measured::Hole { .. });
    assert!(!it.checks.iter().any(hole), "nothing reads it");
    let pins = |it: &&Note| matches!(it, Note::ShankGoesHome { .. });
    assert_eq!(it.notes.iter().filter(pins).count(), 0);
}
