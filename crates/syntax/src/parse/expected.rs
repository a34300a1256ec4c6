//! What may stand at a place, for completion: the parser itself says it.

use super::reader;
use crate::grammar::expect::{Expect, ExpectSet, Thing};
use crate::grammar::{self, Lexeme, Place, Statement, Word, WordId};
use crate::layout::{Layout, layout};
use crate::token::{TokenKind, lex};
use crate::{FileId, Span};

/// What may stand at a place of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expected {
    /// What is being written there and would be replaced; empty where nothing is.
    pub word: Span,
    /// The kind of statement it stands in.
    pub place: Place,
    /// Whether it begins the statement.
    pub first: bool,
    /// The words of the language that may stand there, in the manual's order.
    pub words: Vec<&'static Word>,
    /// Anything else that may stand there.
    pub things: Vec<Thing>,
}

/// A token put where something is expected; then made one that no rule reads.
const STRANGER: char = ')';

/// What may stand at byte `offset` of a text; what comes after it is not looked at.
///
/// None within a comment.
pub fn expected(file: FileId, text: &str, offset: usize) -> Option<Expected> {
    let mut offset = offset.min(text.len());
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    let tokens = lex(file, text);
    let here = tokens
        .iter()
        .find(|token| (token.span.start as usize) < offset && offset <= token.span.end as usize);
    let word = match here.map(|token| token.kind) {
        Some(TokenKind::Comment) => return None,
        Some(TokenKind::String | TokenKind::BadString) => here?.span,
        _ => Span::new(file, word_start(text, offset), offset),
    };
    let before = &text[..word.start as usize];
    let depth = open_blocks(file, before);
    let asked = format!("{before}{STRANGER}{}", "\n}".repeat(depth));
    let tokens = lex(file, &asked);
    let (mut laid, ..) = layout(&asked, &tokens);
    let stranger = laid
        .lexemes
        .iter_mut()
        .find(|lexeme| lexeme.span.start == word.start);
    stranger?.kind = TokenKind::Unknown;
    let mut heard = reader::listen(file, &asked, &tokens, &laid, word.start)?;
    let word_before = text_before(text, &laid, word.start);
    let begun = grammar::statement_of(heard.place, word_before).filter(|_| heard.index == 1);
    let of_rule = begun.and_then(Statement::first_slot).map(|slot| slot.thing);
    if let Some(thing) = of_rule.or_else(|| misses(text, &laid, word.start)) {
        heard.set = ExpectSet::of(Expect::Thing(thing));
    }
    Some(Expected {
        word,
        place: heard.place,
        first: heard.index == 0,
        words: words_of(heard.set, heard.place, heard.index == 0),
        things: heard.set.things().collect(),
    })
}

/// Where the name, number or size begins that ends at `offset`.
fn word_start(text: &str, offset: usize) -> usize {
    let bytes = text.as_bytes();
    let mut start = offset;
    while start > 0 {
        let within_number = |byte: u8| {
            matches!(byte, b'.' | b'/')
                && start >= 2
                && bytes[start - 2].is_ascii_digit()
                && bytes
                    .get(start)
                    .is_none_or(|next| start == offset || next.is_ascii_digit())
        };
        match bytes[start - 1] {
            b'-' if start >= 2 && bytes[start - 2] == b'-' => break,
            byte if byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_') => start -= 1,
            byte if within_number(byte) => start -= 1,
            b'#' => return start - 1,
            _ => break,
        }
    }
    // A hyphen or a minus begins no word.
    while start < offset && bytes[start] == b'-' {
        start += 1;
    }
    start
}

/// The lexeme that ends last before `at`, as it is written.
fn text_before<'t>(text: &'t str, laid: &Layout, at: u32) -> &'t str {
    let end = laid
        .lexemes
        .partition_point(|lexeme| lexeme.span.start < at);
    let last = laid.lexemes[..end].last();
    last.map_or("", |last| &text[last.span.range()])
}

/// What is missing at `at` where the parser speaks only of what must come later: in the sum of a
/// `want` it says that the test is missing.
fn misses(text: &str, laid: &Layout, at: u32) -> Option<Thing> {
    let end = laid
        .lexemes
        .partition_point(|lexeme| lexeme.span.start < at);
    let want = WordId::of("want");
    let mut before = laid.lexemes[..end].iter().rev();
    let last = before.next()?;
    let on_this_line =
        |lexeme: &Lexeme| !text[lexeme.span.range().start..at as usize].contains(['\n', '\r', ';']);
    if !on_this_line(last) {
        return None;
    }
    use TokenKind as T;
    match last.kind {
        T::OpenParen | T::Comma | T::Plus | T::Minus | T::Star | T::Slash => {
            let tested =
                |kind| matches!(kind, T::AtLeast | T::AtMost | T::Equals | T::Less | T::More);
            let mut measured = before.take_while(|it| on_this_line(it) && !tested(it.kind));
            measured
                .any(|it| it.word.get() == want)
                .then_some(Thing::Measure)
        }
        T::Dot => {
            let mut measured = before.take_while(|it| on_this_line(it));
            measured
                .any(|it| it.word.get() == want)
                .then_some(Thing::FaceName)
        }
        _ => None,
    }
}

/// How many blocks are open at the end of a text.
fn open_blocks(file: FileId, text: &str) -> usize {
    lex(file, text)
        .iter()
        .fold(0, |depth: usize, token| match token.kind {
            TokenKind::Open => depth + 1,
            TokenKind::Close => depth.saturating_sub(1),
            _ => depth,
        })
}

/// The words of a set with what they mean at this place.
fn words_of(set: ExpectSet, place: Place, first: bool) -> Vec<&'static Word> {
    let texts: Vec<&str> = set.words().map(WordId::text).collect();
    if first {
        return grammar::at(place)
            .filter(|word| texts.contains(&word.text))
            .collect();
    }
    let mut found: Vec<&'static Word> = Vec::new();
    for text in texts {
        let within = grammar::meanings(text).filter(|word| word.place.noun().is_none());
        let nearest = within.min_by_key(|word| !tails(place).contains(&word.place));
        found.extend(nearest.or_else(|| grammar::meanings(text).next()));
    }
    found
}

/// Where the words after a statement's first are found.
fn tails(place: Place) -> &'static [Place] {
    match place {
        Place::Item => &[Place::Header, Place::Form, Place::Stock, Place::MadeTail],
        Place::Material => &[Place::MaterialTail],
        Place::Part => &[Place::PartTail, Place::Stock, Place::StationTail],
        Place::Station => &[Place::StationTail],
        Place::Cut => &[Place::Reach, Place::CutTail, Place::Size, Place::Form],
        Place::Side => &[Place::SideTail, Place::Size],
        Place::Pen => &[Place::Joint, Place::JointTail],
        Place::JointLine => &[Place::SeatTail],
        Place::Bench => &[Place::BenchTail],
        Place::Shelf => &[Place::ShelfTail],
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What may stand at `|`: the place, the words, then the things.
    fn at_bar(text: &str) -> String {
        let offset = text.find('|').unwrap();
        let text = text.replacen('|', "", 1);
        let Some(found) = expected(FileId(0), &text, offset) else {
            return "nothing".into();
        };
        let words: Vec<_> = found.words.iter().map(|word| word.text).collect();
        let words = words.join(" ");
        format!(
            "{:?} {:?}: {words}; {:?}",
            &text[found.word.range()],
            found.place,
            found.things
        )
    }

    #[test]
    fn the_words_that_begin_a_statement_are_those_of_its_place() {
        let items = at_bar("|");
        assert!(
            items.starts_with("\"\" Item: use let limit material thread blank part"),
            "{items}"
        );
        assert_eq!(
            at_bar("let a = 1\n  pa|"),
            at_bar("|").replacen("\"\"", "\"pa\"", 1)
        );
        let cuts = at_bar("part a from x to y {\n  from x {\n    |");
        assert!(
            cuts.starts_with("\"\" Cut: tenon drill bore ream thread relief"),
            "{cuts}"
        );
        let stations = at_bar("part a from x to y {\n  outside {\n    at 0 dia 3\n |\n  }\n}\n");
        assert_eq!(stations, "\"\" Station: at; []");
    }

    #[test]
    fn within_a_statement_what_comes_next_is_said() {
        let cut = |line: &str| {
            at_bar(&format!(
                "part a from x to y {{\nfrom x {{\n{line}|\n}}\n}}\n"
            ))
        };
        assert_eq!(cut("drill "), "\"\" Cut: ; [Size]");
        assert_eq!(cut("drill 8 "), "\"\" Cut: to for through; []");
        assert_eq!(cut("thread "), "\"\" Cut: ; [Thread]");
    }

    #[test]
    fn in_a_pen_the_kinds_of_name_are_told_apart() {
        let pen = |line: &str| at_bar(&format!("pen a {{\n{line}|"));
        assert_eq!(pen("close "), "\"\" Pen: ; [Face]");
        assert_eq!(pen("close cap."), "\"\" Pen: ; [FaceName]");
        assert_eq!(pen("close cap.mouth "), "\"\" Pen: into onto; []");
        assert_eq!(pen("screw a.b into c.d with "), "\"\" Pen: ; [ThreadName]");
        assert_eq!(pen("want "), "\"\" Pen: ; [Measure]");
        assert_eq!(pen("want balance(capped) / le"), "\"le\" Pen: ; [Measure]");
        assert_eq!(pen("want length("), "\"\" Pen: ; [Measure]");
        assert_eq!(pen("want distance(cap."), "\"\" Pen: ; [FaceName]");
        assert_eq!(at_bar("thread |"), "\"\" Item: ; [Name]");
        assert_eq!(
            pen("want length(capped) "),
            "\"\" Pen: within; [Comparison]"
        );
        assert_eq!(pen("want length(capped) <= "), "\"\" Pen: ; [Quantity]");
        assert_eq!(pen("accept "), "\"\" Pen: ; [Rule]");
    }

    #[test]
    fn what_is_half_written_is_replaced() {
        assert!(at_bar("part a from x to y {\nfrom x {\ndrill 12.|").starts_with("\"12.\""));
        assert!(at_bar("part a from x to y {\nfrom x {\ndrill 7/1|").starts_with("\"7/1\""));
        assert!(at_bar("pen a {\nscrew nib-|").starts_with("\"nib-\""));
        assert!(at_bar("pen a {\nscrew cap.mo|").starts_with("\"mo\""));
        assert!(at_bar("use \"sal|tings.quillet\"").starts_with("\"\\\"saltings.quillet\\\"\""));
        assert_eq!(at_bar("-- a no|te"), "nothing");
    }
}
