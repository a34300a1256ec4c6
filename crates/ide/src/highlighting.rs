//! What each word of a file is, for an editor to colour.

use crate::Analysis;
use quillet_model::{NameKind, SourceFile};
use quillet_syntax::{Span, TokenKind, grammar};
use std::collections::BTreeMap;

/// A word and what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Coloured {
    /// The word; never over more than one line.
    pub span: Span,
    /// What it is.
    pub kind: Colour,
    /// Whether it stands in its own definition.
    pub defines: bool,
}

/// What a word is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the variants say it")]
pub enum Colour {
    Comment,
    Keyword,
    Number,
    Text,
    Operator,
    Designation,
    Let,
    Material,
    Thread,
    Blank,
    Part,
    Bought,
    Bench,
    Pen,
    Face,
    Measure,
    Rule,
}

impl Colour {
    /// All of them, in the order of their numbers.
    pub const ALL: [Colour; 17] = [
        Colour::Comment,
        Colour::Keyword,
        Colour::Number,
        Colour::Text,
        Colour::Operator,
        Colour::Designation,
        Colour::Let,
        Colour::Material,
        Colour::Thread,
        Colour::Blank,
        Colour::Part,
        Colour::Bought,
        Colour::Bench,
        Colour::Pen,
        Colour::Face,
        Colour::Measure,
        Colour::Rule,
    ];
}

/// The words of a file that lie within a span, in order.
pub fn colours(analysis: &Analysis, file: &SourceFile, within: Span) -> Vec<Coloured> {
    let names = named(analysis, file);
    let tokens = file.parsed.tokens.iter().enumerate();
    let coloured =
        tokens.filter(|(_, token)| token.span.start < within.end && within.start < token.span.end);
    let coloured = coloured.filter_map(|(at, token)| {
        let (kind, defines) = match token.kind {
            TokenKind::Name => name(&names, file, at)?,
            kind => (sign(kind)?, false),
        };
        Some(Coloured {
            span: token.span,
            kind,
            defines,
        })
    });
    coloured.collect()
}

/// The names of a file that were resolved.
fn named(analysis: &Analysis, file: &SourceFile) -> BTreeMap<Span, (Colour, bool)> {
    let names = &analysis.design.names;
    let kind = |definition: usize| of_kind(names.definitions[definition].kind);
    let uses = names
        .references
        .iter()
        .map(|used| (used.span, (kind(used.definition), false)));
    let definitions = names
        .definitions
        .iter()
        .map(|it| (it.span, (of_kind(it.kind), true)));
    uses.chain(definitions)
        .filter(|(span, _)| span.file == file.id)
        .collect()
}

fn sign(kind: TokenKind) -> Option<Colour> {
    use TokenKind as T;
    Some(match kind {
        T::Comment => Colour::Comment,
        T::Quantity | T::Gauge | T::Capital | T::BadNumber => Colour::Number,
        T::Thread | T::Fit => Colour::Designation,
        T::String | T::BadString => Colour::Text,
        T::Equals
        | T::PlusMinus
        | T::Plus
        | T::Minus
        | T::Star
        | T::Slash
        | T::Less
        | T::AtMost
        | T::More
        | T::AtLeast
        | T::DotDot => Colour::Operator,
        _ => return None,
    })
}

/// A name or a word of the language, told apart by what it was read as.
fn name(
    names: &BTreeMap<Span, (Colour, bool)>,
    file: &SourceFile,
    at: usize,
) -> Option<(Colour, bool)> {
    let span = file.parsed.tokens[at].span;
    if let Some(named) = names.get(&span) {
        return Some(*named);
    }
    let text = file.text.get(span.range())?;
    let before = file.parsed.tokens[..at].iter().rev();
    let before = before.take_while(|token| !token.kind.is_separator());
    let before = before
        .filter(|token| !token.kind.is_trivia())
        .map(|token| token.span);
    let before = before.take(1).find_map(|span| file.text.get(span.range()));
    if matches!(before, Some("accept" | "limit")) {
        return Some((Colour::Rule, false));
    }
    let mut meanings = grammar::meanings(text).peekable();
    meanings.peek()?;
    let measure = matches!(file.parsed.tokens.get(at + 1), Some(next) if next.kind == TokenKind::OpenParen)
        || meanings.all(|word| {
            matches!(
                word.place,
                grammar::Place::Measure | grammar::Place::Configuration
            )
        });
    Some((
        if measure {
            Colour::Measure
        } else {
            Colour::Keyword
        },
        false,
    ))
}

fn of_kind(kind: NameKind) -> Colour {
    match kind {
        NameKind::Let => Colour::Let,
        NameKind::Material => Colour::Material,
        NameKind::Thread => Colour::Thread,
        NameKind::Blank => Colour::Blank,
        NameKind::Part => Colour::Part,
        NameKind::Bought => Colour::Bought,
        NameKind::Bench => Colour::Bench,
        NameKind::Pen => Colour::Pen,
        NameKind::Face => Colour::Face,
    }
}
