//! Glued blanks.

use super::*;
use quillet_model::PieceId;
use quillet_plan::{Note, Workholding};

/// What stands on the first.
fn second() -> PieceId {
    PieceId::FIRST.after()
}

fn at(route: &Route, wanted: impl Fn(&Work) -> bool) -> usize {
    find(route, wanted).0
}

/// Avocet's brass is 3 thick: it is glued to the reed, faced to 17 there, and bored 10.1 with a hole
/// of 9 to lead, all in one holding.
#[test]
fn a_thin_piece_is_faced_and_bored_where_it_is_glued() {
    let plan = planned("avocet");
    let route = route(&plan, "barrel");
    let glued = at(
        route,
        |it| matches!(it, Work::GlueUp { piece, rubbed: true, .. } if *piece == second()),
    );
    let faced = at(
        route,
        |it| matches!(it, Work::FacePiece(face) if face.piece == second() && face.to == Some(Length::mm(17.0))),
    );
    let led = at(
        route,
        |it| matches!(it, Work::Socket { dia, leads: true, .. } if *dia == Length::mm(9.0)),
    );
    let bored = at(route, |it| {
        matches!(it, Work::Socket { dia, depth, leads: false, .. }
            if (*dia, *depth) == (Length::mm(10.1), Length::mm(3.0)))
    });
    let last = at(
        route,
        |it| matches!(it, Work::GlueUp { piece, .. } if *piece == second().after()),
    );
    assert!(glued < faced && faced < led && led < bored && bored < last);
    let hold = |index: usize| route.operations[index].hold;
    assert!(hold(faced) == hold(led) && hold(led) == hold(bored));
    let Workholding::Pieces(held) = hold(faced) else {
        panic!("{:?}", hold(faced))
    };
    assert_eq!(
        (held.from, held.to, held.gripped),
        (PieceId::FIRST, second(), PieceId::FIRST)
    );
    let notes = &route.operations[glued].notes;
    for note in [Note::LineUp, Note::CleanLine, Note::Cure, Note::Degrease] {
        assert!(notes.contains(&note), "{notes:?}");
    }
    // It is trued when all of it has cured.
    let trued = at(route, |it| matches!(it, Work::Round { .. }));
    assert!(last < trued);
}

/// Whimbrel's oak is held alone, its spigot of 15 turned; the hard rubber is faced and bored for it.
#[test]
fn each_joint_face_is_faced_before_glue() {
    for name in ["avocet", "whimbrel"] {
        for route in &planned(name).routes {
            for (index, it) in route.operations.iter().enumerate() {
                let Work::GlueUp { piece, rubbed, .. } = it.work else {
                    continue;
                };
                let faced = |wanted: (PieceId, End)| {
                    route.operations[..index].iter().any(|it| {
                        matches!(it.work, Work::FacePiece(face) if (face.piece, face.end) == wanted)
                    })
                };
                let under = piece.before().unwrap();
                assert!(faced((under, End::Second)), "{name} {piece:?}");
                assert!(rubbed || faced((piece, End::First)), "{name} {piece:?}");
            }
        }
    }
}

/// A first piece too short to be held is faced and bored on its rod, and sawn off then.
#[test]
fn a_short_first_piece_is_bored_on_its_rod() {
    let design = written(
        "part ferrule from mouth to tail {\n  blank of brass rod 18 to 5\n  \
         blank of reed rod 18 spigot 10 for 3 gap 0.1\n  length 40\n  \
         outside { at 0 dia 14; at 40 dia 13 }\n  from mouth { drill 8 to 20 }\n}\n",
    );
    let plan = plan_part(
        design.part("ferrule").unwrap(),
        design.bench(None).map(AsRef::as_ref),
    );
    right(&plan);
    let route = &plan.routes[RouteId::nth(0)];
    let bored = at(route, |it| matches!(it, Work::Socket { leads: false, .. }));
    let sawn = at(
        route,
        |it| matches!(it, Work::Saw { piece, .. } if *piece == PieceId::FIRST),
    );
    assert!(bored < sawn);
    assert!(matches!(route.operations[bored].hold, Workholding::Pieces(held) if held.on_rod));
}

/// Nothing is turned or bored where a tube is left as it came: it is sawn and faced.
#[test]
fn a_tube_is_cut_to_length_and_no_more() {
    let design = written(
        "part tube from front to back {\n blank of brass tube 9.5 wall 0.45\n length 50\n}\n",
    );
    let tube = design.part("tube").expect("it is there");
    let bench = design.bench(None).map(AsRef::as_ref);
    let plan = plan_part(tube, bench);
    right(&plan);
    let route = route(&plan, "tube");
    let cuts = route.operations.iter().filter(|it| {
        matches!(
            it.work,
            Work::Inside(_) | Work::Outside(_) | Work::Turn(_) | Work::Centre { .. }
        )
    });
    assert_eq!(cuts.count(), 0, "{:#?}", route.operations);
    let faced = route.operations.iter();
    let faced = faced.filter(|it| matches!(it.work, Work::Face { .. }));
    assert_eq!(faced.count(), 2);
}
