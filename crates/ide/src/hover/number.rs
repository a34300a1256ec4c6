//! A number at the cursor, and the nearest fraction where inches are told.

use super::{Sheet, about};
use crate::Cursor;
use quillet_model::Quantity;
use quillet_standards::drill;
use quillet_syntax::ast::{Expr, ExprKind, Unit};
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{Thing, Token, TokenKind, expected};

/// A number or a number drill.
pub(super) fn literal(sheet: &mut Sheet, cursor: Cursor<'_>, token: Token) {
    if token.kind == TokenKind::Gauge {
        let text = cursor.text(token.span);
        if let Some(dia) = drill::gauge(text) {
            sheet.paragraph(format!("**{text}**, a number drill"));
            about::drill_size(sheet, dia);
        }
        return;
    }
    let nodes = path_at(&cursor.file.parsed.tree, token.span.start as usize);
    let Some(Node::Expr(Expr {
        kind: ExprKind::Quantity { value, unit },
        ..
    })) = nodes.last()
    else {
        return;
    };
    let bare = cursor.file.units();
    let here = expected(cursor.file.id, &cursor.file.text, token.span.start as usize);
    let things = here.map(|here| here.things).unwrap_or_default();
    let is = |thing| things.contains(&thing);
    let is_length = match unit {
        Some(Unit::Mm | Unit::In) => true,
        Some(_) => false,
        None => [
            Thing::Length,
            Thing::Diameter,
            Thing::Radius,
            Thing::Size,
            Thing::StationPlace,
        ]
        .into_iter()
        .any(is),
    };
    let length = Quantity::written(*value, *unit, bare).and_then(Quantity::as_length);
    if let (true, Some(length)) = (is_length, length) {
        let sizes = sheet.sizes();
        let reported = [Some(sizes.long(length)), sizes.fraction(length)];
        let reported: Vec<String> = reported.into_iter().flatten().collect();
        sheet.paragraph(reported.join(" · "));
    }
}
