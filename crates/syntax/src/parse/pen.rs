//! Lines of pens and of joints.

use super::common::*;
use super::expect::Thing;
use super::expr::{Sums, face};
use super::input::*;
use crate::ast::*;
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// A line of a pen, without what its block holds.
pub(super) fn pen_line<'s>(sums: &Sums<'s>) -> impl Reads<'s, PenLineKind> + use<'s> {
    let fill = word("fill").ignore_then(needed_name(Thing::Part));
    choice((
        joint(sums).map(PenLineKind::Joint),
        want(sums).map(PenLineKind::Want),
        accept(sums).map(PenLineKind::Accept),
        let_(sums).map(PenLineKind::Let),
        limit(sums).map(PenLineKind::Limit),
        bench_named().map(PenLineKind::Bench),
        fill.map(PenLineKind::Fill),
    ))
    .then_ignore(line_end())
}

/// A line of a joint's block.
pub(super) fn joint_line<'s>(sums: &Sums<'s>) -> impl Reads<'s, JointLineKind> + use<'s> {
    let seat = word("seat")
        .ignore_then(face())
        .then_ignore(needed_word("on"))
        .then(face())
        .map(|(first, second)| JointLineKind::Seat { first, second });
    choice((
        seat,
        word("flush").to(JointLineKind::Flush),
        want(sums).map(JointLineKind::Want),
        accept(sums).map(JointLineKind::Accept),
        limit(sums).map(JointLineKind::Limit),
    ))
    .then_ignore(line_end())
}

fn joint<'s>(sums: &Sums<'s>) -> impl Reads<'s, Joint> + use<'s> {
    let verb = choice(Verb::ALL.map(|verb| word(verb.word()).map(move |span| (verb, span))));
    let direction = choice((
        word("into").to(Direction::Into),
        word("onto").to(Direction::Onto),
    ))
    .recover_with(via_parser(empty().to(Direction::Into)));
    verb.then(face())
        .then(direction)
        .then(face())
        .then(option(sums).repeated().collect())
        .then_ignore(maybe_open())
        .map(
            |(((((verb, verb_span), first), direction), second), options)| Joint {
                verb,
                verb_span,
                first,
                direction,
                second,
                options,
                block: None,
                lines: Vec::new(),
            },
        )
}

fn option<'s>(sums: &Sums<'s>) -> impl Reads<'s, JointOption> + use<'s> {
    use JointOptionKind as Kind;
    let through = needed_name(Thing::Part)
        .separated_by(token(T::Comma, Thing::Comma))
        .at_least(1)
        .collect();
    let missing = empty().map_with(|(), extra| ("", nothing(extra.span())));
    let fit = text_of(T::Fit, Thing::Fit).recover_with(via_parser(missing));
    choice((
        word("with")
            .ignore_then(needed_name(Thing::ThreadName))
            .map(Kind::With),
        word("through").ignore_then(through).map(Kind::Through),
        sums.after("by", Thing::Length).map(Kind::By),
        word("fit").ignore_then(fit).map(|(text, span)| {
            Kind::Fit(Text {
                text: text.into(),
                span,
            })
        }),
        sums.after("clearance", Thing::Length).map(Kind::Clearance),
        sums.after("interference", Thing::Length)
            .map(Kind::Interference),
        sums.after("gap", Thing::Length).map(Kind::Gap),
    ))
    .map_with(|kind, extra| JointOption {
        span: extra.span(),
        kind,
    })
}
