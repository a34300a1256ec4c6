//! Sums, sizes, ranges and faces.

mod call;

use super::expect::Thing;
use super::input::*;
use crate::Span;
use crate::ast::{Expr, ExprKind, Face, Operator, Range, Size, SizeKind, SumSpan, Unit};
use crate::number::{self, NumberFault};
use crate::token::TokenKind as T;
use call::call_or_name;
use chumsky::prelude::*;

/// The rules that most others use.
#[derive(Clone)]
pub(crate) struct ExprParsers<'s> {
    sum: Rule<'s, Expr>,
    size: Rule<'s, Size>,
}

impl<'s> ExprParsers<'s> {
    pub(crate) fn new() -> Self {
        let sum = lone_quantity().or(sum()).boxed();
        let size = size(sum.clone()).boxed();
        Self { sum, size }
    }

    /// A sum where one may stand.
    pub(crate) fn maybe(&self, thing: Thing) -> impl TokenParser<'s, Option<Expr>> + use<'s> {
        self.sum.clone().labelled(thing).or_not()
    }

    /// A sum that must come; where it does not, a bad one of no width stands for it.
    pub(crate) fn needed(&self, thing: Thing) -> impl TokenParser<'s, Expr> + use<'s> {
        self.sum
            .clone()
            .labelled(thing)
            .recover_with(via_parser(missing()))
    }

    /// A measure with what it is measured of, that must come.
    pub(crate) fn measured(&self) -> impl TokenParser<'s, Expr> + use<'s> {
        call::call(self.sum.clone()).recover_with(via_parser(missing()))
    }

    /// A word with a sum after it.
    pub(crate) fn after(
        &self,
        text: &'static str,
        thing: Thing,
    ) -> impl TokenParser<'s, Expr> + use<'s> {
        word(text).ignore_then(self.needed(thing))
    }

    /// A size that must come.
    pub(crate) fn size(&self) -> impl TokenParser<'s, Size> + use<'s> {
        let missing = missing().map(|expr| Size {
            span: expr.span,
            kind: SizeKind::Sum(expr),
        });
        self.size
            .clone()
            .labelled(Thing::Size)
            .recover_with(via_parser(missing))
    }

    /// The end of a run of sizes, where a capital needs no `letter`.
    pub(crate) fn last_size(&self) -> impl TokenParser<'s, Size> + use<'s> {
        capital().or(self.size())
    }

    /// `a..b`
    pub(crate) fn range(&self, thing: Thing) -> impl TokenParser<'s, Range> + use<'s> {
        self.needed(thing)
            .then_ignore(needed(T::DotDot, Thing::Range))
            .then(self.needed(thing))
            .map_with(|(from, to), extra| Range {
                span: extra.span(),
                from,
                to,
            })
    }

    /// `a` or `a..b`
    pub(crate) fn span(&self, thing: Thing) -> impl TokenParser<'s, SumSpan> + use<'s> {
        let to = token(T::DotDot, Thing::Range).ignore_then(self.needed(thing));
        self.needed(thing)
            .then(to.or_not())
            .map_with(|(from, to), extra| SumSpan {
                span: extra.span(),
                from,
                to,
            })
    }
}

/// `part.face` that must come.
pub(crate) fn face<'s>() -> impl TokenParser<'s, Face> {
    // Without its dot, what follows is no face's name.
    let face = token(T::Dot, Thing::Dot)
        .ignore_then(needed_name(Thing::FaceName))
        .recover_with(via_parser(no_name()));
    needed_name(Thing::Face)
        .then(face)
        .map_with(|(part, face), extra| Face {
            span: extra.span(),
            part,
            face,
        })
}

fn sum<'s>() -> impl TokenParser<'s, Expr> {
    recursive(|sum| {
        let primary = choice((
            quantity(),
            call_or_name(sum.clone()),
            group(sum),
            bad_number().map(bad),
        ))
        .labelled(Thing::Sum)
        .boxed();
        let operand = primary.clone().recover_with(via_parser(missing())).boxed();
        let minuses = quiet(T::Minus).repeated().at_least(1).collect::<Vec<_>>();
        let negated = minuses.then(operand.clone()).map(|(minuses, operand)| {
            minuses
                .into_iter()
                .rev()
                .fold(operand, |inner, minus| Expr {
                    span: minus.to(inner.span),
                    kind: ExprKind::Negate(Box::new(inner)),
                })
        });
        let first = primary.or(negated.clone()).boxed();
        let next = negated.or(operand).boxed();
        let product = |unary: Rule<'s, Expr>| {
            let times = operator([(T::Star, Operator::Multiply), (T::Slash, Operator::Divide)]);
            unary
                .foldl(times.then(next.clone()).repeated(), binary)
                .boxed()
        };
        let plus = operator([(T::Plus, Operator::Add), (T::Minus, Operator::Subtract)]);
        let more = plus.then(product(next.clone())).repeated();
        product(first).foldl(more, binary)
    })
}

/// One of two signs.
fn operator<'s>(signs: [(T, Operator); 2]) -> impl TokenParser<'s, Operator> {
    let read = move |it: Seen, _| Some(signs.iter().find(|sign| sign.0 == it.0)?.1);
    quiet_as(read).map(|(operator, _)| operator)
}

fn binary(left: Expr, (operator, right): (Operator, Expr)) -> Expr {
    Expr {
        span: left.span.to(right.span),
        kind: ExprKind::Binary(Box::new(left), operator, Box::new(right)),
    }
}

/// A quantity with nothing behind it that a sum could go on with. Most sums are that, and to see it takes one
/// step instead of twenty.
fn lone_quantity<'s>() -> impl TokenParser<'s, Expr> {
    let goes_on = |next: Seen| {
        unit(next).is_some() || matches!(next.0, T::Plus | T::Minus | T::Star | T::Slash)
    };
    let read = move |it: Seen, next: Option<Seen>| {
        let lone = it.0 == T::Quantity && !next.is_some_and(goes_on);
        lone.then(|| number::quantity(it.1).ok())?
    };
    quiet_as(read).map(|((value, unit), span)| Expr {
        span,
        kind: ExprKind::Quantity { value, unit },
    })
}

fn quantity<'s>() -> impl TokenParser<'s, Expr> {
    let number = text_of(T::Quantity, Thing::Quantity);
    number
        .then(parted_unit())
        .map_with(|((text, span), parted), extra| {
            let mut fault = |span, fault| {
                extra.emit(SyntaxFault {
                    span,
                    kind: FaultKind::Number(fault),
                });
            };
            let (kind, span) = match (number::quantity(text), parted) {
                (Err(why), _) => {
                    fault(span, why);
                    (ExprKind::Bad, span)
                }
                (Ok((value, None)), Some((unit, at))) => {
                    let span = span.to(at);
                    fault(span, NumberFault::PartedUnit);
                    (
                        ExprKind::Quantity {
                            value,
                            unit: Some(unit),
                        },
                        span,
                    )
                }
                (Ok((value, unit)), _) => (ExprKind::Quantity { value, unit }, span),
            };
            Expr { span, kind }
        })
}

/// A unit that stands apart from its number.
fn parted_unit<'s>() -> impl TokenParser<'s, Option<(Unit, Span)>> {
    quiet_as(|it, _| unit(it)).or_not()
}

fn unit((kind, text): Seen) -> Option<Unit> {
    let may_be = matches!(kind, T::Name | T::Capital);
    may_be.then(|| number::unit(text))?
}

fn group<'s>(sum: impl TokenParser<'s, Expr>) -> impl TokenParser<'s, Expr> {
    let inner = sum
        .labelled(Thing::Quantity)
        .recover_with(via_parser(missing()));
    inner
        .delimited_by(
            token(T::OpenParen, Thing::OpenParen),
            needed(T::CloseParen, Thing::CloseParen),
        )
        .map_with(|inner, extra| Expr {
            span: extra.span(),
            kind: ExprKind::Group(Box::new(inner)),
        })
}

fn size<'s>(sum: impl TokenParser<'s, Expr>) -> impl TokenParser<'s, Size> {
    let letter =
        word("letter").ignore_then(capital().recover_with(via_parser(missing().map(|expr| {
            Size {
                span: expr.span,
                kind: SizeKind::Sum(expr),
            }
        }))));
    let gauge = text_of(T::Gauge, Thing::Size).map_with(|(text, span), extra| {
        let kind = match number::gauge(text) {
            Ok(number) => SizeKind::Gauge(number),
            Err(fault) => {
                extra.emit(SyntaxFault {
                    span,
                    kind: FaultKind::Number(fault),
                });
                SizeKind::Sum(bad(span))
            }
        };
        Size { span, kind }
    });
    let sum = sum.map(|sum| Size {
        span: sum.span,
        kind: SizeKind::Sum(sum),
    });
    choice((letter, gauge, sum)).map_with(|size, extra| Size {
        span: extra.span(),
        ..size
    })
}

fn capital<'s>() -> impl TokenParser<'s, Size> {
    text_of(T::Capital, Thing::Capital).map(|(text, span)| Size {
        span,
        kind: SizeKind::Letter(text.chars().next().unwrap_or('A')),
    })
}

/// An operand that is not there.
fn missing<'s>() -> impl TokenParser<'s, Expr> {
    empty().map_with(|(), extra| bad(nothing(extra.span())))
}

fn bad(span: Span) -> Expr {
    Expr {
        span,
        kind: ExprKind::Bad,
    }
}
