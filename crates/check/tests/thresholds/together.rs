//! What parts do to each other when they are together: numbers on both sides of each limit, by hand.

use crate::{Source, source};
use quillet_syntax::Severity;

/// A nib unit whose plain land, 0.4 long behind its thread, has its collar to seat 1 in.
fn land(dia: &str, mouth: &str) -> Source {
    source(
        "stops-early",
        &format!(
            "thread housing = M7.4x0.5
bought unit from point to heel {{
  length 30
  mass 2
  outside {{
    at 0    dia 8
    at 10   dia 8   step 9
    at 11   dia 9   step {dia} as collar
    at 11.4 dia {dia} step 7.4
    at 18   dia 7.4 step 6
    at 30   dia 6
  }}
  from heel {{
    thread housing outside for 6.6 at 12
  }}
}}
part section from tip to shank {{
  blank of acrylic rod 16
  length 30
  outside dia 13
  from tip {{
    bore 9.2 to 1 as rest
    {mouth}
    drill 6.9 to 12
    thread housing inside to 9
    drill 6.3 through
  }}
}}
pen test {{
  screw unit.heel into section.tip {{
    seat unit.collar on section.rest
  }}
}}
"
        ),
    )
}

/// The land of ⌀8 comes 1.4 in: the plain mouth for it may lack the 0.05 mm to which a shoulder is where
/// it should be. And a land as slim as the ⌀6.9 that the thread is cut in passes it.
#[test]
fn a_nib_units_plain_land() {
    let mouth = land("8", "bore 8.1 to $");
    mouth.sides(&["1.36", "1.5"], &["1.34", "1.1"]);
    mouth
        .speaks("1.3")
        .message("0.10 mm short of section.rest: the plain ⌀8.00 land of unit, 0.40 mm long behind its thread, enters section's thread")
        .hints("bore section.tip plain, 8.1 to 1.4");
    let slim = land("$", "");
    slim.sides(&["6.5", "6.9"], &["6.91", "7.6"]);
}

/// Two threaded plugs in a barrel of 84 drilled ⌀8.5 to `$` and ⌀8.3 for 22 from the other end: the points
/// take (4.25 + 4.15) / tan 59° = 5.047231, so that the two meet at 56.952769.
#[test]
fn solid_between_two_holes() {
    let text = |fill: &str| {
        source(
            "solid-between",
            &format!(
                "thread tail = M9x0.75
part barrel from mouth to end {{
  blank of acrylic rod 20
  length 84
  outside dia 16
  from mouth {{
    bore 9.1 to 1
    drill 8.3 to 14
    thread tail inside to 10 at 1
    drill 8.5 to $
  }}
  from end {{
    drill 8.3 to 22
    thread tail inside to 9
  }}
}}
part plug from shank to tip {{
  blank of acrylic rod 20
  length 20
  outside {{
    at 8  dia 16
    at 20 dia 16
  }}
  from shank {{
    tenon 8.9 for 8
    thread tail outside for 6
    relief 8 for 2 at 6
  }}
}}
part stopper like plug
pen test {{
  screw plug.shank into barrel.mouth
  screw stopper.shank into barrel.end
  {fill}
}}
"
            ),
        )
    };
    let filled = text("fill barrel");
    filled.sides(&["56.953", "58.5"], &["56.952", "40"]);
    filled
        .speaks("50")
        .message("6.95 mm of solid is left in barrel");
    filled.speaks("50").proposes(&[
        "take barrel's ⌀8.50 drill to 62",
        "take barrel's ⌀8.30 drill to 34",
    ]);
    text("").silent("40");
}

/// An end that ink reaches and nothing closes. The points of ⌀9 and ⌀7 meet at 70 - 4.806885 = 65.193115.
#[test]
fn an_end_that_the_ink_runs_out_of() {
    let text = |rear: &str| {
        source(
            "leaky-reservoir",
            &format!(
                "thread joint = M10x0.75
part barrel from mouth to end {{
  blank of acrylic rod 18
  length 90
  outside dia 15
  from mouth {{
    drill 9.25 to 13
    thread joint inside to 9
    drill 9 to $
  }}
  from end {{
    drill 7 to 20
  }}
}}
part section from tip to shank {{
  blank of acrylic rod 18
  length 30
  outside {{
    at 0  dia 12
    at 20 dia 15
    at 30 dia 15
  }}
  from shank {{
    tenon for 9
    thread joint outside for 7
    relief 9 for 2 at 7
  }}
}}
part plug from shank to tip {{
  blank of acrylic rod 18
  length 12
  outside {{
    at 0  dia 6.9
    at 6  dia 6.9 step 14
    at 12 dia 14
  }}
}}
pen test {{
  screw section.shank into barrel.mouth
  {rear}
  fill barrel
}}
"
            ),
        )
    };
    let open = text("");
    open.sides(&["40", "65.193"], &["65.194", "68"]);
    let told = open
        .speaks("66")
        .message("barrel.end stands open, and the ink reaches it");
    assert_eq!(told.0.severity, Severity::Error);
    text("glue plug.shank into barrel.end").silent("66");
}

/// A bush of 13 in ⌀13.1 stands on the cone of its point, where that is 13 across: it fits the hole, and a
/// push holds up to 0.05 mm of room in that.
#[test]
fn a_bush_on_a_drills_point() {
    let text = |rule, joint: &str| {
        source(
            rule,
            &format!(
                "part bush from front to back {{
  blank of brass rod 16
  length 10
  outside dia 13
  from front {{
    bore 6 through
  }}
}}
part tube from mouth to end {{
  blank of acrylic rod 20
  length 60
  outside dia 17
  from mouth {{
    drill $ to 40
  }}
}}
pen p {{
  {joint}
}}
"
            ),
        )
    };
    let glued = text("poor-fit", "glue bush.front into tube.mouth");
    glued.sides(&["13.02", "13.3"], &["13", "13.01"]);
    let asked = text("poor-fit", "slip bush.front into tube.mouth clearance 0.1");
    asked.sides(&["13.08", "13.12"], &["13.07", "13.13"]);
    let pressed = text("poor-fit", "press bush.front into tube.mouth");
    pressed.sides(&["12.99", "12.95"], &["13", "13.1"]);
    text("press-cracks", "press bush.front into tube.mouth").silent("13.1");
    let pushed = text("nothing-holds", "push bush.front into tube.mouth");
    pushed.sides(&["13.01", "13.05"], &["13.06", "13.1"]);
}

/// A slot that opens the cap beyond its seal vents it; with something in it, that is as it is bedded.
#[test]
fn a_slot_in_a_cap() {
    let text = |cut: &str| {
        source(
            "dry-nib",
            &format!(
                "bought clip from under to over {{
  length 20
  mass 2
  outside dia 4
}}
part cap from mouth to crown {{
  blank of acrylic rod 20
  length 60
  outside dia 16
  from mouth {{
    bore 12.1 to 52
  }}
  side {{
    {cut}
  }}
}}
part barrel from mouth to tail {{
  blank of acrylic rod 20
  length 80
  outside {{
    at 8  dia 14.4 as ledge
    at 80 dia 14
  }}
  from mouth {{
    tenon 12 for 8
  }}
}}
pen p {{
  close cap.mouth onto barrel.mouth
}}
"
            ),
        )
    };
    for at in ["20..25", "41.5..44"] {
        let open = text("slot $ at AT").but("AT", at).speaks("3");
        assert_eq!(
            open.message("cap is cut open from its side").0.severity,
            Severity::Warning
        );
        let filled = text("slot $ at AT takes clip").but("AT", at).speaks("3");
        let filled = filled
            .message("the slot for clip opens cap")
            .hints("bed clip in glue or wax");
        assert_eq!(filled.0.severity, Severity::Note);
    }
    // With a floor, or beyond the bore, it opens nothing.
    text("slot $ to 1 at 20..25 takes clip").silent("3");
}
