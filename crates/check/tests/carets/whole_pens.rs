//! What is found of a pen as a whole: which joint, which part, which of several.

use crate::{examined, expect, finding, message};

/// A plug of 8 for 10, its shoulder 14, and a tube of 60 bored 8.1 at both ends for it.
const PLUG: &str = "\
part plug from front to back {
  blank of acrylic rod 16
  length 20
  outside {
    at 0  dia 8
    at 10 dia 8 step 14
    at 20 dia 14
  }
}
part stopper like plug
";

fn tube(blank: &str) -> String {
    format!(
        "\
part tube from mouth to end {{
{blank}
  length 60
  outside dia 14
  from mouth {{
    bore 8.1 to 20
    drill 5 to 50
  }}
  from end {{
    bore 8.1 to 20
  }}
}}
"
    )
}

#[test]
fn two_parts_are_joined_once_whichever_goes_into_the_other() {
    let sound = tube("  blank of acrylic rod 16");
    let text = |second: &str, width: usize| {
        format!(
            "{PLUG}{sound}pen p {{\n  glue plug.front into tube.mouth gap 0.1\n  {second}\n--{} joined-twice\n  glue stopper.front into tube.end gap 0.1\n}}\n",
            "^".repeat(width)
        )
    };
    for (second, written) in [
        (
            "glue plug.front into tube.mouth",
            "plug and tube are joined already",
        ),
        (
            "slip tube.end into plug.back",
            "tube and plug are joined already",
        ),
    ] {
        let found = expect("joined-twice", &text(second, second.len()));
        assert_eq!(message(&found, "joined-twice"), written);
        let label = &finding(&found, "joined-twice").labels[0];
        assert_eq!(label.text.to_string(), "joined here");
    }
}

#[test]
fn a_loop_of_joints_says_so() {
    let ring = "part sleeve from near to far {\n  blank of acrylic rod 20\n  length 80\n  outside dia 18\n  from near {\n    bore 14.1 through\n  }\n}\n";
    let sound = tube("  blank of acrylic rod 16");
    let text = format!(
        "{PLUG}{sound}{ring}pen p {{\n  glue plug.front into tube.mouth gap 0.1\n  slip tube.end into sleeve.near by 10\n--^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ joined-twice\n  slip plug.back into sleeve.far by 10\n}}\n"
    );
    let found = expect("joined-twice", &text);
    let written = message(&found, "joined-twice");
    assert!(
        written.starts_with("tube and sleeve are held already through other parts, ")
            && written.ends_with(" in; the joints form a loop"),
        "{written}"
    );
}

/// The brass begins `from` the mouth; a stopper goes 10 in from the end, so ink stands to 50.
#[test]
fn ink_stands_against_what_no_plug_covers() {
    let attacked = |front: &str, rear: &str, to: u8| {
        let blank = format!("  blank of {front} rod 16 to {to}\n  blank of {rear} rod 16");
        let text = format!(
            "{PLUG}{}pen p {{\n  glue plug.front into tube.mouth gap 0.1\n  glue stopper.front into tube.end gap 0.1\n  fill tube\n}}\n",
            tube(&blank)
        );
        let found = examined(&text).findings;
        found.iter().filter(|it| it.rule == "ink-attacks").count()
    };
    assert_eq!(attacked("acrylic", "brass", 49), 1);
    assert_eq!(attacked("acrylic", "brass", 50), 0);
    assert_eq!(attacked("brass", "acrylic", 10), 0);
    assert_eq!(attacked("brass", "acrylic", 11), 1);
}

/// A joint of two plugs, one of which has a ring: the other leaks, whichever comes first; and a
/// part that holds the ink by what goes into it is judged as one that receives it.
#[test]
fn each_joint_of_a_reservoir_holds_the_ink() {
    let text = |joints: &str, fill: &str| {
        format!(
            "\
bought seal {{
  ring 7 by 1
  mass 0.05
}}
{}{}\
part ringed like plug {{
  from front {{
    groove 7.2 for 1.3 at 4 takes seal
  }}
}}
pen p {{
{joints}
  fill {fill}
}}
",
            PLUG.replace("part stopper like plug\n", ""),
            tube("  blank of acrylic rod 16")
                .replace("8.1", "8.85")
                .replace("at 0  dia 8", "at 0  dia 8.8")
        )
        .replace("dia 8\n", "dia 8.8\n")
        .replace("dia 8 step", "dia 8.8 step")
    };
    let bare =
        "  press plug.front into tube.mouth\n--^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ leaky-reservoir";
    let ringed = "  press ringed.front into tube.end";
    expect(
        "leaky-reservoir",
        &text(&format!("{bare}\n{ringed}"), "tube"),
    );
    let ringed = "  press ringed.front into tube.mouth";
    let bare = bare.replace("mouth", "end").replace("^^ leaky", " leaky");
    expect(
        "leaky-reservoir",
        &text(&format!("{ringed}\n{bare}"), "tube"),
    );
    expect("leaky-reservoir", &text(&bare, "plug"));
}

/// A plain cap that stops by a depth that is said: nothing touches all round it but a ring.
#[test]
fn an_o_ring_keeps_a_nib_from_drying() {
    let text = |groove: &str, caret: &str| {
        format!(
            "\
bought seal {{
  ring 9.6 by 1.5
  mass 0.05
}}
part peg from front to back {{
  blank of acrylic rod 20
  length 40
  outside {{
    at 0  dia 12.3
    at 20 dia 12.3 step 18
    at 40 dia 18
  }}
  from front {{
    {groove}
  }}
}}
part cap from mouth to crown {{
  blank of acrylic rod 20
  length 40
  outside dia 18
  from mouth {{
    bore 12.5 to 30
  }}
}}
pen test {{
  close cap.mouth onto peg.front by 15
{caret}}}
"
        )
    };
    expect("dry-nib", &text("groove 10 for 2 at 4 takes seal", ""));
    let dry = "--^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ dry-nib\n";
    let found = expect("dry-nib", &text("chamfer 0.5", dry));
    let written = message(&found, "dry-nib");
    assert!(
        written.starts_with("nothing of the cap touches the body all round"),
        "{written}"
    );
}

/// A waist of 1 mm that was to be 10 makes nonsense of its own part and of what is joined to it; what
/// has nothing to do with it is told of.
#[test]
fn what_does_not_touch_a_part_that_is_nonsense_is_told() {
    let text = "\
part rod from front to back {
  blank of acrylic rod 16
  length 60
  outside {
    at 0  dia 12
    at 30 dia 1.2 smooth
    at 60 dia 12  smooth
  }
}
part sleeve from near to far {
  blank of acrylic rod 20
  length 20
  outside dia 18
  from near {
    bore 12.1 to 10
  }
  from far {
    bore 8.5 to 6
  }
}
part knob from front to top {
  blank of acrylic rod 16
  length 20
  outside {
    at 0  dia 8
    at 6  dia 8 step 14
    at 20 dia 14
  }
}
pen p {
  slip rod.front into sleeve.near
  slip knob.front into sleeve.far
--^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ poor-fit
}
";
    expect("poor-fit", text);
    // The same of the joint that does touch it follows from it.
    let touching = text.replace("bore 12.1", "bore 12.5");
    expect("poor-fit", &touching);
}
