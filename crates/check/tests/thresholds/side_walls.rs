//! Walls under what is cut from the side; each figure by hand.

use crate::{Source, source};

/// A rod of 14, cut from its side and bored; acrylic, of which 1 mm is wanted. A wall that lacks a thousandth
/// lacks nothing a caliper shows.
fn rod(side: &str, inside: &str) -> Source {
    cut("thin-wall", side, inside)
}

fn cut(rule: &'static str, side: &str, inside: &str) -> Source {
    source(
        rule,
        &format!(
            "part body from front to back {{
  blank of acrylic rod 16
  length 60
  outside dia 14
  side {{
    {side}
  }}
  from front {{
    {inside}
  }}
}}
"
        ),
    )
}

/// A floor is a plane: 7 - 2 from the axis, and nearest to a bore of 8 right under the hole's middle.
#[test]
fn a_hole_with_a_floor_over_a_bore() {
    rod("drill 3 to $ at 20", "bore 8 to 40")
        .edge("2.001", "2.001001")
        .message("mm of wall between the side hole")
        .message("and the ⌀8.00 bore; 1 mm wanted");
    rod("slot 3 to $ at 20..30", "bore 8 to 40")
        .edge("2.001", "2.001001")
        .message("mm of wall between the slot");
}

/// Over a taper from 8 to 6 in 40 the hole's near side, 18.5 in, stands over a radius of 4 - 18.5/40 = 3.5375, and
/// nearest square to the taper: 0.999 √(1 + 1/40²) = 0.999312 along the radius come to 0.999. 7 - 4.536812 = 2.463188.
#[test]
fn a_hole_with_a_floor_over_a_taper() {
    rod("drill 3 to $ at 20", "taper 8 to 6 for 40").edge("2.463187", "2.463189");
}

/// The point of a drill of 8 to 19, 118°: 20 in, where the hole begins, it is 4 - tan 59° = 2.335721 in radius, and
/// 1 square to it 1 / cos 59° = 1.941604 along the radius: a floor 7 - 4.277325 = 2.722675 deep; of a nanometre deeper half is lost. What is
/// nearest lies at 20 - sin 59° = 19.143, beside the hole, and not yet the corner at 19, 1.038 away. The floor
/// of a drilled hole is a closed end; a limit of 1 is put for the usual 1.5.
#[test]
fn a_hole_with_a_floor_beside_the_point_of_a_drill() {
    let inside = "drill 8 to 19\n  }\n  limit thin-end = 1\n  from back {\n    chamfer 0.5";
    cut("thin-end", "drill 2 to $ at 21", inside)
        .edge("2.722674", "2.722678")
        .message("left between the point of the ⌀8.00 drill and the side hole");
}

/// A slot's floor over holes of 1 on a circle of 10, one of them under its middle: 7 - 0.501 - 5 - 0.5 = 0.999.
#[test]
fn a_slot_over_holes_beside_the_axis() {
    let holes = "bore 6 to 40\n    bore 1 to 30 on 10 indexed 3";
    rod("slot 2 to $ at 20..30", holes)
        .edge("0.501", "0.501001")
        .message("mm of wall between the slot")
        .message("and the ⌀1.00 holes on ⌀10.00; 1 mm wanted");
}
