//! Statements that stand in several blocks.

use super::{Holds, NameKind, Visit, defines, goes_on, one, refers, some};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::Want, "within", "Between two values", "want turns within 0.75..2"),

    goes_on(Place::Accept, "at", "The stations between which it is accepted", "accept thin-wall at 3..9 because \"a lining follows\""),
    goes_on(Place::Accept, "because", "The reason, which the sheet prints", "accept thin-wall because \"a lining follows\""),
];

/// All that may be said of what is wanted; each place shows first what is wanted there most.
pub(crate) const WANT: &str = "want MEASURE (< VALUE | <= VALUE | > VALUE | >= VALUE | = VALUE +- TOLERANCE | within LOW..HIGH)";

/// `let name = sum`
#[derive(Clone, Debug, PartialEq)]
pub struct Let {
    /// The statement.
    pub span: Span,
    /// The name it defines.
    pub name: Name,
    /// A quantity, or the name of a material.
    pub value: Expr,
}

/// `limit rule = sum`
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// The statement.
    pub span: Span,
    /// The rule whose threshold it sets.
    pub rule: Name,
    /// The threshold.
    pub value: Expr,
}

/// `accept rule [at a..b] because "reason"`
#[derive(Clone, Debug, PartialEq)]
pub struct Accept {
    /// The statement.
    pub span: Span,
    /// The rule whose finding is accepted.
    pub rule: Name,
    /// The stations between which it is accepted, where said.
    pub at: Option<Range>,
    /// Why.
    pub because: Text,
}

/// `want sum test`
#[derive(Clone, Debug, PartialEq)]
pub struct Want {
    /// The statement.
    pub span: Span,
    /// What is measured.
    pub measure: Expr,
    /// What it is held against.
    pub test: Test,
}

/// What a wanted measure is held against.
#[derive(Clone, Debug, PartialEq)]
pub enum Test {
    /// `< <= > >= sum`
    Compare(Comparison, Expr),
    /// `= sum +- sum`
    About {
        /// The value.
        value: Expr,
        /// The tolerance either way.
        tolerance: Expr,
    },
    /// `within a..b`
    Within(Range),
}

/// The comparisons.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the variants are the operators")]
pub enum Comparison {
    Less,
    AtMost,
    More,
    AtLeast,
}

/// `let name = sum`
pub(crate) fn let_<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Let> + use<'s> {
    word("let")
        .ignore_then(needed_name(Thing::Name))
        .then_ignore(needed(T::Equals, Thing::Equals))
        .then(sums.needed(Thing::Quantity))
        .map_with(|(name, value), extra| Let {
            span: extra.span(),
            name,
            value,
        })
}

/// `limit rule = sum`
pub(crate) fn limit<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Limit> + use<'s> {
    word("limit")
        .ignore_then(needed_name(Thing::Rule))
        .then_ignore(needed(T::Equals, Thing::Equals))
        .then(sums.needed(Thing::Quantity))
        .map_with(|(rule, value), extra| Limit {
            span: extra.span(),
            rule,
            value,
        })
}

/// `accept rule [at a..b] because "reason"`
pub(crate) fn accept<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Accept> + use<'s> {
    word("accept")
        .ignore_then(needed_name(Thing::Rule))
        .then(word("at").ignore_then(sums.range(Thing::Length)).or_not())
        .then_ignore(needed_word("because"))
        .then(needed_string(Thing::Reason))
        .map_with(|((rule, at), because), extra| Accept {
            span: extra.span(),
            rule,
            at,
            because,
        })
}

/// `want sum test`
pub(crate) fn want<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Want> + use<'s> {
    let compare = |kind, comparison| {
        token(kind, Thing::Comparison)
            .ignore_then(sums.needed(Thing::Quantity))
            .map(move |sum| Test::Compare(comparison, sum))
    };
    let about = token(T::Equals, Thing::Comparison)
        .ignore_then(sums.needed(Thing::Quantity))
        .then_ignore(needed(T::PlusMinus, Thing::PlusMinus))
        .then(sums.needed(Thing::Quantity))
        .map(|(value, tolerance)| Test::About { value, tolerance });
    let within = word("within")
        .ignore_then(sums.range(Thing::Quantity))
        .map(Test::Within);
    word("want")
        .ignore_then(sums.needed(Thing::Measure))
        .then(choice((
            compare(T::Less, Comparison::Less),
            compare(T::AtMost, Comparison::AtMost),
            compare(T::More, Comparison::More),
            compare(T::AtLeast, Comparison::AtLeast),
            about,
            within,
        )))
        .map_with(|(measure, test), extra| Want {
            span: extra.span(),
            measure,
            test,
        })
}

/// `bench name`
pub(crate) fn bench_named<'s>() -> impl TokenParser<'s, Name> {
    word("bench").ignore_then(needed_name(Thing::Bench))
}

/// `as name`
pub(crate) fn as_face<'s>() -> impl TokenParser<'s, Option<Name>> {
    word("as").ignore_then(needed_name(Thing::Name)).or_not()
}

/// The brace that opens a statement's block.
pub(crate) fn open<'s>() -> impl TokenParser<'s, ()> {
    needed(T::Open, Thing::Open)
}

/// The brace of a block that may be left out.
pub(crate) fn maybe_open<'s>() -> impl TokenParser<'s, ()> {
    token(T::Open, Thing::Open).or_not().ignored()
}

impl Holds for Let {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        defines(NameKind::Quantity, &self.name, visit);
        one(&self.value, visit);
    }
}

impl Holds for Limit {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        refers(NameKind::Rule, &self.rule, visit);
        one(&self.value, visit);
    }
}

impl Holds for Accept {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        refers(NameKind::Rule, &self.rule, visit);
        some(&self.at, visit);
        one(&self.because, visit);
    }
}

impl Holds for Want {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        one(&self.measure, visit);
        match &self.test {
            Test::Compare(_, value) => one(value, visit),
            Test::About { value, tolerance } => {
                one(value, visit);
                one(tolerance, visit);
            }
            Test::Within(range) => one(range, visit),
        }
    }
}
