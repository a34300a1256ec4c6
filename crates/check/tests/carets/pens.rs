use crate::{examined, message};

/// A barrel whose outside a pen may set, in two pens.
fn two(first: &str, second: &str) -> String {
    format!(
        "\
let body = 15

part barrel from mouth to tail {{
  blank of acrylic rod 18
  length 60
  outside dia body
  from mouth {{
    drill 11.4 to 50
  }}
}}

part knob from face to top {{
  blank of acrylic rod 16
  length 10
  outside dia 11.35
}}

pen one {{
  glue knob.face into barrel.mouth
  {first}
}}

pen two like one {{
  {second}
}}
"
    )
}

#[test]
fn what_all_pens_share_is_told_once() {
    let found = examined(&two("let body = 13", ""));
    assert!(!message(&found, "thin-wall").contains("(in "));
    let pens = &found
        .findings
        .iter()
        .find(|it| it.rule == "thin-wall")
        .unwrap()
        .pens;
    assert_eq!(*pens, ["one", "two"]);
}

#[test]
fn a_flaw_of_one_pen_names_it() {
    let found = examined(&two("", "let body = 13"));
    assert!(message(&found, "thin-wall").ends_with("(in two)"));
}

#[test]
fn pens_that_differ_say_each_its_figures() {
    let found = examined(&two("let body = 13", "let body = 12.8"));
    let written = message(&found, "thin-wall");
    assert!(
        written.contains("in one: 0.80 mm") && written.contains("in two: 0.70 mm"),
        "{written}"
    );
}

#[test]
fn a_pens_own_limit_holds_for_it_alone() {
    let found = examined(&two("let body = 13\n  limit thin-wall = 0.7", ""));
    assert!(
        found.findings.iter().all(|it| it.rule != "thin-wall"),
        "two is like one"
    );
    let found = examined(&two("let body = 13", "limit thin-wall = 0.7"));
    assert!(message(&found, "thin-wall").ends_with("(in one)"));
}

/// A refill of which only the tube of its point goes in is judged by the body that stays out, and
/// one that is in by the fattest that lies in the bore.
#[test]
fn a_refill_is_judged_by_what_lies_in_the_bore() {
    let text = |bore: &str| {
        format!(
            "\
bought refill from point to end {{
  length 60
  mass 6.5
  outside {{
    at 0  dia 0.8
    at 3  dia 2.4
    at 14 dia 2.4 step 6.2
    at 60 dia 6.2
  }}
}}

part section from tip to shank {{
  blank of acrylic rod 13
  length 32
  outside dia 11
  from tip {{
    drill 2.6 through
  }}
  from shank {{
    bore {bore} to 22
  }}
}}

pen plain {{
  slip refill.point into section.shank
}}
"
        )
    };
    let found = examined(&text("6.1"));
    let written = message(&found, "poor-fit");
    assert!(
        written.starts_with("⌀6.20 in ⌀6.10 leaves 0.1 mm of interference"),
        "{written}"
    );
    let found = examined(&text("6.21"));
    let written = message(&found, "poor-fit");
    assert!(
        written.starts_with("⌀6.20 in ⌀6.21 leaves 0.01 mm of clearance"),
        "{written}"
    );
    let found = examined(&text("6.4"));
    assert!(found.findings.iter().all(|it| it.rule != "poor-fit"));
}

/// Joined at one end a part goes on a mandrel of nine millimetres of thread, at the other on one
/// of two: what holds in the first pen is not taken to hold in the second.
#[test]
fn a_part_that_pens_join_otherwise_is_judged_for_each() {
    let plug = |name: &str, thread: &str, long: u8| {
        format!(
            "\
part {name} from shank to top {{
  blank of acrylic rod 16
  length 20
  outside dia 13
  from shank {{
    tenon for {long}
    thread {thread} outside for {long}
  }}
}}

"
        )
    };
    let text = plug("long", "M10x0.75", 8)
        + &plug("short", "M9x0.75", 2)
        + "\
part piece from a to b {
  blank of acrylic rod 16
  length 40
  outside dia 13
  from a {
    drill 9.25 to 14
    thread M10x0.75 inside to 9
  }
  from b {
    drill 8.25 to 8
    thread M9x0.75 inside to 2
  }
}

pen one {
  screw long.shank into piece.a
}

pen two {
  screw short.shank into piece.b
}
";
    let found = examined(&text).findings;
    let of_piece = found
        .iter()
        .filter(|it| it.rule == "short-grip" && it.message.contains("hold piece"));
    let written: Vec<_> = of_piece.map(|it| &*it.message).collect();
    let [written] = written[..] else {
        panic!("{written:?}")
    };
    assert!(
        written.starts_with("0.75 mm to hold piece by at its b"),
        "{written}"
    );
    assert!(written.ends_with("(in two)"), "{written}");
}
