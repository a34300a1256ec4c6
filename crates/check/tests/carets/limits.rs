use crate::{expect, expect_no_more};

/// A barrel with a plain wall of 0.8, and lines around it.
fn barrel(file: &str, part: &str, caret: bool, pen: &str) -> String {
    let caret = if caret {
        "--  ^^^^^^^^^^^^^^^^ thin-wall\n"
    } else {
        ""
    };
    format!(
        "\
{file}
part barrel from mouth to tail {{
  blank of acrylic rod 16
  length 60
  outside dia 13
  from mouth {{
    drill 11.4 to 50
{caret}  }}
{part}
}}

part knob from face to top {{
  blank of acrylic rod 16
  length 10
  outside dia 11.4
  from face {{
    drill 2 through
  }}
}}

pen plain {{
  glue knob.face into barrel.mouth gap 0
{pen}
}}
"
    )
}

#[test]
fn the_nearest_limit_counts() {
    expect("thin-wall", &barrel("", "", true, ""));
    expect("thin-wall", &barrel("limit thin-wall = 0.7", "", false, ""));
    expect(
        "thin-wall",
        &barrel("limit thin-wall = 0.7", "  limit thin-wall = 0.9", true, ""),
    );
    expect(
        "thin-wall",
        &barrel(
            "limit thin-wall = 0.9",
            "",
            false,
            "  limit thin-wall = 0.7",
        ),
    );
    expect(
        "thin-wall",
        &barrel(
            "",
            "  limit thin-wall = 0.7",
            false,
            "  limit thin-wall = 0.9",
        ),
    );
}

#[test]
fn a_bench_has_its_own_limits() {
    let bench = "bench saltings {\n  limit thin-wall = 0.7\n}\n";
    expect("thin-wall", &barrel(bench, "", false, ""));
}

#[test]
fn a_limit_names_a_rule_that_has_a_threshold_in_its_unit() {
    expect_no_more(
        "\
limit thin-wal = 0.7
--    ^^^^^^^^ unknown-name
limit broken-through = 0.7
--    ^^^^^^^^^^^^^^ unknown-name
bench saltings {
  limit thin-wall = 7deg
--^^^^^^^^^^^^^^^^^^^^^^ unit-mismatch
  limit kinked-outside = 3deg
}
",
    );
}
