use super::*;
use crate::edited;
use crate::parse::soup;
use proptest::prelude::*;

const HERON: &str = include_str!("../parse/tests/heron.quillet");

/// The tree of a text, without spans.
fn tree(text: &str) -> String {
    let tree = format!("{:?}", parse(FileId(0), text).tree);
    let mut out = String::new();
    let mut rest = tree.as_str();
    while let Some(at) = rest.find("0:") {
        out += &rest[..at];
        let span = &rest[at + 2..];
        let length = span.find(|c: char| !c.is_ascii_digit() && c != '.');
        rest = &span[length.unwrap_or(0)..];
    }
    out + rest
}

fn keeps_what_is_said(text: &str) -> Result<(), TestCaseError> {
    let once = format(text);
    prop_assert_eq!(&format(&once), &once, "formatting twice differs from once");
    prop_assert_eq!(
        tree(text),
        tree(&once),
        "formatting changed the tree: {}",
        once
    );
    prop_assert_eq!(
        &format(&loosened(text)),
        &once,
        "columns taken off and set again"
    );
    prop_assert_eq!(edited(text, &format_edits(FileId(0), text)), Some(once));
    Ok(())
}

#[test]
fn a_loosened_line_depends_on_no_neighbour() {
    let text = "let a = 1 -- a\nlet longer-name = 2   -- b\npart cap from a to b {\n  outside {\n    \
        at 0 from a    dia 12\n    at 5           dia 13.5  smooth\n  }\n}\n";
    let loose = loosened(text);
    for line in [
        "let a = 1 -- a\n",
        "    at 0 from a dia 12\n",
        "    at 5 dia 13.5 smooth\n",
    ] {
        assert!(loose.contains(line), "{loose}");
    }
    let alone = loosened(&text.replace("let longer-name = 2   -- b\n", ""));
    assert!(loose.ends_with(alone.strip_prefix("let a = 1 -- a\n").unwrap()));
}

/// A line stands the same alone and between any others, and what is too long takes one blank.
#[test]
fn no_line_moves_because_of_another() {
    let text = "let a = 1                              -- a\nlet a-name-that-is-long-enough-for-any-pen = 2 \
        -- b\n\npart cap from mouth to crown {\n  outside {\n    at 0            dia 12\n    \
        at 12.0625 from crown dia 14.4 smooth\n    at crown        dia 0     dome\n  }\n  from mouth {\n    \
        bore 13.1               to 2.5\n    thread closing-thread inside to 7.5\n  }\n}\n\npen p {\n  \
        close cap.mouth onto barrel.mouth\n  push  a.b into c.d\n}\n";
    assert_eq!(format(text), text);
    for line in text
        .lines()
        .filter(|it| !it.contains(['{', '}']) && !it.is_empty())
    {
        let without = text.replacen(&format!("{line}\n"), "", 1);
        assert_eq!(format(&without), without, "without {line:?}");
    }
}

#[test]
fn a_brace_below_an_open_string_is_not_drawn_into_it() {
    let text = "material reed \"Reed\n{\n  kind acrylic\n}\n";
    assert_eq!(format(text), text);
    assert_eq!(format_edits(FileId(0), text), []);
}

#[test]
fn the_whole_pen_looks_as_it_should() {
    insta::assert_snapshot!(format(HERON));
}

#[test]
fn a_crowded_text_is_spread_out() {
    let text = "use \"a\";use \"b\" -- bench   \n\n\n-- the grip\nlet grip=( a+3 )*- -2 ;let long-name =min( 1 ,2)
part cap from mouth to crown{length 4 .. 12
outside{at 0 dia 15.2 as lip
at 6 from crown dia 14.4 smooth;at crown dia 0 dome -- closed
}
   -- from here
from mouth{drill 8.25 to 30 point 135
  -- the closing thread
thread closing inside to 7.5 at 2.5
chamfer 0.5;tenon for 8}
}
pen heron\"Heron\"{close cap . mouth onto barrel.mouth{ flush;want turns=3+-0.5}
push a.b into c.d by-3
bench saltings   }
bench b { }
";
    insta::assert_snapshot!(format(text));
}

#[test]
fn what_cannot_be_read_stays_as_written() {
    let text = "let  a=1\nlet   b =  ? 3  -- odd\npart  c {\n  length   \n outside dia  3\n}\n";
    insta::assert_snapshot!(format(text));
    let unclosed = "part c {\n   length  3\n";
    assert_eq!(format(unclosed), unclosed);
}

/// A fraction is a size, not a sum; written apart it stays apart.
#[test]
fn fractions_and_designations_keep_together() {
    let text = "let wall = 3/4\nlet half = 3 / 4 - 1/16\nlet part = wall / 2\n\n\
                thread joint = 7/16-14\nthread cap = 1/2-30 starts 3\n\n\
                bench b {\n  drills 1/16..1/2 step 1/64\n  taps 7/16-14, #10-32\n}\n";
    assert_eq!(format(text), text);
    assert_eq!(
        format("let a = 3/ 4\nlet b = wall/2\n"),
        "let a = 3 / 4\nlet b = wall / 2\n"
    );
}

#[test]
fn an_item_within_another_is_not_moved() {
    for text in [
        "{part dimensions}",
        "part a {\npart b from c to d {\n}\n}\n",
    ] {
        assert_eq!(format(text), text);
    }
}

#[test]
fn line_ends_and_the_byte_order_mark_stay() {
    assert_eq!(
        format("let a=1\r\nlet b=2\nlet c=3\r\n"),
        "let a = 1\r\nlet b = 2\r\nlet c = 3\r\n"
    );
    assert_eq!(
        format("\u{feff}let a=1\rlet b=2\r"),
        "\u{feff}let a = 1\rlet b = 2\r"
    );
    assert_eq!(format("\n\n"), "");
    assert_eq!(format("let a=1"), "let a = 1\n");
}

/// A program with some of its tokens left out, doubled or swapped, and other blanks between.
fn mutated() -> impl Strategy<Value = String> {
    let blanks = prop_oneof![
        6 => Just(None),
        1 => Just(Some(" ")),
        1 => Just(Some("")),
        1 => Just(Some("\n")),
        1 => Just(Some(" ; ")),
        1 => Just(Some("\r\n\t")),
        1 => Just(Some(" -- note\n")),
    ];
    let whole = proptest::collection::vec(blanks, HERON.len() / 2);
    let changes = proptest::collection::vec((any::<prop::sample::Index>(), 0..3), 0..4);
    (whole, changes, 0..HERON.len() / 2, 40..400_usize).prop_map(
        |(blanks, changes, from, length)| {
            let mut bits: Vec<_> = crate::lex(FileId(0), HERON)
                .iter()
                .map(|token| (token.kind, &HERON[token.span.range()]))
                .collect();
            for (at, change) in changes {
                let at = at.index(bits.len());
                match change {
                    0 => drop(bits.remove(at)),
                    1 => bits.insert(at, bits[at]),
                    _ => {
                        let last = bits.len() - 1;
                        bits.swap(at, (at + 3).min(last));
                    }
                }
            }
            let from = from.min(bits.len());
            let bits = bits.iter().skip(from / 2).take(length);
            bits.zip(blanks)
                .map(|(&(kind, text), blank)| match (kind, blank) {
                    (crate::TokenKind::Blank, Some(other)) => other,
                    _ => text,
                })
                .collect()
        },
    )
}

#[test]
fn a_mark_that_is_not_first_does_not_become_so() {
    for text in [" \u{feff}", " \u{feff} let a = 1\n", "\n\u{feff}\n"] {
        let formatted = crate::format(text);
        assert_eq!(crate::format(&formatted), formatted, "{text:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn formatting_keeps_what_is_said_in_any_words(text in soup()) {
        keeps_what_is_said(&text)?;
    }

    #[test]
    fn formatting_keeps_what_is_said_in_damaged_pens(text in mutated()) {
        keeps_what_is_said(&text)?;
    }

    #[test]
    fn formatting_keeps_any_text(text in "(\\PC|[\r\n\t -~]){0,120}") {
        keeps_what_is_said(&text)?;
    }
}
