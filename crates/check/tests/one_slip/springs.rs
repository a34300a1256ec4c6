//! A spring that is trapped through several parts.

use super::shown;
use quillet_check::examine;
use quillet_fixture::{EXAMPLES, MORE_EXAMPLES};
use quillet_model::{Texts, load, resolve};
use std::path::Path;

/// A refill in a sleeve over a tube with a plug, a spring of this length between it and the plug.
#[expect(clippy::too_many_lines, reason = "one text")]
fn sprung(length: &str) -> Vec<(String, String)> {
    let text = format!(
        "\
bought refill from point to end {{
  length 70
  mass 6
  outside dia 6.1
}}
bought spring from front to back {{
  length {length}
  mass 0.2
  outside dia 5.8
  from front {{
    bore 4.8 through
  }}
}}
part tube from front to back {{
  blank of brass rod 10
  length 70
  outside dia 8
  from front {{
    drill 6.6 through
  }}
}}
part sleeve from front to back {{
  blank of acrylic rod 16
  length 76
  outside dia 13
  from front {{
    drill 8.1 through
    bore 10 to 6
  }}
  from back {{}}
}}
part plug from front to tail {{
  blank of acrylic rod 16
  length 12
  outside dia 13
  from front {{
    tenon 6.5 for 4
  }}
}}
part section from tip to shank {{
  blank of acrylic rod 14
  length 26
  outside dia 13
  from tip {{
    drill 3 through
  }}
  from shank {{
    tenon 9.9 for 6
    bore 6.4 to 20
  }}
}}
pen sprung {{
  glue tube.back into sleeve.front by 76 gap 0.1
  glue plug.front into tube.back gap 0.1
  slip refill.point into section.shank
  glue section.shank into sleeve.front gap 0.1 through spring
}}
"
    );
    let texts = Texts::default().with("pen.quillet", &text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).unwrap());
    let found = examine(&design).findings;
    let grave = found
        .iter()
        .filter(|it| it.severity == quillet_syntax::Severity::Error);
    grave
        .map(|it| (it.rule.to_string(), it.message.to_string()))
        .collect()
}

#[test]
fn a_spring_trapped_through_several_parts_is_held_or_told_to_be_pressed_solid() {
    for length in ["2..30", "1..20"] {
        assert_eq!(sprung(length), [], "{length}");
    }
    for length in ["60..70", "30..40"] {
        let found = sprung(length);
        let [(rule, message)] = found.as_slice() else {
            panic!("{length}: {found:#?}")
        };
        assert_eq!(rule, "stops-early");
        assert!(
            message.contains("spring is pressed below its least length"),
            "{message}"
        );
    }
}

#[test]
fn a_spring_that_is_bound_however_the_pen_is_held_is_told_of_once() {
    let mut all = MORE_EXAMPLES.into_iter();
    let (_, sound) = all.find(|(name, _)| *name == "sandpiper.quillet").unwrap();
    assert!(sound.contains("length 4..14"));
    for length in ["9..14", "13..20"] {
        let text = sound.replace("length 4..14", &format!("length {length}"));
        let path = "more/sandpiper.quillet";
        let texts = Texts::from_iter(EXAMPLES).with(path, &text);
        let design = resolve(&load(Path::new(path), &texts).unwrap());
        let found = examine(&design).findings;
        let [finding] = found.as_slice() else {
            panic!(
                "{length}: {:#?}",
                found.iter().map(shown).collect::<Vec<_>>()
            );
        };
        assert_eq!(finding.rule, "spring-bound");
        let told = finding.message.to_string();
        assert!(told.starts_with("4.56 mm is left"), "{told}");
    }
}
