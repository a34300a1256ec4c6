//! Writes out what is assumed: a tap drill, a tenon's diameter.

use super::{Action, indent_of, line_end};
use crate::Cursor;
use quillet_model::{Cut, Feature};
use quillet_syntax::{Edit, Span};

/// What is assumed of the cut at the cursor, as it would be written.
pub(super) fn written_out(cursor: Cursor<'_>) -> Vec<Action> {
    let parts = &cursor.analysis.design.parts;
    let here = |feature: &&Feature| {
        feature.span.file == cursor.file.id && feature.span.touches(cursor.offset)
    };
    let features = parts
        .iter()
        .flat_map(|part| part.features.iter().filter(here));
    features
        .filter_map(|feature| assumed(cursor, feature))
        .collect()
}

fn assumed(cursor: Cursor<'_>, feature: &Feature) -> Option<Action> {
    let text = &cursor.file.text;
    let units = cursor.file.units();
    let start = feature.span.start as usize;
    match &feature.cut {
        Cut::Drill {
            dia,
            assumed_for: Some(_),
            ..
        } => {
            let line = line_end(text);
            let indent = indent_of(text, start);
            let drill = match feature.through {
                true => format!("drill {} through", units.drill(*dia)),
                false => format!(
                    "drill {} to {}",
                    units.drill(*dia),
                    units.written(feature.to)
                ),
            };
            let edit = Edit::new(
                Span::new(feature.span.file, start, start),
                format!("{drill}{line}{indent}"),
            );
            Some(Action::rewrite(
                format!("write the tap drill out: {drill}"),
                vec![edit],
            ))
        }
        Cut::Tenon {
            dia,
            assumed_for: Some(_),
        } => {
            let word = text[start..].find(|c: char| !c.is_ascii_alphabetic())?;
            let at = start + word;
            let dia = units.written(*dia);
            let span = Span::new(feature.span.file, at, at);
            let edit = Edit::new(span, format!(" {dia}"));
            Some(Action::rewrite(
                format!("write the tenon's diameter out: {dia}"),
                vec![edit],
            ))
        }
        _ => None,
    }
}
