//! What differs, as JSON.

use super::Compared;
use crate::report::SCHEMA_VERSION;
use quillet_compare::{
    Change, FileChange, FindingChange, MeasureChange, MeasureKind, OutlineChange, PenChange,
    PenState, StepChange,
};
use quillet_syntax::{Encoding, LineIndex};
use serde_json::{Map, Value, json};

/// One object, keys in a fixed order.
pub(super) fn text(it: &Compared) -> String {
    let files: Vec<Value> = it.comparison.files.iter().map(file).collect();
    let pens: Vec<Value> = it.comparison.pens.iter().map(pen).collect();
    crate::report::rounded(&json!({
        "schema_version": SCHEMA_VERSION,
        "old": it.old,
        "new": it.new,
        "files": files,
        "pens": pens,
    }))
}

fn file(it: &FileChange) -> Value {
    json!({
        "file": it.name,
        "items": it.changes.iter().map(change).collect::<Vec<_>>(),
        "findings": it.reported().map(finding).collect::<Vec<_>>(),
    })
}

fn pen(it: &PenChange) -> Value {
    let state = match it.state {
        PenState::Same | PenState::Written if it.from.is_some() => "renamed",
        PenState::Same | PenState::Written => "same",
        PenState::Changed => "changed",
        PenState::Gone => "gone",
        PenState::Come => "come",
    };
    json!({
        "name": it.name,
        "file": it.file,
        "state": state,
        "from": it.from,
        "against": it.against,
        "items": it.changes.iter().map(change).collect::<Vec<_>>(),
        "outline": it.outlines.iter().map(outline).collect::<Vec<_>>(),
        "measures": it.measures.iter().map(measure).collect::<Vec<_>>(),
        "findings": it.reported().map(finding).collect::<Vec<_>>(),
        "steps": it.steps.iter().map(step).collect::<Vec<_>>(),
    })
}

fn change(it: &Change) -> Value {
    json!({
        "item": it.item,
        "block": it.block,
        "old": or_null(&it.old),
        "new": or_null(&it.new),
        "renamed": it.renamed,
    })
}

fn outline(it: &OutlineChange) -> Value {
    let extreme = |it: Option<(f64, f64)>| it.map(|(by, at)| json!({ "by_mm": by, "at_mm": at }));
    json!({
        "part": it.part,
        "surface": it.side.word(),
        "grown": extreme(it.grown),
        "shrunk": extreme(it.shrunk),
    })
}

fn measure(it: &MeasureChange) -> Value {
    let mut out = Map::new();
    out.insert("measure".into(), json!(it.kind.word()));
    out.insert("of".into(), json!(it.of.to_string()));
    let put = |out: &mut Map<String, Value>, side: &str, value: Option<f64>| {
        let (key, value) = match (it.kind, it.kind.unit()) {
            (MeasureKind::Want, _) => (format!("{side}_met"), json!(value.map(|it| it > 0.5))),
            (_, Some(unit)) => (format!("{side}_{unit}"), json!(value)),
            (_, None) => (side.to_owned(), json!(value)),
        };
        out.insert(key, value);
    };
    put(&mut out, "old", it.old);
    put(&mut out, "new", it.new);
    Value::Object(out)
}

fn finding(it: &FindingChange) -> Value {
    let finding = &it.finding;
    let file = it.files.iter().find(|file| file.id == finding.span.file);
    let lines = file.map(|it| LineIndex::new(it.text.clone()));
    let point = |offset: usize| {
        let at = lines
            .as_ref()
            .map(|it| it.position(offset, Encoding::Utf32));
        let at = at.unwrap_or_default();
        json!({ "line": at.line + 1, "column": at.column + 1, "offset": offset })
    };
    json!({
        "state": it.state.word(),
        "place": it.place.to_string(),
        "was": it.was.map(|it| it.word()),
        "rule": finding.rule.code(),
        "severity": finding.severity.word(),
        "message": &*finding.message,
        "hint": finding.help().map(|it| it.to_string()),
        "file": it.place.file,
        "start": point(finding.span.range().start),
        "end": point(finding.span.range().end),
        "pens": finding.pens,
    })
}

fn step(it: &StepChange) -> Value {
    json!({
        "of": it.group,
        "number": it.number,
        "old": or_null(&it.old),
        "new": or_null(&it.new),
    })
}

/// Nothing where a side has nothing.
fn or_null(text: &str) -> Option<&str> {
    Some(text).filter(|it| !it.is_empty())
}
