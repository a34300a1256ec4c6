//! The first lines of items; their blocks are read line by line.

use super::common::*;
use super::expect::Thing;
use super::expr::Sums;
use super::input::*;
use crate::ast::*;
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// An item without what its block holds.
pub(super) fn item<'s>(sums: &Sums<'s>) -> impl Reads<'s, ItemKind> + use<'s> {
    let use_ = word("use").ignore_then(needed_string(Thing::Path));
    choice((
        use_.map(ItemKind::Use),
        let_(sums).map(ItemKind::Let),
        limit(sums).map(ItemKind::Limit),
        material().map(ItemKind::Material),
        thread(sums).map(ItemKind::Thread),
        blank(sums).map(ItemKind::Blank),
        part().map(ItemKind::Part),
        bought().map(ItemKind::Bought),
        bench().map(ItemKind::Bench),
        pen().map(ItemKind::Pen),
    ))
    .then_ignore(line_end())
}

/// `dimensions in inches`
pub(super) fn inches<'s>() -> impl Reads<'s, crate::Span> {
    // `in` is a unit, not a word, wherever it does not touch a number.
    word("dimensions")
        .ignore_then(needed_word("in"))
        .ignore_then(needed_word("inches"))
        .map_with(|(), extra| extra.span())
        .then_ignore(line_end())
}

/// A line of a material.
pub(super) fn material_line<'s>(sums: &Sums<'s>) -> impl Reads<'s, MaterialLineKind> + use<'s> {
    use MaterialLineKind as Kind;
    choice((
        word("kind")
            .ignore_then(needed_name(Thing::Kind))
            .map(Kind::Kind),
        sums.after("density", Thing::Quantity).map(Kind::Density),
        sums.after("wall", Thing::Length).map(Kind::Wall),
        word("speed")
            .ignore_then(sums.span(Thing::Quantity))
            .map(Kind::Speed),
    ))
    .then_ignore(line_end())
}

fn material<'s>() -> impl Reads<'s, Material> {
    word("material")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then_ignore(open())
        .map(|(name, title)| Material {
            name,
            title,
            lines: Vec::new(),
        })
}

fn thread<'s>(sums: &Sums<'s>) -> impl Reads<'s, ThreadItem> + use<'s> {
    let missing = empty().map_with(|(), extra| {
        let span = nothing(extra.span());
        let designation = Text {
            text: "".into(),
            span,
        };
        Form {
            span,
            designation,
            starts: None,
        }
    });
    word("thread")
        .ignore_then(needed_name(Thing::Name))
        .then_ignore(needed(T::Equals, Thing::Equals))
        .then(form(sums).recover_with(via_parser(missing)))
        .map(|(name, form)| ThreadItem { name, form })
}

fn blank<'s>(sums: &Sums<'s>) -> impl Reads<'s, BlankItem> + use<'s> {
    word("blank")
        .ignore_then(needed_name(Thing::Name))
        .then(stock(sums))
        .then(word("matched").or_not())
        .map(|((name, stock), matched)| BlankItem {
            name,
            stock,
            matched,
        })
}

/// What follows the name of a part: its ends, or the part it is like.
type Header = (Option<[Name; 2]>, Option<Name>);

fn part<'s>() -> impl Reads<'s, Part> {
    word("part")
        .ignore_then(needed_name(Thing::Name))
        .then(ends().or(like()).recover_with(via_parser(lost_header())))
        .map(|(name, (ends, like))| Part {
            name,
            title: None,
            ends,
            like,
            block: None,
            lines: Vec::new(),
        })
}

fn bought<'s>() -> impl Reads<'s, Part> {
    let no_ends = token(T::Open, Thing::Open).map(|_| (None, None));
    word("bought")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then(choice((ends(), like(), no_ends)).recover_with(via_parser(lost_header())))
        .map(|((name, title), (ends, like))| Part {
            name,
            title,
            ends,
            like,
            block: None,
            lines: Vec::new(),
        })
}

fn ends<'s>() -> impl Reads<'s, Header> {
    word("from")
        .ignore_then(needed_name(Thing::End))
        .then_ignore(needed_word("to"))
        .then(needed_name(Thing::End))
        .then_ignore(open())
        .map(|(first, second)| (Some([first, second]), None))
}

fn like<'s>() -> impl Reads<'s, Header> {
    word("like")
        .ignore_then(needed_name(Thing::Part))
        .then_ignore(maybe_open())
        .map(|like| (None, Some(like)))
}

/// A header that cannot be read, so that the block after it still can.
fn lost_header<'s>() -> impl Reads<'s, Header> {
    any().repeated().map(|()| (None, None))
}

fn bench<'s>() -> impl Reads<'s, Bench> {
    word("bench")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then_ignore(open())
        .map(|(name, title)| Bench {
            name,
            title,
            block: None,
            tools: Vec::new(),
        })
}

fn pen<'s>() -> impl Reads<'s, Pen> {
    let like = word("like").ignore_then(needed_name(Thing::Name));
    word("pen")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then(like.or_not())
        .then_ignore(open())
        .map(|((name, title), like)| Pen {
            name,
            title,
            like,
            block: None,
            lines: Vec::new(),
        })
}
