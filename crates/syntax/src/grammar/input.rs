//! What ties chumsky to the lexemes: its input, its error, and the smallest parsers.

mod fault;

use super::expect::{Expect, ExpectSet, Thing};
use crate::ast::{Name, Text};
use crate::grammar::{Lexeme, WordId};
pub(crate) use fault::{FaultKind, SyntaxFault};

use crate::token::TokenKind;
use crate::{FileId, Span};
use chumsky::extra;
use chumsky::input::{InputRef, MappedInput};
use chumsky::inspector::SimpleState;
use chumsky::prelude::*;
use chumsky::util::MaybeRef;

pub(crate) type TokenInput<'s> = MappedInput<'s, Lexeme, Span, &'s [Lexeme]>;
pub(crate) type Extra<'s> = extra::Full<SyntaxFault, SimpleState<ParserState<'s>>, ()>;
pub(crate) type Rule<'s, T> = Boxed<'s, 's, TokenInput<'s>, T, Extra<'s>>;

/// What is read, and how.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ParserState<'s> {
    pub(crate) text: &'s str,
    /// Whether the words that join the phrases of a statement are refused as names. Tried where
    /// a statement cannot be read otherwise: in `drill to 12` the size is what is missing.
    pub(crate) strict: bool,
}

/// Something that reads a `T`.
pub(crate) trait TokenParser<'s, T>:
    Parser<'s, TokenInput<'s>, T, Extra<'s>> + Clone + 's
{
}
impl<'s, T, P: Parser<'s, TokenInput<'s>, T, Extra<'s>> + Clone + 's> TokenParser<'s, T> for P {}

impl chumsky::span::Span for Span {
    type Context = FileId;
    type Offset = u32;

    fn new(file: FileId, range: std::ops::Range<u32>) -> Self {
        // Where nothing was read chumsky gives the next token's start and the last one's end.
        Span {
            file,
            start: range.start.min(range.end),
            end: range.end,
        }
    }

    fn context(&self) -> FileId {
        self.file
    }

    fn start(&self) -> u32 {
        self.start
    }

    fn end(&self) -> u32 {
        self.end
    }
}

/// The lexemes of one statement as chumsky's input.
pub(crate) fn input(lexemes: &[Lexeme], end: Span) -> TokenInput<'_> {
    lexemes.map(end, |lexeme| (lexeme, &lexeme.span))
}

/// One lexeme that passes a test; `set` says what is expected where it does not.
fn lexeme<'s>(
    set: ExpectSet,
    test: impl Fn(&Lexeme, bool) -> bool + Clone + 's,
) -> impl TokenParser<'s, &'s Lexeme> {
    custom(
        move |input: &mut InputRef<'s, '_, TokenInput<'s>, Extra<'s>>| {
            let before = input.cursor();
            let strict = input.state().strict;
            match input.next_maybe() {
                Some(MaybeRef::Ref(found)) if test(found, strict) => Ok(found),
                _ => Err(SyntaxFault::expected(set, input.span_since(&before))),
            }
        },
    )
}

/// A word of the language.
///
/// # Panics
///
/// If the table of words does not hold it.
pub(crate) fn word<'s>(text: &'static str) -> impl TokenParser<'s, Span> {
    let id = WordId::of(text);
    assert!(id != WordId::NONE, "{text} is not in the table of words");
    lexeme(ExpectSet::of(Expect::Word(id)), move |lexeme, _| {
        lexeme.word.get() == id
    })
    .map(|lexeme| lexeme.span)
}

/// A token of a kind.
pub(crate) fn token<'s>(kind: TokenKind, thing: Thing) -> impl TokenParser<'s, Span> {
    lexeme(ExpectSet::of(Expect::Thing(thing)), move |lexeme, _| {
        lexeme.kind == kind
    })
    .map(|lexeme| lexeme.span)
}

/// A token of a kind that is not told among the expectations, as an operator.
pub(crate) fn quiet<'s>(kind: TokenKind) -> impl TokenParser<'s, Span> {
    lexeme(ExpectSet::default(), move |lexeme, _| lexeme.kind == kind).map(|lexeme| lexeme.span)
}

/// A token by its kind and its text.
pub(crate) type Seen<'s> = (TokenKind, &'s str);

/// A token that `read` takes as something, by itself and by the one after it, where there is one; it is not
/// told among the expectations.
pub(crate) fn quiet_as<'s, T: 's>(
    read: impl Fn(Seen<'s>, Option<Seen<'s>>) -> Option<T> + Clone + 's,
) -> impl TokenParser<'s, (T, Span)> {
    custom(
        move |input: &mut InputRef<'s, '_, TokenInput<'s>, Extra<'s>>| {
            let before = input.cursor();
            let (found, next) = (input.next_ref(), input.peek_ref());
            let reading = input.state().0;
            let seen = |lexeme: &Lexeme| (lexeme.kind, written(lexeme.span, &reading));
            let taken = found.and_then(|it| Some((read(seen(it), next.map(seen))?, it.span)));
            taken.ok_or_else(|| {
                SyntaxFault::expected(ExpectSet::default(), input.span_since(&before))
            })
        },
    )
}

/// A token of a kind, as its text.
pub(crate) fn text_of<'s>(kind: TokenKind, thing: Thing) -> impl TokenParser<'s, (&'s str, Span)> {
    token(kind, thing).map_with(|span, extra| (written(span, extra.state()), span))
}

/// Tokens of these kinds that touch, from a number or a gauge on, as their text, where all of it
/// passes a test: `7/16-14`, which in a sum is a difference.
pub(crate) fn touching<'s>(
    kinds: &'static [TokenKind],
    thing: Thing,
    test: fn(&str) -> bool,
) -> impl TokenParser<'s, (&'s str, Span)> {
    custom(
        move |input: &mut InputRef<'s, '_, TokenInput<'s>, Extra<'s>>| {
            let before = input.cursor();
            let expected =
                SyntaxFault::expected(ExpectSet::of(Expect::Thing(thing)), Span::default());
            let first = match input.next_maybe() {
                Some(MaybeRef::Ref(found))
                    if matches!(found.kind, TokenKind::Quantity | TokenKind::Gauge) =>
                {
                    found.span
                }
                _ => {
                    let span = input.span_since(&before);
                    return Err(SyntaxFault { span, ..expected });
                }
            };
            let mut whole = first;
            loop {
                let here = input.save();
                match input.next_maybe() {
                    Some(MaybeRef::Ref(next))
                        if next.span.start == whole.end && kinds.contains(&next.kind) =>
                    {
                        whole = whole.to(next.span);
                    }
                    _ => {
                        input.rewind(here);
                        break;
                    }
                }
            }
            let text = written(whole, input.state());
            match test(text) {
                true => Ok((text, whole)),
                false => Err(SyntaxFault {
                    span: first,
                    ..expected
                }),
            }
        },
    )
}

/// A name; one that is miswritten is taken as it stands, since the lexer has found it.
pub(crate) fn name<'s>(thing: Thing) -> impl TokenParser<'s, Name> {
    lexeme(ExpectSet::of(Expect::Thing(thing)), |lexeme, strict| {
        matches!(lexeme.kind, TokenKind::Name | TokenKind::BadName)
            && !lexeme.word.get().is_reserved()
            && !(strict && lexeme.word.get().joins())
    })
    .map_with(|lexeme, extra| Name {
        text: written(lexeme.span, extra.state()).into(),
        span: lexeme.span,
    })
}

/// A word that must come; where it does not, reading goes on as if it had.
pub(crate) fn needed_word<'s>(text: &'static str) -> impl TokenParser<'s, ()> {
    word(text).ignored().recover_with(via_parser(empty()))
}

/// A token that must come; where it does not, reading goes on as if it had.
pub(crate) fn needed<'s>(kind: TokenKind, thing: Thing) -> impl TokenParser<'s, ()> {
    token(kind, thing)
        .ignored()
        .recover_with(via_parser(empty()))
}

/// The end of a statement; what is left of one is passed over.
pub(crate) fn line_end<'s>() -> impl TokenParser<'s, ()> {
    end().recover_with(via_parser(any().repeated()))
}

/// A name that must come; where it does not, an empty one stands for it.
pub(crate) fn needed_name<'s>(thing: Thing) -> impl TokenParser<'s, Name> {
    name(thing).recover_with(via_parser(no_name()))
}

/// The empty name that stands for a missing one.
pub(crate) fn no_name<'s>() -> impl TokenParser<'s, Name> {
    empty().map_with(|(), extra| Name {
        text: "".into(),
        span: nothing(extra.span()),
    })
}

/// A string that must come; where it does not, an empty one stands for it.
pub(crate) fn needed_string<'s>(thing: Thing) -> impl TokenParser<'s, Text> {
    string(thing).recover_with(via_parser(empty().map_with(|(), extra| Text {
        text: "".into(),
        span: nothing(extra.span()),
    })))
}

/// A string, without its quotes; one whose end is missing is taken as it stands.
pub(crate) fn string<'s>(thing: Thing) -> impl TokenParser<'s, Text> {
    lexeme(ExpectSet::of(Expect::Thing(thing)), |lexeme, _| {
        matches!(lexeme.kind, TokenKind::String | TokenKind::BadString)
    })
    .map_with(|lexeme, extra| {
        let text = written(lexeme.span, extra.state());
        let quotes = ['"', '“', '”', '„'];
        let text = text.strip_prefix(quotes).unwrap_or(text);
        Text {
            text: text.strip_suffix(quotes).unwrap_or(text).into(),
            span: lexeme.span,
        }
    })
}

/// A number that is miswritten; the lexer has found it.
pub(crate) fn bad_number<'s>() -> impl TokenParser<'s, Span> {
    quiet(TokenKind::BadNumber)
}

/// The span of nothing, just after what was read last.
pub(crate) fn nothing(span: Span) -> Span {
    span.after()
}

/// The text at a span.
pub(crate) fn written<'s>(span: Span, reading: &ParserState<'s>) -> &'s str {
    reading.text.get(span.range()).unwrap_or("")
}
