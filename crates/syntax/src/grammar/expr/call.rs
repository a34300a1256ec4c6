//! A name with what stands in parentheses behind it.

use super::super::expect::Thing;
use super::super::input::*;
use super::missing;
use crate::ast::{Arg, Expr, ExprKind, Face};
use crate::token::TokenKind as T;
use chumsky::prelude::*;
use std::sync::Arc;

/// `name` or `name(argument, …)`
pub(super) fn call_or_name<'s>(sum: impl TokenParser<'s, Expr>) -> impl TokenParser<'s, Expr> {
    let arguments = arguments(sum).delimited_by(
        quiet(T::OpenParen),
        needed(T::CloseParen, Thing::CloseParen),
    );
    name(Thing::Name)
        .then(arguments.or_not())
        .map_with(|(name, args), extra| Expr {
            span: extra.span(),
            kind: match args {
                Some(args) => ExprKind::Call { name, args },
                None => ExprKind::Name(Arc::clone(&name.text)),
            },
        })
}

/// `measure(argument, …)`
pub(super) fn call<'s>(sum: impl TokenParser<'s, Expr>) -> impl TokenParser<'s, Expr> {
    let arguments = arguments(sum).delimited_by(
        token(T::OpenParen, Thing::OpenParen),
        needed(T::CloseParen, Thing::CloseParen),
    );
    name(Thing::Measure)
        .then(arguments)
        .map_with(|(name, args), extra| Expr {
            span: extra.span(),
            kind: ExprKind::Call { name, args },
        })
}

fn arguments<'s>(sum: impl TokenParser<'s, Expr>) -> impl TokenParser<'s, Vec<Arg>> {
    let face = name(Thing::Face)
        .then_ignore(quiet(T::Dot))
        .then(needed_name(Thing::FaceName))
        .map_with(|(part, face), extra| Face {
            span: extra.span(),
            part,
            face,
        });
    let missing = missing().map(Arg::Sum);
    let arg = face
        .map(Arg::Face)
        .or(sum.map(Arg::Sum))
        .labelled(Thing::Quantity)
        .recover_with(via_parser(missing));
    arg.separated_by(token(T::Comma, Thing::Comma))
        .at_least(1)
        .collect::<Vec<_>>()
}
