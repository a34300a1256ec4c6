//! Which lines a block is offered: what it lacks first, what it has once never again, what judges it last.

use crate::asked::{BARREL, PEN, at};

/// What is offered on a line of its own in a block of this header, behind these lines.
fn next(header: &str, lines: &str) -> Vec<String> {
    at(&format!("{PEN}{BARREL}{header} {{\n{lines}  |\n}}\n")).labels()
}

fn place(labels: &[String], word: &str) -> usize {
    let place = labels.iter().position(|it| it == word);
    place.unwrap_or_else(|| panic!("no {word} in {labels:?}"))
}

const LINER: &str = "part liner from front to back";

#[test]
fn what_a_part_cannot_do_without_comes_first_until_it_stands() {
    let needed = ["blank", "length", "outside", "from"];
    assert_eq!(next(LINER, "")[..4], needed);
    let blank = "  blank of reed rod 12\n";
    assert_eq!(next(LINER, blank)[..3], needed[1..]);
    let length = format!("{blank}  length 20\n");
    assert_eq!(next(LINER, &length)[..2], needed[2..]);
    // What is meant by a note is not said.
    let noted = format!("{blank}  -- length 20\n");
    assert_eq!(next(LINER, &noted)[..3], needed[1..]);
    assert_eq!(next("material tide", "")[0], "kind");
    assert_eq!(
        next("bought clip from top to foot", "")[..2],
        ["length", "outside"]
    );
}

#[test]
fn what_judges_a_block_and_what_it_rests_on_comes_last() {
    let late = ["let", "limit", "want", "accept"];
    for (header, lines) in [
        (LINER, ""),
        ("pen heron", "  screw cap.mouth into barrel.mouth\n"),
    ] {
        let labels = next(header, lines);
        let last = &labels[labels.len() - late.len()..];
        assert!(
            late.iter().all(|it| last.contains(&(*it).to_owned())),
            "{labels:?}"
        );
    }
    // What is like another is written for what is otherwise in it.
    assert_eq!(next("pen heron like curlew", "")[0], "let");
    // A file's own quantities are as usual as its parts.
    let items = at(&format!("{PEN}|")).labels();
    assert!(place(&items, "let") < place(&items, "part, whole"));
    assert_eq!(items.last().unwrap(), "limit");
}

#[test]
fn what_stands_once_is_not_offered_twice() {
    let all = "  blank of reed rod 12\n  length 20\n  outside dia 10\n  side {\n  }\n  \
               finish \"lacquer\" coat 0.05\n  bench saltings\n";
    let labels = next(LINER, all);
    for once in ["length", "outside", "side", "finish", "bench"] {
        assert!(next(LINER, "").contains(&once.to_owned()), "{once}");
        assert!(!labels.contains(&once.to_owned()), "{once}: {labels:?}");
    }
    // A blank may be glued of several, and both ends are cut from.
    assert!(labels.contains(&"blank".into()) && labels.contains(&"from".into()));
    // What another block says is that block's.
    assert!(next(LINER, "  outside {\n  }\n").contains(&"length".into()));
    let labels = at(&format!(
        "{PEN}{BARREL}pen heron {{\n  close cap.mouth onto barrel.mouth {{\n    flush\n    |\n  }}\n}}\n"
    ))
    .labels();
    assert!(
        !labels.contains(&"flush".into()) && labels[0] == "seat",
        "{labels:?}"
    );
    assert!(!next("pen heron", "  fill barrel\n").contains(&"fill".into()));
    assert!(!next("bench saltings", "  caliper 0.02\n").contains(&"caliper".into()));
}

#[test]
fn a_line_that_is_written_anew_is_offered_itself() {
    let labels = at(&PEN.replace("  length 64", "  le|ngth 64")).labels();
    assert!(labels.contains(&"length".into()), "{labels:?}");
    assert!(!labels.contains(&"outside".into()), "{labels:?}");
}

#[test]
fn a_part_is_not_offered_what_only_a_part_of_another_kind_says() {
    let cut = next(LINER, "");
    let bought = next("bought clip from top to foot", "");
    for word in ["mass", "holds", "ring", "arm", "throw", "pulls", "grips"] {
        assert!(!cut.contains(&word.into()), "{word}");
        assert!(bought.contains(&word.into()), "{word}");
    }
    for word in ["blank", "side", "finish"] {
        assert!(!bought.contains(&word.into()), "{word}");
    }
}
