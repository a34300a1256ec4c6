use super::TokenKind::*;
use super::*;
use proptest::prelude::*;

fn kinds(text: &str) -> Vec<TokenKind> {
    lex(FileId(0), text)
        .iter()
        .map(|token| token.kind)
        .filter(|kind| *kind != Blank)
        .collect()
}

#[test]
fn the_longest_token_is_taken() {
    for (text, expected) in [
        ("nib-unit", vec![Name]),
        ("shoulder - 2", vec![Name, Minus, Quantity]),
        ("shoulder-2", vec![Name]),
        ("a--b", vec![Name, Comment]),
        ("7/16in", vec![Quantity]),
        ("7/16", vec![Quantity, Slash, Quantity]),
        ("1-5/8", vec![Quantity]),
        ("1-5/8in", vec![Quantity]),
        ("10-3", vec![Quantity, Minus, Quantity]),
        ("0.25in", vec![Quantity]),
        ("5..10", vec![Quantity, DotDot, Quantity]),
        ("5.0..10", vec![Quantity, DotDot, Quantity]),
        ("cap.mouth", vec![Name, Dot, Name]),
        ("#7", vec![Gauge]),
        ("#1..#60", vec![Gauge, DotDot, Gauge]),
        ("A..Z", vec![Capital, DotDot, Capital]),
        ("M13x0.8", vec![Thread]),
        ("M10", vec![Thread]),
        ("M13xPh2.4P0.8", vec![Thread]),
        ("M13x0.8-6H/6g-LH", vec![Thread]),
        ("M13x0.8-5g6g", vec![Thread]),
        ("7/16-28UNEF", vec![Thread]),
        ("7/16-14", vec![Quantity, Slash, Quantity, Minus, Quantity]),
        ("7/16-14-LH", vec![Thread]),
        ("#10-32-2A-LH", vec![Thread]),
        ("1-1/8-12UNF-2B", vec![Thread]),
        ("#10-32UNF-2A", vec![Thread]),
        ("1-8UNC", vec![Thread]),
        ("H7/g6", vec![Fit]),
        ("H11/c11", vec![Fit]),
        ("M6/h5", vec![Fit]),
        ("M13x0.8-6g", vec![Thread]),
        ("12mm", vec![Quantity]),
        ("12mn", vec![BadNumber]),
        ("12inch", vec![BadNumber]),
        ("Heron", vec![BadName]),
        ("M10X0.75", vec![BadName]),
        ("M7.4×0.5-6g", vec![BadName]),
        ("M10X0..5", vec![BadName, DotDot, Quantity]),
        ("nib_unit", vec![BadName]),
        ("100:10", vec![Quantity, Colon, Quantity]),
        ("0.5 +- 0.1", vec![Quantity, PlusMinus, Quantity]),
        ("\"reed", vec![BadString]),
        ("\"reed\"", vec![String]),
        ("pen a \"Heron {", vec![Name, Name, BadString, Open]),
        ("\"{", vec![BadString, Open]),
        ("“Heron” {", vec![BadString, Open]),
        ("“Heron {", vec![BadString, Open]),
        ("⌀", vec![Unknown]),
        (
            "a\rb\r\nc\n",
            vec![Name, Newline, Name, Newline, Name, Newline],
        ),
        ("\u{feff}a", vec![Bom, Name]),
        ("a \u{feff}", vec![Name, Unknown]),
    ] {
        assert_eq!(kinds(text), expected, "{text}");
    }
}

proptest! {
    #[test]
    fn tokens_joined_are_the_source(text in "(\\PC|[\r\n\t -~]){0,80}") {
        let mut end = 0;
        for token in lex(FileId(0), &text) {
            prop_assert_eq!(token.span.range().start, end);
            prop_assert!(!token.span.is_empty());
            prop_assert!(text.is_char_boundary(token.span.range().end));
            end = token.span.range().end;
        }
        prop_assert_eq!(end, text.len());
    }
}
