//! Single parts on a small bench, and what their routes say of them: figures by hand.

#![allow(clippy::unwrap_used, reason = "tests")]

mod benches;

use quillet_geometry::Length;
use quillet_model::{Design, End, Texts, load, resolve};
use quillet_plan::{
    InsideShape, MandrelKind, Note, Operation, Pass, Plan, RouteId, Work, caliper_table, plan_part,
};
use std::path::Path;

const BENCH: &str = "bench own {\n  drills 1..13 step 0.1\n  collets 6..20 step 1\n  lathe 90..3000\n  \
                     taps M13x0.8 starts 3\n  taps M10x0.75\n  dies M13x0.8 starts 3\n  dies M10x0.75\n}\n";

fn mm(mm: f64) -> Length {
    Length::mm(mm)
}

fn written(text: &str) -> Design {
    let texts = Texts::default().with("own.quillet", text);
    let design = resolve(&load(Path::new("own.quillet"), &texts).unwrap());
    assert!(design.findings.is_empty(), "{:#?}", design.findings);
    design
}

/// A part of 14 by 60 with these cuts, made at a bench with these lines more.
fn made(of: &str, bench: &str, cuts: &str) -> Plan {
    let bench = BENCH.replace("lathe", &format!("{bench}\n  lathe"));
    let design = written(&format!(
        "{bench}part thing from mouth to end {{\n  blank of {of} rod 18\n  length 60\n  outside dia 14\n{cuts}\n}}\n"
    ));
    plan_part(
        design.part("thing").unwrap(),
        Some(design.benches[0].as_ref()),
    )
}

fn mouth(cuts: &str) -> String {
    format!("  from mouth {{\n{cuts}\n  }}")
}

/// The operations that cut a hole of this diameter.
fn holes(plan: &Plan, dia: f64) -> Vec<&Operation> {
    let operations = plan.routes[RouteId::nth(0)].operations.iter();
    operations
        .filter(|it| matches!(&it.work, Work::Inside(cut) if cut.shape.widest() == Length::mm(dia)))
        .collect()
}

/// Metal of 8 mm and more has a pilot of four tenths: 3.2. Resin has none.
#[test]
fn a_pilot_is_for_eight_millimetres_of_metal() {
    let pilots = |of: &str, dia: &str, pilot: f64| {
        let plan = made(of, "", &mouth(&format!("drill {dia} to 30")));
        holes(&plan, pilot).len()
    };
    assert_eq!(pilots("brass", "8", 3.2), 1);
    assert_eq!(pilots("brass", "7.9", 3.2), 0);
    assert_eq!(pilots("acrylic", "8", 3.2), 0);
}

/// Several holes in metal have one pilot: four tenths of the narrowest, 3.4 of 8.5, as deep as the deepest.
#[test]
fn one_pilot_leads_all_holes_of_an_end() {
    let plan = made("brass", "", &mouth("drill 10.3 to 13\n    drill 8.5 to 20"));
    let [pilot, wide, deep] = [3.4, 10.3, 8.5].map(|dia| {
        let found = holes(&plan, dia);
        assert_eq!(found.len(), 1, "{dia}");
        let own = &plan.routes[RouteId::nth(0)].operations;
        let at = own.iter().position(|it| std::ptr::eq(it, found[0]));
        at.expect("it is one of them")
    });
    assert!(pilot < wide && wide < deep, "{pilot} {wide} {deep}");
    let reach = holes(&plan, 3.4)[0].depth.map(|it| it.to_corner);
    assert_eq!(reach, Some(Length::mm(20.0)));
    assert!(holes(&plan, 4.1).is_empty());
}

/// A hole within one that goes right through is not drilled again.
#[test]
fn what_a_hole_right_through_has_taken_is_not_cut_again() {
    let both = "  from mouth {\n    drill 8 through\n  }\n  from end {\n    drill 6 to 10\n  }";
    let plan = made("acrylic", "", both);
    assert_eq!((holes(&plan, 8.0).len(), holes(&plan, 6.0).len()), (1, 0));
}

/// A short hole does not open the way for a bar or a flat to a deeper one; one as deep does.
#[test]
fn a_bore_is_opened_by_what_is_as_deep() {
    let opened = |drill: &str| {
        let plan = made(
            "acrylic",
            "boring 5 reach 50",
            &mouth(&format!("bore 8 to 30\ndrill {drill}")),
        );
        let opening = plan.routes[RouteId::nth(0)].operations.iter().filter(|it| {
            matches!(&it.work, Work::Inside(cut)
                if matches!(cut.shape, InsideShape::Drill { opening: true, .. }))
        });
        opening.count()
    };
    assert_eq!((opened("6 to 10"), opened("6 to 30")), (1, 0));
}

/// 90° from ⌀9.2 to ⌀10.4 go 0.6 mm deep.
#[test]
fn a_countersink_goes_as_deep_as_its_cone_over_the_hole() {
    let plan = made("acrylic", "", &mouth("countersink 10.4\ndrill 9.2 to 30"));
    let depth = holes(&plan, 10.4)[0].depth.unwrap();
    assert_eq!(depth.to_corner, mm(0.6));
}

/// A thread of three starts goes on in three positions, and 2.4 mm of lead are 0.067 mm for 10°; the
/// outside one, which is cut second, says so.
#[test]
fn starts_are_told_of_the_outside_thread() {
    let clocks = |cuts: &str| {
        let plan = made("acrylic", "", cuts);
        let operations = plan.routes[RouteId::nth(0)].operations.iter();
        let notes = operations.flat_map(|it| it.notes.clone());
        notes
            .filter(|it| matches!(it, Note::Clock { .. }))
            .collect::<Vec<_>>()
    };
    let outside = "tenon 12.9 for 8\nthread M13x0.8 starts 3 outside for 5\nrelief 11.9 for 3 at 5";
    assert_eq!(
        clocks(&mouth(outside)),
        [Note::Clock {
            positions: 3,
            per_ten_deg: mm(2.4 / 36.0)
        }]
    );
    assert_eq!(
        clocks("  from mouth {\n    drill 8 to 20\n    thread M10x0.75 inside to 9\n  }"),
        []
    );
}

/// Beyond the thread the drill's own ⌀9.2 goes on: a spigot of 7 mm runs in it, where 8 are plain.
#[test]
fn a_male_mandrel_has_a_spigot_in_the_plain_bore_beyond() {
    let spigot = |deep: &str| {
        let cuts = format!(
            "countersink 10.4\ndrill 9.25 to 9\nthread M10x0.75 inside to 9\ndrill 8 to {deep}"
        );
        let plan = made("acrylic", "collets 10", &mouth(&cuts));
        let males = plan
            .mandrels
            .iter()
            .filter(|it| it.kind == MandrelKind::Male);
        males
            .map(|it| it.front_spigot.map(|it| (it.dia, it.length)))
            .collect::<Vec<_>>()
    };
    assert_eq!(spigot("40"), [Some((mm(8.0), mm(7.0)))]);
    assert_eq!(spigot("12"), [None]);
}

/// The spigot of a ring's stepped mandrel, 0.2 short of the far face for the washer, or half of what is
/// thinner than 0.4. A bore that tapers is carried by its narrowest.
#[test]
fn a_stepped_mandrel_goes_in_as_far_as_the_ring_is_long_and_no_less_than_nothing() {
    let spigot = |length: &str, cuts: &str| {
        let design = written(&format!(
            "part band from front to back {{\n  blank of brass rod 16\n  length {length}\n  outside dia 12\n  \
             from front {{\n{cuts}\n  }}\n}}\n"
        ));
        let plan = plan_part(design.part("band").unwrap(), None);
        let made = plan.mandrels.iter();
        let mut stepped = made.filter(|it| it.kind == MandrelKind::Stepped);
        let spigot = stepped.next().unwrap().front_spigot.unwrap();
        (spigot.dia, spigot.length)
    };
    for (length, cuts, wanted) in [
        ("3", "bore 8 through", (8.0, 2.8)),
        ("0.41", "bore 8 through", (8.0, 0.21)),
        ("0.4", "bore 8 through", (8.0, 0.2)),
        ("0.3", "ream 7 through", (7.0, 0.15)),
        ("0.1", "bore 1 through", (1.0, 0.05)),
        ("4", "taper 9 to 7 for 4", (7.0, 3.8)),
        ("0.2", "taper 4 to 2 for 0.2", (2.0, 0.1)),
        // No straight stretch in the first 2 mm, and a bore behind it.
        ("5", "taper 9 to 7.5 for 3\nbore 6 through", (6.0, 4.8)),
    ] {
        let wanted = (mm(wanted.0), mm(wanted.1));
        assert_eq!(spigot(length, cuts), wanted, "{length}, {cuts}");
    }
}

/// The diameters of what is drilled, in order.
fn drilled(plan: &Plan) -> Vec<Length> {
    let operations = plan.routes[RouteId::nth(0)].operations.iter();
    let dia = |it: &Operation| match &it.work {
        Work::Inside(cut) => match cut.shape {
            InsideShape::Drill { dia, .. } => Some(dia),
            _ => None,
        },
        _ => None,
    };
    operations.filter_map(dia).collect()
}

/// The largest first, but for what lies within a wider hole: 6 goes on under the cone of 8 for
/// (8 − 6) / 2 / tan 59° = 0.60.
#[test]
fn what_lies_within_a_wider_hole_comes_before_it() {
    let order = |deep: &str| {
        let cuts = mouth(&format!("drill 8 to 30\ndrill 6 to {deep}"));
        drilled(&made("acrylic", "", &cuts))
    };
    for (deep, wanted) in [
        ("20", [6.0, 8.0]),
        ("30.5", [6.0, 8.0]),
        ("30.7", [8.0, 6.0]),
    ] {
        assert_eq!(order(deep), wanted.map(mm), "to {deep}");
    }
}

/// What is turned is done at the middle of what it asks for where the lathe has every number; sanding,
/// which asks for less, neither changes that nor follows it.
#[test]
fn sanding_does_not_slow_what_is_turned() {
    let plan = made("acrylic", "", &mouth("drill 8 to 30"));
    let operations = &plan.routes[RouteId::nth(0)].operations;
    let is_sanding = |it: &&Operation| matches!(it.work, Work::Polish { .. });
    let sanding = operations.iter().find(is_sanding).unwrap();
    let turning = operations
        .iter()
        .find(|it| it.hold == sanding.hold && matches!(it.work, Work::RemoveNub { .. }));
    let [turned, sanded] = [turning.unwrap(), sanding].map(|it| it.speed.clone().unwrap());
    let middle = (turned.low_rev_min * turned.high_rev_min).sqrt();
    assert_eq!(turned.set_rev_min, Some((middle / 10.0).round() * 10.0));
    assert!(sanded.high_rev_min < middle);
    assert_eq!(sanded.set_rev_min, Some(sanded.settings_rev_min[0].0));
}

/// A coat of 0.05 a side: 14 is turned and sanded to 13.9, a flat of 13 across is cut to 12.9, and the
/// tenon of 10 that a joint is made with stays 10.
#[test]
fn what_a_coat_brings_is_not_turned() {
    let cuts =
        "  finish \"oil\" coat 0.05\n  side {\n    flat across 13 at 30..40 indexed 2\n  }\n";
    let tenon = mouth("tenon 10 for 8\ndrill 6 to 30");
    let plan = made("acrylic", "", &format!("{cuts}{tenon}"));
    let route = &plan.routes[RouteId::nth(0)];
    let table = caliper_table(&route.part, &[], End::First, mm(5.0)).unwrap();
    let row = |at: f64| *table.rows.iter().find(|it| it.at == mm(at)).unwrap();
    assert_eq!((row(5.0).after, row(20.0).after), (mm(10.0), mm(13.9)));
    assert_eq!(
        row(20.0).before_sanding,
        mm(13.9) + quillet_plan::FINISH_OVER
    );
    let noted = |is: &dyn Fn(&Work) -> bool| {
        let operation = route.operations.iter().find(|it| is(&it.work)).unwrap();
        (operation.notes.clone(), operation.checks.clone())
    };
    let under = Note::UnderCoat { under: mm(0.1) };
    let finishing = |it: &Work| matches!(it, Work::Outside(pass) if pass.pass == Pass::Finish);
    assert!(noted(&finishing).0.contains(&under));
    let (notes, sanded) = noted(&|it| matches!(it, Work::Polish { .. }));
    let (name, thickness) = ("oil".to_owned(), mm(0.05));
    assert!(notes.contains(&Note::Coat { name, thickness }));
    assert_eq!(sanded[0].nominal, mm(13.9));
    let (_, filed) = noted(&|it| matches!(it, Work::Side { .. }));
    assert_eq!(filed[0].nominal, mm(12.9));
    let bare = made("acrylic", "", &tenon);
    let bare = bare.routes[RouteId::nth(0)]
        .operations
        .iter()
        .flat_map(|it| &it.notes);
    let coats = |it: &&Note| matches!(it, Note::Coat { .. } | Note::UnderCoat { .. });
    assert_eq!(bare.filter(coats).count(), 0);
}

/// Brass to 20, acrylic from there: what ends where the acrylic begins is cut as brass is, what goes on
/// by a hundredth as acrylic asks, which is slower.
#[test]
fn a_cut_that_ends_where_another_material_begins_is_not_in_it() {
    let speed = |deep: &str| {
        let text = format!(
            "{BENCH}part thing from mouth to end {{\n  blank of brass rod 18 to 20\n  blank of acrylic rod 18\n  length 60\n  \
             outside dia 14\n  from mouth {{\n    bore 8 to {deep}\n  }}\n}}\n"
        );
        let design = written(&text);
        let part = design.part("thing").unwrap();
        let plan = plan_part(part, Some(design.benches[0].as_ref()));
        holes(&plan, 8.0)[0].speed.as_ref().unwrap().cutting_m_min
    };
    assert_eq!(speed("20"), speed("19"));
    assert_ne!(speed("20.01"), speed("19"));
}
