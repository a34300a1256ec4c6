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

/// Wood over a tube and a bush.
fn lined() -> Design {
    written(
        "thread joint = M11x0.75\npart barrel from mouth to tail {\n blank of sunken-oak square 20\n \
         length 74\n outside {\n at 0 dia 15\n at tail dia 12.6 smooth\n }\n from mouth {\n \
         bore 13.1 to 15\n drill 9.6 to 66\n }\n}\npart bush from front to back {\n \
         blank of brass rod 16\n length 15\n outside dia 13\n from front {\n drill 10.3 to 13\n \
         thread joint inside to 11\n countersink 11.4\n drill 8.5 through\n }\n}\n\
         part tube from front to back {\n blank of brass tube 9.5 wall 0.45\n length 50\n}\n\
         pen sketch {\n glue bush.back into barrel.mouth gap 0.1 before turning\n \
         glue tube.front into barrel.mouth by 65 gap 0.1 before turning\n}\n",
    )
}

/// Wood over a tube and a bush: both are made and glued in, the tube that the bush stops on first; then
/// it goes on a mandrel by the bush's thread, for the wood has none, and its outside is turned.
#[test]
fn what_is_joined_before_turning_holds_the_work_that_is_turned() {
    let design = lined();
    let pen = design.pen("sketch").unwrap();
    let plan = plan_pen(pen, design.bench(None).map(AsRef::as_ref));
    right(&plan);
    let barrel = route(&plan, "barrel");
    let joined = |part: &str| {
        at(
            barrel,
            |it| matches!(it, Work::JoinIn(it) if &*it.part == part),
        )
    };
    let bored = at(
        barrel,
        |it| matches!(it, Work::Inside(cut) if cut.shape.widest() == Length::mm(13.1)),
    );
    let turned = at(barrel, |it| matches!(it, Work::Outside(_)));
    assert!(bored < joined("tube") && joined("tube") < joined("bush") && joined("bush") < turned);
    let Workholding::Mandrel(mount) = barrel.operations[turned].hold else {
        panic!("{:?}", barrel.operations[turned].hold)
    };
    let mandrel = &plan.mandrels[mount.mandrel];
    let thread = mandrel.thread.as_ref().expect("it is threaded");
    assert_eq!(
        (thread.name.as_ref().map(|it| &*it.text), mount.end),
        (Some("joint"), End::First)
    );
    // One sequence: the barrel waits for both, and goes on then.
    let place = |part: &str, operation: usize| {
        let step = |it: &quillet_plan::OperationRef| {
            &*plan.routes[it.route].part.name.text == part && it.operation == operation
        };
        plan.sequence.iter().position(step).expect("it is a step")
    };
    for part in ["bush", "tube"] {
        let last = place(part, route(&plan, part).operations.len() - 1);
        assert!(place("barrel", bored) < last && last < place("barrel", joined(part)));
    }
    let steps: usize = plan.routes.iter().map(|it| it.operations.len()).sum();
    assert_eq!(plan.sequence.len(), steps);
    let polished = find(barrel, |it| matches!(it, Work::Polish { .. })).1;
    assert!(matches!(
        polished.work,
        Work::Polish {
            before_gluing: false,
            core: None,
            ..
        }
    ));
}

/// The bush is 15 long, as its hole is deep: the mouth is faced over both, in a collet, before the mandrel bears
/// there.
#[test]
fn the_mouth_is_faced_over_what_is_glued_in() {
    let design = lined();
    let pen = design.pen("sketch").unwrap();
    let plan = plan_pen(pen, design.bench(None).map(AsRef::as_ref));
    let barrel = route(&plan, "barrel");
    let joined = at(
        barrel,
        |it| matches!(it, Work::JoinIn(it) if &*it.part == "bush"),
    );
    let turned = at(barrel, |it| matches!(it, Work::Outside(_)));
    let level = barrel.operations.iter().rposition(|it| {
        let of_mouth = matches!(
            it.work,
            Work::Face {
                end: End::First,
                ..
            }
        );
        of_mouth && matches!(it.hold, Workholding::Collet(_))
    });
    let level = level.expect("its mouth is faced");
    assert!(joined < level && level < turned);
    let bush: std::sync::Arc<str> = "bush".into();
    let notes = &barrel.operations[level].notes;
    assert!(notes.contains(&Note::LevelWith { part: bush }), "{notes:?}");
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
