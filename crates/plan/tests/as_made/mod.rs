//! The plan of one that was made: what is done, what was read, what the rest is asked to suit.

#![allow(clippy::unwrap_used, reason = "tests")]

use super::*;
use quillet_geometry::Limits;
use quillet_plan::{Measured, Note, Operation, TurnKind, Workholding, plan_made};

/// A plug that goes into a cap by `joint`, and one of it of which `of_it` is made.
fn plan(joint: &str, of_it: &str) -> Plan {
    let text = format!(
        "use \"saltings.quillet\"\n\
         part cap from mouth to crown {{\n  blank of chalk rod 18\n  length 40\n  outside dia 15\n  \
         from mouth {{ bore 10 to 12 }}\n}}\n\
         part plug from front to back {{\n  blank of chalk rod 18\n  length 20\n  outside dia 15\n  \
         from front {{\n    tenon 9.9 for 8\n    relief 9 for 2 at 6\n  }}\n}}\n\
         pen redshank {{\n  {joint}\n}}\n\
         made redshank-1 of redshank {{\n  {of_it}\n}}\n"
    );
    let texts = [&[("made.quillet", &*text)][..], &SHARED[..]].concat();
    made_of(&design("made.quillet", &texts))
}

fn made_of(design: &Design) -> Plan {
    let made = design.pens.iter().find(|it| it.made.is_some()).unwrap();
    let of = &made.made.as_ref().unwrap().of.text;
    let bench = design.bench(made.bench.as_ref()).map(AsRef::as_ref);
    plan_made(design.pen(of).unwrap(), made, bench)
}

fn operations<'p>(plan: &'p Plan, part: &str) -> &'p [Operation] {
    let mut routes = plan.routes.iter();
    &routes
        .find(|it| &*it.part.name.text == part)
        .unwrap()
        .operations
}

fn turned(plan: &Plan, kind: TurnKind) -> &Operation {
    let is = |it: &&Operation| matches!(&it.work, Work::Turn(cut) if cut.kind == kind);
    operations(plan, "plug").iter().find(is).unwrap()
}

fn asked(operation: &Operation) -> (Limits, Limits) {
    let dia = |it: &Measured| matches!(it, Measured::Outside { .. });
    let of = |is_dia: bool| {
        let mut checks = operation.checks.iter();
        checks.find(|it| dia(&it.what) == is_dia).unwrap().limits
    };
    (of(true), of(false))
}

fn limits(least: f64, most: f64) -> Limits {
    Limits::new(Length::mm(least), Length::mm(most))
}

const SLIP: &str = "slip plug.front into cap.mouth";

/// Of ⌀9.9 a hand that says nothing keeps 0.1 (ISO 2768-1 f, over 6 to 30). A hole that came out 0.06 over
/// leaves as much as is drawn by a tenon 0.06 over: 9.86 to 10.06.
#[test]
fn a_tenon_is_asked_to_suit_the_hole_that_is_made() {
    let as_drawn = plan(SLIP, "part cap { from mouth { bore 10 to 12 } }");
    assert_eq!(
        asked(turned(&as_drawn, TurnKind::Tenon)).0,
        limits(9.8, 10.0)
    );
    assert_eq!(turned(&as_drawn, TurnKind::Tenon).notes, []);
    let wide = plan(SLIP, "part cap { from mouth { bore 10.06 to 12 } }");
    let tenon = turned(&wide, TurnKind::Tenon);
    assert_eq!(asked(tenon).0, limits(9.86, 10.06));
    let Work::Turn(cut) = &tenon.work else {
        panic!("a tenon")
    };
    assert_eq!(cut.dia, Length::mm(9.96));
    let note = Note::ToSuit {
        mate: "cap".into(),
        hole: Length::mm(10.06),
        drawn: Length::mm(9.9),
    };
    assert!(tenon.notes.contains(&note), "{:?}", tenon.notes);
    // A relief has to pass, no more.
    assert_eq!(asked(turned(&wide, TurnKind::Relief)).0, limits(8.9, 9.1));
}

/// ISO 286-2: g6 over 10 to 18 mm is -0.006 to -0.017.
#[test]
fn a_class_is_taken_at_the_hole_as_it_came_out() {
    let joint = "slip plug.front into cap.mouth fit H7/g6";
    let made = plan(joint, "part cap { from mouth { bore 10.06 to 12 } }");
    assert_eq!(
        asked(turned(&made, TurnKind::Tenon)).0,
        limits(10.043, 10.054)
    );
}

/// The hole as it came out less the gap that is written: 10.06 - 0.1, kept to 0.1.
#[test]
fn a_gap_for_glue_is_left_of_the_hole_as_it_came_out() {
    let joint = "glue plug.front into cap.mouth gap 0.12";
    let made = plan(joint, "part cap { from mouth { bore 10.06 to 12 } }");
    assert_eq!(asked(turned(&made, TurnKind::Tenon)).0, limits(9.84, 10.04));
}

#[test]
fn what_is_made_has_what_was_read_and_asks_for_nothing_else() {
    let both = "part cap { from mouth { bore 10.06 to 12.1 } }\npart plug { from front { tenon 9.87 for 8.05 } }";
    let made = plan(SLIP, both);
    let tenon = turned(&made, TurnKind::Tenon);
    let read = tenon.as_made.unwrap();
    assert_eq!(
        (read.dia, read.length),
        (Some(Length::mm(9.87)), Some(Length::mm(8.05)))
    );
    assert_eq!(asked(tenon).0, limits(9.8, 10.0));
    // What lies in the plane of the shoulder goes with it, and is not made yet.
    let relief = turned(&made, TurnKind::Relief);
    assert_eq!(relief.as_made, None);
    assert_eq!(asked(relief).1, limits(8.0, 8.1));
    // The work was sawn, faced and centred before, and nothing is done that comes behind.
    let done = |it: &&Operation| it.as_made.is_some();
    let works = operations(&made, "plug").iter();
    let done: Vec<&Work> = works.filter(done).map(|it| &it.work).collect();
    assert!(matches!(done[0], Work::Saw { .. }), "{done:#?}");
    assert!(done.iter().any(|it| matches!(it, Work::Face { .. })));
    let later = |it: &&Work| {
        matches!(
            it,
            Work::Polish { .. } | Work::Outside(_) | Work::Try(_) | Work::BreakCorner { .. }
        )
    };
    assert!(!done.iter().any(later), "{done:#?}");
}

/// A thread's tenon keeps the limits of its thread: the hole that it goes into is cut by the tap.
#[test]
fn what_is_not_made_is_planned_as_the_drawing_is() {
    let of_it = "part cap { from mouth { drill 12.25 to 53.7 } }";
    let text = format!("use \"heron.quillet\"\nmade heron-1 of heron {{ {of_it} }}\n");
    let texts: Vec<(&str, &str)> = [("made.quillet", &*text)]
        .into_iter()
        .chain(EXAMPLES)
        .collect();
    let design = design("made.quillet", &texts);
    let (made, drawn) = (made_of(&design), design.pen("heron").unwrap());
    let bench = design.bench(drawn.bench.as_ref()).map(AsRef::as_ref);
    let drawn = plan_pen(drawn, bench);
    for (is, was) in made.routes.iter().zip(&drawn.routes) {
        assert_eq!(is.operations.len(), was.operations.len());
        for (is, was) in is.operations.iter().zip(&was.operations) {
            // The drill is that of the drawing, whatever the hole came out to.
            assert_eq!((is.tool, &is.checks), (was.tool, &was.checks));
        }
    }
    let cap = operations(&made, "cap").iter();
    let mut read = cap.filter_map(|it| it.as_made?.dia);
    assert_eq!((read.next(), read.next()), (Some(Length::mm(12.25)), None));
}

/// The cap is put on a spigot in its bore when its outside is turned, a sliding fit in what was read.
#[test]
fn a_mandrel_fits_the_hole_as_it_came_out() {
    let fitted = |of_it: &str| {
        let made = plan(SLIP, of_it);
        let serves = |it: &&quillet_plan::Mandrel| it.serves.iter().any(|it| &*it.0 == "cap");
        let mandrels: Vec<_> = made.mandrels.iter().filter(serves).collect();
        assert_eq!(mandrels.len(), 1, "{mandrels:#?}");
        let spigot = mandrels[0]
            .root_spigot
            .or(mandrels[0].front_spigot)
            .unwrap();
        // Every row that names one names one that is there.
        let holds = operations(&made, "cap")
            .iter()
            .filter_map(|it| match it.hold {
                Workholding::Mandrel(mount) => Some(mount.mandrel),
                _ => None,
            });
        assert!(
            holds.clone().count() > 0 && holds.clone().all(|it| made.mandrels.get(it).is_some())
        );
        spigot.dia
    };
    let drawn = fitted("part cap { length 40 }");
    let wide = fitted("part cap { from mouth { bore 10.06 to 12 } }");
    assert_eq!(wide - drawn, Length::mm(0.06));
    // When the outside is done too, so is the mandrel.
    let done = fitted("part cap { outside dia 15.02 ; from mouth { bore 10.06 to 12 } }");
    assert_eq!(done, drawn);
}
