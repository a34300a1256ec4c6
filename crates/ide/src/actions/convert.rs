//! Says a length in the other unit.

use super::Action;
use crate::Cursor;
use quillet_geometry::Length;
use quillet_model::{Quantity, Units};
use quillet_syntax::ast::{Expr, ExprKind, Number, Unit};
use quillet_syntax::visit::{Node, path_at};
use quillet_syntax::{Edit, Span, Thing, expected};

/// The length at the cursor in the other unit: inches exactly, or to the nearest 64th as well.
pub(super) fn convert(cursor: Cursor<'_>) -> Vec<Action> {
    let Some((span, value, unit)) = literal(cursor) else {
        return Vec::new();
    };
    let bare = cursor.file.units();
    if unit.is_none() && !is_length(cursor, span) {
        return Vec::new();
    }
    let length = Quantity::written(value, unit, bare).and_then(Quantity::as_length);
    let Some(length) = length.filter(|length| length.is_positive()) else {
        return Vec::new();
    };
    let in_inches = matches!((unit, bare), (Some(Unit::In), _) | (None, Units::Inches));
    let rewrite = |text: String| {
        Action::rewrite(
            format!("write {text}"),
            vec![Edit::new(span, text.as_str())],
        )
    };
    if in_inches {
        return vec![rewrite(in_mm(length, bare))];
    }
    let nearest = length.nearest_64th();
    let mut actions = Vec::new();
    if nearest.length() == length {
        actions.push(rewrite(nearest.to_string()));
    } else {
        actions.push(rewrite(format!("{}in", length.inch_text(6))));
        if nearest.sixty_fourths > 0 {
            let text = nearest.to_string();
            let off = (nearest.length() - length).abs();
            let off = bare.short(off);
            let title = format!("write {text}, the nearest 64th, {off} off");
            actions.push(Action::rewrite(title, vec![Edit::new(span, text)]));
        }
    }
    actions
}

/// Millimetres as they are written in this file.
fn in_mm(length: Length, bare: Units) -> String {
    match bare {
        Units::Millimetres => length.exact_mm_text(),
        Units::Inches => format!("{}mm", length.exact_mm_text()),
    }
}

/// The number at the cursor that is a length or could be one.
pub(super) fn literal(cursor: Cursor<'_>) -> Option<(Span, Number, Option<Unit>)> {
    let nodes = path_at(&cursor.file.parsed.tree, cursor.offset);
    match nodes.last()? {
        Node::Expr(Expr {
            span,
            kind: ExprKind::Quantity { value, unit },
        }) => match unit {
            None | Some(Unit::Mm | Unit::In) => Some((*span, *value, *unit)),
            _ => None,
        },
        _ => None,
    }
}

/// Whether a bare number here counts a length.
pub(super) fn is_length(cursor: Cursor<'_>, span: Span) -> bool {
    let expected = expected(cursor.file.id, &cursor.file.text, span.start as usize);
    let lengths = [
        Thing::Length,
        Thing::Diameter,
        Thing::Radius,
        Thing::Size,
        Thing::StationPlace,
    ];
    expected.is_some_and(|expected| expected.things.iter().any(|thing| lengths.contains(thing)))
}
