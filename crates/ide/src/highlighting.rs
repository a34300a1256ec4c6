//! What each word of a file is, for an editor to colour.

use crate::Analysis;
use quillet_model::{DefinitionKind, SourceFile};
use quillet_syntax::{Span, TokenKind, grammar};
use std::collections::BTreeMap;

/// A word and what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClassifiedToken {
    /// The word; never over more than one line.
    pub span: Span,
    /// What it is.
    pub kind: SemanticTokenKind,
    /// Whether it stands in its own definition.
    pub defines: bool,
}

/// What a word is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the variants say it")]
pub enum SemanticTokenKind {
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

impl SemanticTokenKind {
    /// All of them, in the order of their numbers.
    pub const ALL: [SemanticTokenKind; 17] = [
        SemanticTokenKind::Comment,
        SemanticTokenKind::Keyword,
        SemanticTokenKind::Number,
        SemanticTokenKind::Text,
        SemanticTokenKind::Operator,
        SemanticTokenKind::Designation,
        SemanticTokenKind::Let,
        SemanticTokenKind::Material,
        SemanticTokenKind::Thread,
        SemanticTokenKind::Blank,
        SemanticTokenKind::Part,
        SemanticTokenKind::Bought,
        SemanticTokenKind::Bench,
        SemanticTokenKind::Pen,
        SemanticTokenKind::Face,
        SemanticTokenKind::Measure,
        SemanticTokenKind::Rule,
    ];
}

/// The words of a file that lie within a span, in order.
pub fn colours(analysis: &Analysis, file: &SourceFile, within: Span) -> Vec<ClassifiedToken> {
    let names = named(analysis, file);
    let tokens = file.parsed.tokens.iter().enumerate();
    let coloured =
        tokens.filter(|(_, token)| token.span.start < within.end && within.start < token.span.end);
    let coloured = coloured.filter_map(|(at, token)| {
        let (kind, defines) = match token.kind {
            TokenKind::Name => name(&names, file, at)?,
            kind => (sign(kind)?, false),
        };
        Some(ClassifiedToken {
            span: token.span,
            kind,
            defines,
        })
    });
    coloured.collect()
}

/// The names of a file that were resolved.
fn named(analysis: &Analysis, file: &SourceFile) -> BTreeMap<Span, (SemanticTokenKind, bool)> {
    let names = &analysis.design.names;
    let kind =
        |definition: quillet_model::DefinitionId| of_kind(names.definitions[definition].kind);
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

fn sign(kind: TokenKind) -> Option<SemanticTokenKind> {
    use TokenKind as T;
    Some(match kind {
        T::Comment => SemanticTokenKind::Comment,
        T::Quantity | T::Gauge | T::Capital | T::BadNumber => SemanticTokenKind::Number,
        T::Thread | T::Fit => SemanticTokenKind::Designation,
        T::String | T::BadString => SemanticTokenKind::Text,
        T::Equals
        | T::Colon
        | T::PlusMinus
        | T::Plus
        | T::Minus
        | T::Star
        | T::Slash
        | T::Less
        | T::AtMost
        | T::More
        | T::AtLeast
        | T::DotDot => SemanticTokenKind::Operator,
        _ => return None,
    })
}

/// A name or a word of the language, told apart by what it was read as.
fn name(
    names: &BTreeMap<Span, (SemanticTokenKind, bool)>,
    file: &SourceFile,
    at: usize,
) -> Option<(SemanticTokenKind, bool)> {
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
        return Some((SemanticTokenKind::Rule, false));
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
            SemanticTokenKind::Measure
        } else {
            SemanticTokenKind::Keyword
        },
        false,
    ))
}

fn of_kind(kind: DefinitionKind) -> SemanticTokenKind {
    match kind {
        DefinitionKind::Let => SemanticTokenKind::Let,
        DefinitionKind::Material => SemanticTokenKind::Material,
        DefinitionKind::Thread => SemanticTokenKind::Thread,
        DefinitionKind::Blank => SemanticTokenKind::Blank,
        DefinitionKind::Part => SemanticTokenKind::Part,
        DefinitionKind::Bought => SemanticTokenKind::Bought,
        DefinitionKind::Bench => SemanticTokenKind::Bench,
        DefinitionKind::Pen | DefinitionKind::Made => SemanticTokenKind::Pen,
        DefinitionKind::Face => SemanticTokenKind::Face,
    }
}
