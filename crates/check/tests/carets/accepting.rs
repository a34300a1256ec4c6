use crate::{examined, expect, finding};

fn barrel(block: &str, part: &str, carets: &str) -> String {
    format!(
        "\
part barrel from mouth to tail {{
  blank of acrylic rod 16
  length 60
  outside dia 13
  from mouth {{
    drill 11.4 to 50
{carets}{block}
  }}
{part}
}}
"
    )
}

#[test]
fn what_is_accepted_is_kept_apart_with_its_reason() {
    let accept = "accept thin-wall because \"tried on a scrap\"";
    for text in [barrel(accept, "", ""), barrel("", accept, "")] {
        let found = expect("thin-wall", &text);
        assert_eq!(found.accepted.len(), 1, "{text}");
        assert_eq!(&*found.accepted[0].because.text, "tried on a scrap");
        assert_eq!(found.accepted[0].finding.rule, "thin-wall");
    }
}

#[test]
fn stations_narrow_what_is_accepted() {
    let caret = "--  ^^^^^^^^^^^^^^^^ thin-wall\n";
    let within = barrel("    accept thin-wall at 0..50 because \"tried\"", "", "");
    assert_eq!(expect("thin-wall", &within).accepted.len(), 1);
    let beside = barrel(
        "    accept thin-wall at 0..20 because \"tried\"\n--  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ stale-acceptance",
        "",
        caret,
    );
    expect("stale-acceptance", &beside);
}

#[test]
fn an_error_is_never_accepted_nor_a_rule_that_is_not() {
    let found = expect(
        "stale-acceptance",
        "\
part barrel from mouth to tail {
  blank of acrylic rod 16
  length 60
  outside dia 13
  from mouth {
    drill 14 to 50
--  ^^^^^^^^^^^^^^ broken-through
  }
  accept broken-through because \"it was fine once\"
--^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ stale-acceptance
  accept thick-wall because \"of the name\"
--       ^^^^^^^^^^ unknown-name
}
",
    );
    assert!(found.accepted.is_empty());
}

#[test]
fn a_part_like_another_accepts_what_it_inherits() {
    let text = barrel("", "", "")
        + "\npart other like barrel {\n  accept thin-wall because \"tried\"\n}\n";
    let found = examined(&text);
    assert_eq!(found.accepted.len(), 1);
    // The first part is not accepted with it.
    finding(&found, "thin-wall");
}

#[test]
fn a_joint_accepts_what_is_said_of_it() {
    let text = |accept: &str| {
        format!(
            "\
part ring from front to back {{
  blank of brass rod 14
  length 4
  outside dia 13
  from front {{
    drill 10 through
  }}
}}

part barrel from mouth to tail {{
  blank of acrylic rod 16
  length 60
  outside dia 13
  from mouth {{
    tenon 9.9 for 4
  }}
}}

pen plain {{
  slip ring.back onto barrel.mouth clearance 0.05 {{
    {accept}
  }}
}}
"
        )
    };
    let of_rule = |text: &str| {
        examined(text)
            .findings
            .iter()
            .filter(|it| it.rule == "poor-fit")
            .count()
    };
    assert_eq!(of_rule(&text("")), 1);
    assert_eq!(
        of_rule(&text("accept poor-fit because \"lapped to suit\"")),
        0
    );
}
