//! Where a hole comes near an end, a thread or an edge: numbers on both sides of each limit, by hand.

use crate::source;
use quillet_syntax::Severity;

/// The pole stands at 55, the point of ⌀10.5 is 5.25 / tan 59° = 3.154518 long: 1.5 mm are left of a depth
/// of 50.345482, though the corner there is 0.6 mm from the dome's side. From the other end, the same.
#[test]
fn a_pole_beside_a_corner() {
    let cap = |ends: &str, outside: &str| {
        source(
            "thin-end",
            &format!(
                "part cap from {ends} {{\n  blank of acrylic rod 18\n  length 55\n  outside {{\n    {outside}\n  }}\n  \
                 from mouth {{\n    drill 10.5 to $\n  }}\n}}\n"
            ),
        )
    };
    let (silent, speaks) = (["48", "50.345"], ["50.346", "51.2"]);
    cap(
        "mouth to crown",
        "at 0 dia 13 ; at 47 dia 13 ; at 55 dia 0 dome",
    )
    .sides(&silent, &speaks);
    let turned = cap(
        "crown to mouth",
        "at 0 dia 0 ; at 8 dia 13 dome ; at 55 dia 13",
    );
    turned.sides(&silent, &speaks);
    turned
        .speaks("50.9")
        .message("0.95 mm left between the point of the ⌀10.50 drill and the crown");
    // A cone instead of a dome, from 13 to a face of 4 at the pole: the point is as near to the face.
    let flat = cap(
        "mouth to crown",
        "at 0 dia 13 ; at 47 dia 13 ; at 55 dia 12",
    );
    flat.sides(&["50.345"], &["50.346", "50.9"]);
}

/// The finial's thread goes 6 in from the crown of 58: its inner end stands at 52, and the cone of ⌀11.4
/// is as wide as M8 (5.7 - 4) / tan 59° = 1.021463 beyond its depth. Less than 0.05 of it may go.
#[test]
fn a_cap_drilled_into_the_thread_of_its_own_finial() {
    let cap = |rule, drill: &str| {
        source(
            rule,
            &format!(
                "thread top = M8x0.75
part cap from mouth to crown {{
  blank of acrylic rod 18
  length 58
  outside dia 15
  from mouth {{
    {drill}
  }}
  from crown {{
    drill 7.3 to 8
    thread top inside to 6
  }}
}}
part finial from foot to top {{
  blank of acrylic rod 16
  length 14
  outside {{
    at 5  dia 15 as ledge
    at 14 dia 15
  }}
  from foot {{
    tenon for 5
    thread top outside for 3.5
    relief 6.9 for 1.5 at 3.5
  }}
}}
pen p {{
  screw finial.foot into cap.crown {{
    seat cap.crown on finial.ledge
  }}
}}
"
            ),
        )
    };
    let drilled = cap("thread-cut-away", "drill 11.4 to $");
    drilled.sides(&["50.5", "51.028"], &["51.029", "53"]);
    drilled
        .speaks("51.6")
        .message("the ⌀11.40 drill from the mouth runs into the top thread cut from the crown: 0.62 mm of its 6 mm are cut away");
    assert_eq!(drilled.speaks("51.6").0.severity, Severity::Error);
    // A bore has no point.
    let bored = cap("thread-cut-away", "bore 11.4 to $");
    bored.sides(&["51", "52.049"], &["52.05", "54"]);
    // Of 11.4 mm nothing is left for the finial, told as a hole too wide where it goes through.
    bored.speaks("58").message("nothing is left of it");
}

/// A station's corner that a tenon of ⌀12 takes whole: it reaches to `$`, and the chamfer from 6 to 7.
/// One of ⌀17 leaves what stands 8.5 from the axis or nearer: the first half of it.
#[test]
fn a_stations_corner_in_a_tenon() {
    let text = |tenon: &str, edge: &str| {
        source(
            "cuts-nothing",
            &format!(
                "part shank from tip to end {{
  blank of brass rod 20
  length 40
  outside {{
    at 0  dia 16
    at 6  dia 16 step 18 {edge}
    at 40 dia 18
  }}
  from tip {{
    tenon {tenon} for $
  }}
}}
"
            ),
        )
    };
    for edge in ["chamfer 1", "round 1"] {
        let it = text("12", edge);
        it.sides(&["4", "6.9"], &["7", "12"]);
        it.speaks("9")
            .message("this broken corner is not there: the ⌀12.00 tenon takes all of it");
        text("17", edge).sides(&["7", "12"], &[]);
    }
}

/// A taper that leaves no face at the mouth: as wide as ⌀14 there, or as what a chamfer leaves of it.
#[test]
fn a_taper_that_ends_in_a_knife_edge() {
    let text = |rule, cuts: &str| {
        source(
            rule,
            &format!(
                "part cap from mouth to crown {{
  blank of acrylic rod 18
  length 60
  outside dia 14
  from mouth {{
    {cuts}
    drill 9.5 to 50
  }}
}}
"
            ),
        )
    };
    let taper = text("broken-through", "taper $ to 10 for 20");
    taper.sides(&["13", "13.9999"], &["14", "14.3"]);
    taper.speaks("14.3").message(
        "the taper comes out by 0.15 mm through the outside (⌀14.00), 0 mm from the mouth",
    );
    let chamfer = text("out-of-range", "taper 13 to 10 for 20\n    chamfer $");
    chamfer.sides(&["0.2", "0.499"], &["0.5", "0.8"]);
    chamfer.speaks("0.6").message(
        "this chamfer cuts through the wall at the mouth, down to ⌀12.80 where the hole is ⌀13.00",
    );
    // Before that, the face is finer than a tool leaves it.
    let face = text("sliver", "taper 13 to 10 for 20\n    chamfer $");
    face.sides(&["0.2", "0.4"], &["0.41", "0.49"]);
    // From the far end, and to a wider diameter there.
    let far = text("broken-through", "taper 10 to $ for 60");
    far.sides(&["12", "13.99"], &["14", "14.1"]);
}
