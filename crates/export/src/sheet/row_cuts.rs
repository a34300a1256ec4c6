//! Verb, size and reach of what is cut.

use super::row_words::{RowContext, dia_of, thread_name};
use quillet_geometry::Length;
use quillet_plan::{
    InsideCut, InsideShape, OutsidePass, Pass, ThreadCut, Threading, TurnCut, TurnKind,
};

pub(super) fn inside(words: &RowContext, cut: &InsideCut) -> (&'static str, String) {
    let dia = |it: Length| dia_of(words.units, it);
    match cut.shape {
        InsideShape::Drill { dia, name, .. } => ("DRILL", words.drilled(dia, name)),
        InsideShape::Bore { dia: it } => ("BORE", dia(it)),
        InsideShape::Ream { dia: it } => ("REAM", dia(it)),
        InsideShape::Recess { dia: it } => ("GROOVE", format!("inside {}", dia(it))),
        InsideShape::Taper { from_dia, to_dia } => (
            "BORE",
            format!("{}–{}", dia(from_dia), words.units.plain(to_dia)),
        ),
        InsideShape::Countersink { dia: it, .. } => ("COUNTERSINK", dia(it)),
    }
}

pub(super) fn reach(words: &RowContext, cut: &InsideCut) -> String {
    let plain = |it: Length| words.units.plain(it);
    let flat = match cut.shape {
        InsideShape::Bore { .. } => ", flat",
        InsideShape::Taper { .. } => ", taper",
        InsideShape::Countersink { angle, .. } => return format!("{}°", angle.deg_text(1)),
        _ => "",
    };
    let opening = matches!(cut.shape, InsideShape::Drill { opening: true, .. });
    match (cut.through, cut.from.is_positive()) {
        (true, _) => format!("through{flat}"),
        (false, true) => format!("{} to {}{flat}", plain(cut.from), plain(cut.to)),
        // What only opens the way is no size of the part, and has a scale's tenth.
        (false, false) if opening => format!("{} deep", words.tenth(cut.to)),
        (false, false) => format!("to {}{flat}", plain(cut.to)),
    }
}

pub(super) fn along(words: &RowContext, cut: &TurnCut) -> String {
    let plain = |it: Length| words.units.plain(it);
    match cut.kind {
        TurnKind::Tenon | TurnKind::ThreadLand if !cut.from.is_positive() => {
            format!("to {}", plain(cut.to))
        }
        _ => format!("{} to {}", plain(cut.from), plain(cut.to)),
    }
}

pub(super) fn thread(words: &RowContext, cut: &ThreadCut) -> (&'static str, String, String) {
    let verb = match cut.method {
        Threading::Tap => "TAP",
        Threading::Die => "DIE",
        Threading::SinglePoint => "THREAD",
    };
    let (name, starts) = thread_name(&cut.thread.thread);
    let plain = |it: Length| words.units.plain(it);
    let from = match cut.inside && cut.method == Threading::Tap {
        true => format!("to {}", plain(cut.to)),
        false => format!("{} to {}", plain(cut.from), plain(cut.to)),
    };
    let reach = match starts.is_empty() {
        true => from,
        false => format!("{starts} {from}"),
    };
    (verb, name, reach)
}

pub(super) fn outside(words: &RowContext, pass: &OutsidePass) -> (&'static str, String, String) {
    let plain = |it: Length| words.units.plain(it);
    let over = match words.units {
        quillet_model::Units::Millimetres => format!("{:.1}", pass.over.to_mm()),
        quillet_model::Units::Inches => plain(pass.over),
    };
    let length = words.route.part.length;
    let first = pass.spans.first().map_or(Length::ZERO, |it| it.0);
    let last = pass.spans.last().map_or(length, |it| it.1);
    let reach = match (first.is_positive(), last < length) {
        (false, false) => String::new(),
        (true, false) => format!("from {}", plain(first)),
        (_, true) => format!("{} to {}", plain(first), plain(last)),
    };
    // Where more is to be said the figure alone is large.
    let (over, reach) = match reach.is_empty() {
        true => (format!("{over} over"), reach),
        false => (over, format!("over {reach}")),
    };
    match pass.pass {
        Pass::Rough => ("ROUGH", over, reach),
        Pass::Finish => ("TURN", over, reach),
        Pass::Blend => {
            let with = pass.with.and_then(|it| words.plan.routes.get(it));
            let with = with.map_or("mate".to_owned(), |it| it.part.name.text.to_string());
            ("TURN", over, format!("joined to the {with}"))
        }
    }
}
