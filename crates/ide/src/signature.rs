//! What comes next in a statement, as it is typed.

use crate::Cursor;
use crate::forms::{Phrase, form, is_to_fill_in};
use quillet_syntax::grammar::{self, Place};
use quillet_syntax::{RuleId, Span, Token, TokenKind, expected};

/// How the statement at the cursor is written, and where in it the cursor is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signature {
    /// The whole form: `drill SIZE to DEPTH [at START]`.
    pub form: &'static str,
    /// What the statement is for.
    pub help: &'static str,
    /// The bytes of `form` that hold each phrase, in order.
    pub phrases: Vec<(usize, usize)>,
    /// The phrase at the cursor: an index into `phrases`; none past the last.
    pub active: Option<usize>,
}

/// The form of the statement at the cursor; none before its first word is complete, nor where the
/// statement is whole. Behind a blank at its end it goes on, where more may be said.
pub fn signature(cursor: Cursor<'_>) -> Option<Signature> {
    let tokens = typed(cursor);
    let first = tokens.first()?;
    let place = place(cursor)?;
    let form = form(place, cursor.text(first.span))?;
    if first.span.touches(cursor.offset) {
        return None;
    }
    let phrases = form.phrases();
    let active = Reader::new(&phrases).read(cursor, &tokens[1..]);
    let help = grammar::at(place)
        .find(|word| word.text == form.word())?
        .help;
    let mut from = form.word().len();
    let spans = phrases.iter().map(|phrase| {
        let start = from + form.line[from..].find(phrase.text).unwrap_or(0);
        from = start + phrase.text.len();
        (start, from)
    });
    let spans: Vec<_> = spans.collect();
    let active = (active < spans.len()).then_some(active);
    let goes_on = active.is_some() && is_behind(cursor);
    if !goes_on && is_whole(cursor) {
        return None;
    }
    Some(Signature {
        form: form.line,
        help,
        phrases: spans,
        active,
    })
}

/// Follows what is typed through the phrases of a form.
struct Reader<'p> {
    phrases: &'p [Phrase],
    /// The phrase that is being written.
    active: usize,
    /// Whether all of it has been said.
    filled: bool,
    /// Whether the last sign asks for another value.
    goes_on: bool,
    /// Parentheses that are open.
    depth: usize,
}

impl<'p> Reader<'p> {
    fn new(phrases: &'p [Phrase]) -> Self {
        Self {
            phrases,
            active: 0,
            filled: false,
            goes_on: false,
            depth: 0,
        }
    }

    /// The phrase at the cursor; past the last where all is said.
    fn read(mut self, cursor: Cursor<'_>, tokens: &[Token]) -> usize {
        for token in tokens {
            self.token(token.kind, cursor.text(token.span));
        }
        let being_typed = tokens
            .last()
            .is_some_and(|last| last.span.touches(cursor.offset));
        match self.filled && !self.goes_on && self.depth == 0 && !being_typed {
            true => self.active + 1,
            false => self.active,
        }
    }

    fn token(&mut self, kind: TokenKind, word: &str) {
        use TokenKind as T;
        match kind {
            T::OpenParen => self.depth += 1,
            T::CloseParen => {
                self.depth = self.depth.saturating_sub(1);
                (self.filled, self.goes_on) = (true, false);
            }
            _ if self.depth > 0 => {}
            T::Name | T::Equals | T::AtLeast | T::AtMost | T::PlusMinus | T::Colon
                if self.leads_on(word) => {}
            T::Less if self.leads_on("<=") => {}
            T::More if self.leads_on(">=") => {}
            T::String => {
                let ahead = self.phrases.iter().skip(self.active);
                let title = ahead
                    .take_while(|phrase| !phrase.text.contains('"'))
                    .count();
                if self.active + title < self.phrases.len() {
                    self.active += title;
                }
                (self.filled, self.goes_on) = (true, false);
            }
            T::Plus | T::Minus | T::Star | T::Slash | T::Comma | T::Dot | T::DotDot => {
                self.goes_on = true;
            }
            // Its letter follows.
            T::Name if word == "letter" => self.goes_on = true,
            _ => self.value(),
        }
    }

    /// A word or sign of a phrase from here on. What has been said is not said again: of
    /// `taper 9 to 8 to 12` the second `to` is the reach.
    fn leads_on(&mut self, word: &str) -> bool {
        let phrases = self.phrases;
        let found = |from: usize| {
            let mut ahead = phrases.iter().enumerate().skip(from);
            ahead.find_map(|(at, phrase)| Some((at, phrase.after(word)?)))
        };
        let next = self.active + usize::from(self.filled);
        let Some((at, rest)) = found(next).or_else(|| found(self.active)) else {
            return false;
        };
        self.active = at;
        self.filled = !is_to_fill_in(rest);
        self.goes_on = false;
        true
    }

    /// A value: the first after a phrase that is filled belongs to the next that has no word.
    fn value(&mut self) {
        if self.filled && !self.goes_on {
            let mut ahead = self.phrases.iter().enumerate().skip(self.active + 1);
            if let Some((at, _)) = ahead.find(|(_, phrase)| phrase.begins_with_a_value()) {
                self.active = at;
            }
        }
        (self.filled, self.goes_on) = (true, false);
    }
}

/// The tokens of the statement from its start to the cursor.
fn typed(cursor: Cursor<'_>) -> Vec<Token> {
    let tokens = &cursor.file.parsed.tokens;
    let end = tokens.partition_point(|token| (token.span.start as usize) < cursor.offset);
    let mut line: Vec<Token> = of_line(tokens[..end].iter().rev()).collect();
    line.reverse();
    line
}

/// The tokens of the statement behind the cursor.
fn to_come(cursor: Cursor<'_>) -> impl Iterator<Item = Token> {
    let tokens = &cursor.file.parsed.tokens;
    let end = tokens.partition_point(|token| (token.span.start as usize) < cursor.offset);
    of_line(tokens[end..].iter())
}

fn of_line<'t>(tokens: impl Iterator<Item = &'t Token>) -> impl Iterator<Item = Token> {
    let within = |token: &&Token| {
        !token.kind.is_separator() && !matches!(token.kind, TokenKind::Open | TokenKind::Close)
    };
    let line = tokens.take_while(within);
    line.filter(|token| !token.kind.is_trivia()).copied()
}

/// Whether the cursor is behind all of the statement that is written, and a blank.
fn is_behind(cursor: Cursor<'_>) -> bool {
    let last = typed(cursor).last().map(|last| last.span);
    last.is_some_and(|last| !last.touches(cursor.offset)) && to_come(cursor).next().is_none()
}

/// Whether nothing is wrong with how the statement at the cursor is written.
fn is_whole(cursor: Cursor<'_>) -> bool {
    let line: Vec<Span> = typed(cursor)
        .into_iter()
        .chain(to_come(cursor))
        .map(|it| it.span)
        .collect();
    let (Some(first), Some(last)) = (line.first(), line.last()) else {
        return false;
    };
    let all = Span::new(cursor.file.id, first.start as usize, last.end as usize);
    let slips = cursor.file.parsed.findings.iter();
    let mut slips = slips.filter(|slip| slip.rule == RuleId::SYNTAX);
    !slips.any(|slip| slip.span.start <= all.end && all.start <= slip.span.end)
}

/// The kind of statement the cursor is in.
fn place(cursor: Cursor<'_>) -> Option<Place> {
    expected(cursor.file.id, &cursor.file.text, cursor.offset).map(|expected| expected.place)
}
