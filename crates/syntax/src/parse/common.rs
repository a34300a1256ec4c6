//! Statements that stand in several blocks, and phrases that stand in several statements.

use super::expect::Thing;
use super::expr::Sums;
use super::input::*;
use crate::ast::*;
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// `let name = sum`
pub(super) fn let_<'s>(sums: &Sums<'s>) -> impl Reads<'s, Let> + use<'s> {
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
pub(super) fn limit<'s>(sums: &Sums<'s>) -> impl Reads<'s, Limit> + use<'s> {
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
pub(super) fn accept<'s>(sums: &Sums<'s>) -> impl Reads<'s, Accept> + use<'s> {
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
pub(super) fn want<'s>(sums: &Sums<'s>) -> impl Reads<'s, Want> + use<'s> {
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
pub(super) fn bench_named<'s>() -> impl Reads<'s, Name> {
    word("bench").ignore_then(needed_name(Thing::Bench))
}

/// `of material (rod | square) size [by length]`
pub(super) fn stock<'s>(sums: &Sums<'s>) -> impl Reads<'s, Stock> + use<'s> {
    let section = choice((
        word("rod").to(StockSection::Rod),
        word("square").to(StockSection::Square),
    ))
    .recover_with(via_parser(empty().to(StockSection::Rod)));
    word("of")
        .ignore_then(needed_name(Thing::Material))
        .then(section)
        .then(sums.needed(Thing::Diameter))
        .then(sums.after("by", Thing::Length).or_not())
        .map_with(|(((material, section), size), length), extra| Stock {
            span: extra.span(),
            material,
            section,
            size,
            length,
        })
}

/// A designation with its starts; an inch one may leave out its series.
pub(super) fn form<'s>(sums: &Sums<'s>) -> impl Reads<'s, Form> + use<'s> {
    let bare = touching(
        &[T::Quantity, T::Slash, T::Minus],
        Thing::Designation,
        is_bare_inch,
    );
    text_of(T::Thread, Thing::Designation)
        .or(bare)
        .then(sums.after("starts", Thing::Count).or_not())
        .map_with(|((text, span), starts), extra| Form {
            span: extra.span(),
            designation: Text {
                text: text.into(),
                span,
            },
            starts,
        })
}

/// A size in inches and threads to the inch: `7/16-14`, `1-1/8-12`, `#10-32`, `0.5-28`.
fn is_bare_inch(text: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|it| it.is_ascii_digit());
    text.rsplit_once('-').is_some_and(|(size, pitch)| {
        let size = size.strip_prefix('#').unwrap_or(size);
        digits(pitch) && size.split(['/', '-', '.']).all(digits) && size.matches('/').count() <= 1
    })
}

/// A thread's name or a form; where neither comes, an empty name stands for it.
pub(super) fn thread_ref<'s>(sums: &Sums<'s>) -> impl Reads<'s, ThreadRef> + use<'s> {
    let written = form(sums).map(ThreadRef::Written);
    let named = name(Thing::Thread).map(ThreadRef::Named);
    written
        .or(named)
        .labelled(Thing::Thread)
        .recover_with(via_parser(no_name().map(ThreadRef::Named)))
}

/// `as name`
pub(super) fn as_face<'s>() -> impl Reads<'s, Option<Name>> {
    word("as").ignore_then(needed_name(Thing::Name)).or_not()
}

/// `round r` or `chamfer c`
pub(super) fn edge<'s>(sums: &Sums<'s>) -> impl Reads<'s, Edge> + use<'s> {
    let round = word("round").to(EdgeKind::Round);
    let chamfer = word("chamfer").to(EdgeKind::Chamfer);
    let round = round.then(sums.needed(Thing::Radius));
    let chamfer = chamfer.then(sums.needed(Thing::Length));
    round.or(chamfer).map_with(|(kind, size), extra| Edge {
        span: extra.span(),
        kind,
        size,
    })
}

/// The brace that opens a statement's block.
pub(super) fn open<'s>() -> impl Reads<'s, ()> {
    needed(T::Open, Thing::Open)
}

/// The brace of a block that may be left out.
pub(super) fn maybe_open<'s>() -> impl Reads<'s, ()> {
    token(T::Open, Thing::Open).or_not().ignored()
}
