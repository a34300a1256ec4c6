//! What chumsky tells of a text that it cannot read.

use super::super::expect::{Expect, ExpectSet, Thing};
use super::TokenInput;
use crate::Span;
use crate::grammar::Lexeme;
use crate::number::NumberFault;
use chumsky::DefaultExpected;
use chumsky::error::{Error, LabelError};
use chumsky::util::MaybeRef;

/// Why a statement could not be read.
#[derive(Clone, Debug)]
pub(crate) struct SyntaxFault {
    /// What was found instead; empty at the end of the statement.
    pub(crate) span: Span,
    pub(crate) kind: FaultKind,
}

#[derive(Clone, Copy, Debug)]
pub(crate) enum FaultKind {
    /// One of these was expected.
    Expected(ExpectSet),
    /// A number has no value.
    Number(NumberFault),
}

impl SyntaxFault {
    pub(super) fn expected(set: ExpectSet, span: Span) -> Self {
        Self {
            span,
            kind: FaultKind::Expected(set),
        }
    }
}

impl<'s> Error<'s, TokenInput<'s>> for SyntaxFault {
    fn merge(mut self, other: Self) -> Self {
        if let (FaultKind::Expected(ours), FaultKind::Expected(theirs)) =
            (&mut self.kind, other.kind)
        {
            *ours = ours.join(theirs);
        }
        self
    }
}

impl<'s> LabelError<'s, TokenInput<'s>, DefaultExpected<'s, Lexeme>> for SyntaxFault {
    fn expected_found<E: IntoIterator<Item = DefaultExpected<'s, Lexeme>>>(
        expected: E,
        _: Option<MaybeRef<'s, Lexeme>>,
        span: Span,
    ) -> Self {
        // Only the end is expected by chumsky's own parsers; ours say what they expect.
        let end = expected
            .into_iter()
            .any(|expected| matches!(expected, DefaultExpected::EndOfInput));
        let set = match end {
            true => ExpectSet::of(Expect::Thing(Thing::LineEnd)),
            false => ExpectSet::default(),
        };
        SyntaxFault::expected(set, span)
    }
}

impl<'s> LabelError<'s, TokenInput<'s>, Thing> for SyntaxFault {
    fn expected_found<E: IntoIterator<Item = Thing>>(
        expected: E,
        _: Option<MaybeRef<'s, Lexeme>>,
        span: Span,
    ) -> Self {
        let set = expected
            .into_iter()
            .map(|thing| ExpectSet::of(Expect::Thing(thing)))
            .fold(ExpectSet::default(), ExpectSet::join);
        SyntaxFault::expected(set, span)
    }

    fn label_with(&mut self, label: Thing) {
        if let FaultKind::Expected(set) = &mut self.kind {
            *set = ExpectSet::of(Expect::Thing(label));
        }
    }
}
