//! Walls, lips, ends and what stands under a bend.

mod beside;
mod threads;

use crate::{Source, page, source};
use quillet_syntax::Severity::{Error, Warning};

/// A tube of this outside with these cuts from its mouth.
fn tube(rule: &'static str, of: &str, outside: &str, cuts: &str) -> Source {
    source(
        rule,
        &format!(
            "part tube from mouth to end {{
  blank of {of} rod 20
  length 60
  outside dia {outside}
  from mouth {{
    {cuts}
  }}
}}
"
        ),
    )
}

/// Resin wants 1 mm. A wall that lacks a thousandth lacks nothing a caliper shows, and walls are
/// told to the nanometre: half of 14 − 12.002001 is 0.999.
#[test]
fn a_plain_wall() {
    let it = tube("thin-wall", "acrylic", "14", "bore $ through");
    it.edge("12.002001", "12.002002")
        .message("0.999 mm of wall between the outside (⌀14.00) and the ⌀12.00 bore; 1 mm wanted, a plain wall in acrylic; 0.90 mm at the limits of size")
        .hints("a hole of ⌀12.00 or less leaves 1 mm");
    let it = it.and("limit thin-wall = 0.4\n");
    it.edge("13.202001", "13.202002").message("0.4 mm wanted");
    // No error is known of a plain wall, and one of nothing is `broken-through`.
    assert_eq!(it.speaks("13.99999").0.severity, Warning);
    it.silent("14");
    // Casein wants 1.2 mm, metal 0.3 mm.
    let casein = tube("thin-wall", "casein", "14", "bore $ through");
    casein
        .edge("11.602001", "11.602002")
        .message("1.2 mm wanted");
    let brass = tube("thin-wall", "brass", "14", "bore $ through");
    brass.edge("13.402", "13.402002").message("0.3 mm wanted");
}

/// A neck of 0.3 by 0.4 is 0.5: between a shoulder's inner corner and a bore from the other end that stops
/// short of it, or a bore's floor and an outside that steps down beyond it, 0.8 by 0.6.
#[test]
fn a_neck() {
    let stops_short = tube(
        "thin-wall",
        "acrylic",
        "13",
        "tenon 10 for 8\n    drill 6 through\n  }\n  from end {\n    bore 9.4 to $",
    );
    stops_short
        .edge("51.6", "51.604")
        .message("0.497 mm of wall between the tenon (⌀10.00) and the ⌀9.40 bore; 0.5 mm wanted")
        .hints("a hole of ⌀9.30 or less leaves 0.5 mm");
    let steps_down = source(
        "thin-wall",
        "part tube from mouth to end {
  blank of acrylic rod 20
  length 60
  outside {
    at 0   dia 13
    at $   dia 13 step 10
    at end dia 10
  }
  from mouth {
    bore 8.4 to 40
  }
}
",
    );
    steps_down
        .edge("40.6", "40.598")
        .message("1 mm wanted, a plain wall");
}

/// With a lining of 0.45 glued in before it is turned, resin wants 1 − 0.45; with one of 0.8 the half
/// millimetre that any layer wants; a lining that ends half way lends nothing.
#[test]
fn a_wall_turned_with_its_lining() {
    let lined = |wall: &str, long: &str, before: &str| {
        let lining = format!(
            "part lining from front to back {{
  blank of brass tube $ - 0.1 wall {wall}
  length {long}
}}
pen sketch {{
  glue lining.front into tube.mouth gap 0.1{before}
}}
"
        );
        tube("thin-wall", "acrylic", "14", "bore $ to 30").and(&lining)
    };
    lined("0.45", "30", " before turning")
        .edge("12.902", "12.902001")
        .message("0.55 mm wanted, a plain wall in acrylic turned with lining");
    lined("0.8", "30", " before turning")
        .edge("13.002001", "13.002002")
        .message("0.5 mm wanted, a plain wall in acrylic turned with lining");
    for alone in [
        lined("0.45", "30", ""),
        lined("0.45", "15", " before turning"),
    ] {
        alone
            .edge("12.002001", "12.002002")
            .message("1 mm wanted, a plain wall in acrylic");
    }
}

/// A wall that a material states, 1.5 for the 1 of resin, is that share of every wall.
#[test]
fn a_wall_that_a_material_states() {
    let pearl = "material pearl {\n  kind acrylic\n  wall 1.5\n}\n";
    let it = tube("thin-wall", "pearl", "14", "bore $ through").and(pearl);
    it.edge("11.002001", "11.002002").message("1.5 mm wanted");
}

/// The root of M10 × 0.75 is 10 − 17/24·√3·0.75 = 9.079848: 0.5 mm of tenon over 8.0798, and an
/// error from 0.3 mm on, over 8.4798.
#[test]
fn a_tenon_over_a_bore() {
    let cuts = "tenon 9.9 for 8\n    thread M10x0.75 outside for 6\n    drill $ to 30";
    let it = tube("thin-wall", "acrylic", "14", cuts);
    it.edge("8.081", "8.082")
        .message("0.499 mm of wall between the M10x0.75 thread's root (⌀9.08) and the ⌀8.08 drill; 0.5 mm wanted, a tenon over its bore in acrylic")
        .hints("an outside thread of ⌀10.10 or more leaves 0.5 mm");
    it.graver(("8.479848", Warning), ("8.479851", Error));
}

/// Resin wants 1.5 mm before a flat end.
#[test]
fn a_closed_end() {
    let it = tube("thin-end", "acrylic", "14", "bore 8 to $");
    it.edge("58.5", "58.500001")
        .message(
            "1.499999 mm left between the ⌀8.00 bore and the end; 1.5 mm wanted at a closed end",
        )
        .hints("drill 0.1 mm less deep");
    it.speaks("59.3").hints("drill 0.8 mm less deep");
    let limited = it.clone().and("limit thin-end = 3\n");
    limited.edge("57", "57.000001");
    // Where nothing is left it is broken through.
    it.edge("60", "59.99");
    let turned = it.but("\n  from mouth", "\n  from end");
    turned
        .edge("58.5", "58.500001")
        .message("between the ⌀8.00 bore and the mouth");
}

/// Deeper than five diameters, and 0.003 of the depth less wall: 70 mm take 0.21 mm, so 0.81 mm are
/// wanted of 0.6; and a wall under 0.6 is for the other rules.
#[test]
fn a_deep_hole_that_may_wander() {
    let it = page("drill-wander");
    it.clone()
        .but("to 70", "to $")
        .edge("40", "40.000001")
        .message("0.70 mm of wall 40 mm deep, where the ⌀8.00 drill may have wandered by 0.12 mm, leaves 0.58 mm; 0.6 mm wanted");
    let outside = it.clone().but("outside dia 9.4", "outside dia $");
    outside.edge("9.619999", "9.619998");
    outside.edge("9.199998", "9.199999");
    // From the other end it is as deep there.
    let turned = outside.but("\n  from mouth", "\n  from tail");
    turned.edge("9.619999", "9.619998").message("70 mm deep");
    // What tapers is judged along the way: 40 mm take 0.12 mm, and 9.44 leaves 0.72.
    let taper = "outside {\n    at 0 dia 10\n    at 40 dia $\n    at 80 dia 10\n  }";
    let taper = it.clone().but("outside dia 9.4", taper);
    taper
        .edge("9.44", "9.43")
        .message("deep, where the ⌀8.00 drill");
    let limited = it.but("dia 9.4", "dia 9.6").and("limit drill-wander = $\n");
    limited.edge("0.59", "0.590001");
}

/// A bore as wide as the outside; a point of 118°, 4/tan 59° = 2.403443 long under ⌀8, at 57.596558;
/// and two of them, 2.403443 and 2.103012 (⌀7), between 30 and 60.
#[test]
fn a_hole_that_comes_out() {
    let it = tube("broken-through", "acrylic", "14", "bore $ to 30");
    it.edge("13.999998", "13.999999").message(
        "the ⌀13.999999 bore leaves no wall through the outside (⌀14.000000), 0 mm from the mouth",
    );
    it.speaks("14.5").message("comes out by 0.25 mm through");
    let it = tube("broken-through", "acrylic", "14", "drill 8 to $");
    it.edge("57.596557", "57.596559").message(
        "the point of the ⌀8.00 drill reaches 60.000001 mm from the mouth, past the part's 60.000000 mm",
    );
    it.edge("60", "59.999999");
    let cuts = "drill 8 to 30\n  }\n  from end {\n    drill 7 to $";
    let it = tube("broken-through", "acrylic", "14", cuts);
    it.edge("25.493545", "25.493546")
        .message("the points of the ⌀8.00 drill and the ⌀7.00 drill run into each other: their depths leave 4.506 mm between, the points take 4.51 mm")
        .proposes(&["take tube's ⌀7.00 drill to 24.4", "take tube's ⌀8.00 drill to 29"]);
    it.edge("30", "29.999999");
    // Of two from one end the one whose point reaches further: ⌀2 has 0.600861, and 32.403443 are
    // more than 31.100861. They lack 0.506455, and 1 mm more is to be left.
    let both = it
        .clone()
        .but("drill 8 to 30", "drill 8 to 30\n    drill 2 to 30.5");
    both.speaks("26")
        .message("the points of the ⌀8.00 drill and the ⌀7.00 drill run into each other")
        .proposes(&[
            "take tube's ⌀7.00 drill to 24.4",
            "take tube's ⌀8.00 drill to 28.4",
        ]);
    // Another hole that goes through joins them.
    it.but("drill 8 to 30", "drill 8 to 30\n    drill 3 through")
        .silent("29");
}

/// A hole from the other end that is wider where the point comes out opens it; a narrower one does
/// not. At 59 the cone of ⌀8 has a radius of 4 − 1·tan 59° = 2.335721 at the face.
#[test]
fn a_point_that_comes_out_in_a_wider_hole() {
    let cuts = "drill 8 to 59\n  }\n  from end {\n    bore $ to 0.2";
    let it = tube("broken-through", "acrylic", "14", cuts);
    it.edge("4.671446", "4.671440");
}

/// 32·M·D/(π(D⁴ − d⁴)) of 500 N·mm over the root of M9 × 0.75, 8.079848: 20 MPa, all that acrylic
/// bears, over a hole of 6.852142.
#[test]
fn what_snaps() {
    let it = page("snaps-at-joint").but("drill 7.2", "drill $");
    it.edge("6.852142", "6.852143")
        .message("the M9x0.75 thread's root (⌀8.08) over the ⌀6.85 drill would bend at 20.00002 MPa under 500 N·mm; acrylic bears 20.00000 MPa")
        .proposes(&["make it ⌀6.8"]);
    // 24 MPa bear more: d⁴ = D⁴ − 32·500·D/(π·24).
    let limited = it.clone().and("limit snaps-at-joint = 24\n");
    limited
        .edge("7.104346", "7.104347")
        .message("acrylic bears 24.00000 MPa");
    // At the other end as well.
    let turned = it.but("\n  from shank", "\n  from XX");
    let turned = turned
        .but("\n  from tip", "\n  from shank")
        .but("\n  from XX", "\n  from tip");
    turned.edge("6.852142", "6.852143");
}

#[test]
fn glue_round_a_spigot() {
    let stack = |rule, spigot: &str| {
        source(
            rule,
            &format!(
                "part stack from a to b {{
  blank of acrylic rod 16 to 20
  blank of brass rod 16 spigot {spigot}
  length 40
  outside dia 14
}}
"
            ),
        )
    };
    let gap = stack("glue-gap", "10 for 12 gap $");
    gap.edge("0.02", "0.019999")
        .message("is no room for the glue; 0.02 to 0.3 mm on diameter holds")
        .proposes(&["gap 0.1"]);
    gap.edge("0.3", "0.300001")
        .message("is more than glue fills soundly");
    let limited = gap.and("limit glue-gap = 0.2\n");
    limited
        .edge("0.2", "0.200001")
        .message("0.02 to 0.2 mm on diameter holds");
    stack("nothing-holds", "10 for 12 gap $")
        .edge("0.3", "0.300001")
        .message("nothing holds the spigot of brass: a gap of 0.300001 mm for the glue; it holds in 0.02 to 0.300000 mm");
    stack("nothing-holds", "10 for $ gap 0.1")
        .edge("1", "0.999999")
        .message("the glue reaches over 0.999999 mm; 1.000000 mm at least holds");
}
