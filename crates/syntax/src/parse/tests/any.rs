//! Any text yields a tree that tells of nothing outside it.

use super::super::*;
use proptest::prelude::*;

/// Bits of programs, in any order.
pub(crate) fn soup() -> impl Strategy<Value = String> {
    let words: Vec<_> = crate::grammar::WORDS.iter().map(|word| word.text).collect();
    let signs = vec![
        "{",
        "}",
        "\n",
        "\n",
        ";",
        "(",
        ")",
        ",",
        ".",
        "..",
        "=",
        "+-",
        "-",
        "12",
        "0.8mm",
        "7/16in",
        "M10x0.75",
        "#7",
        "H7/g6",
        "\"a\"",
        "\"",
        "-- note\n",
        "heron",
        "⌀",
        "cap.mouth",
        "\r",
        "A",
    ];
    let bit = prop_oneof![
        proptest::sample::select(words),
        proptest::sample::select(signs),
    ];
    proptest::collection::vec((bit, "[ ]{0,2}"), 0..60).prop_map(|bits| {
        bits.into_iter()
            .map(|(bit, blank)| bit.to_owned() + &blank)
            .collect()
    })
}

fn yields_a_tree(text: &str) -> Result<(), TestCaseError> {
    let parsed = parse(FileId(3), text);
    let joined: String = parsed
        .tokens
        .iter()
        .map(|token| &text[token.span.range()])
        .collect();
    prop_assert_eq!(joined, text);
    for finding in &parsed.findings {
        prop_assert!(text.get(finding.span.range()).is_some(), "{:?}", finding);
        for edit in finding.fixes.iter().flat_map(|fix| &fix.edits) {
            prop_assert!(text.get(edit.span.range()).is_some(), "{:?}", finding);
        }
    }
    for item in &parsed.tree.items {
        prop_assert!(!item.span.is_empty() && text.get(item.span.range()).is_some());
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_text_yields_a_tree(text in "(\\PC|[\r\n\t -~]){0,200}") {
        yields_a_tree(&text)?;
    }

    #[test]
    fn any_bytes_yield_a_tree(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        yields_a_tree(&String::from_utf8_lossy(&bytes))?;
    }

    #[test]
    fn any_words_yield_a_tree(text in soup()) {
        yields_a_tree(&text)?;
    }
}
