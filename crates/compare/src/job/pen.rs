//! What has become of a pen: what is written otherwise of it, and what that does.

use super::{Names, State, StepsOf};
use crate::change::Change;
use crate::comparison::{FileChange, PenChange, PenPair, PenState};
use crate::effect::findings::{self, Found};
use crate::effect::{measures, outline, steps};
use crate::written::statement::Statement;
use crate::written::{self, reach};
use quillet_model::Units;
use quillet_pen::Analysis;
use std::sync::Arc;

/// What has become of a pen; none where neither state has it.
pub(super) fn pen(
    (old, new): (Option<&State>, Option<&State>),
    names: Names,
    from: Option<String>,
    found: &[Option<Found>; 2],
    files: &[FileChange],
    steps: StepsOf,
) -> Option<PenChange> {
    let of = |state: Option<&State>, name: Option<&str>| {
        let name = name?;
        Some((state?.analysis.clone(), name.to_owned()))
            .filter(|it| it.0.design.pen(name).is_some())
    };
    let (was, is) = (of(old, names.0), of(new, names.1));
    let (analysis, name) = is.as_ref().or(was.as_ref())?;
    let mut change = PenChange {
        name: name.clone(),
        from,
        against: names
            .0
            .filter(|it| Some(*it) != names.1 && names.1.is_some())
            .map(str::to_owned),
        file: new.or(old)?.root.clone(),
        state: PenState::Same,
        changes: Vec::new(),
        outlines: Vec::new(),
        measures: Vec::new(),
        findings: findings::changes(
            found[0]
                .as_ref()
                .zip(was.as_ref())
                .map(|(it, pen)| (it, Some(&*pen.1))),
            found[1]
                .as_ref()
                .zip(is.as_ref())
                .map(|(it, pen)| (it, Some(&*pen.1))),
        ),
        steps: Vec::new(),
        units: Units::default(),
        pair: None,
    };
    change.units = analysis.design.units();
    let (Some(was), Some(is)) = (was, is) else {
        change.state = match new.is_some() && names.1.is_some() {
            true => PenState::Come,
            false => PenState::Gone,
        };
        return Some(change);
    };
    change.changes = written_of(old?, new?, &is, &was, files);
    change.pair = Some(PenPair { old: was, new: is });
    let merging = |it: Option<&State>| it.is_some_and(|it| it.analysis.design.is_merging());
    if merging(old) || merging(new) {
        // Which of the two versions counts is not known, so nothing is told of what it does.
        change.pair = None;
        change.state = PenState::Changed;
        return Some(change);
    }
    effects(&mut change, steps);
    // The texts differ, or nobody would have looked: then in layout, comments or order.
    let laid_out = files.is_empty() && names.0 == names.1;
    let written = laid_out || !change.changes.is_empty() || change.from.is_some();
    change.state = match (change.has_effect(), written) {
        (true, _) => PenState::Changed,
        (false, true) => PenState::Written,
        (false, false) => PenState::Same,
    };
    Some(change)
}

/// What is written otherwise of what a pen is made of.
fn written_of(
    old: &State,
    new: &State,
    is: &(Arc<Analysis>, String),
    was: &(Arc<Analysis>, String),
    files: &[FileChange],
) -> Vec<Change> {
    let design = &is.0.design;
    let Some(pen) = design.pen(&is.1) else {
        return Vec::new();
    };
    if was.1 != is.1 {
        // Two pens: what their own lines say.
        let item = |state: &State, name: &str| {
            let name = format!("pen {name}");
            let items = state.items();
            let own = |it: &&Statement| it.name() == name;
            items.into_iter().find(own).cloned()
        };
        let mut found = Vec::new();
        if let (Some(a), Some(b)) = (item(old, &was.1), item(new, &is.1)) {
            written::of_item(&b.name(), &a, &b, &mut found);
        }
        return found;
    }
    let reached = reach::reached(&new.items(), design, pen);
    let all = files.iter().flat_map(|it| &it.changes);
    let of_pen = all.filter(|it| {
        let is = match it.renamed {
            true => it.item.replace(&it.old, &it.new),
            false => it.item.clone(),
        };
        // What is gone was reached, or it would not have been there.
        reached.contains(&is) || it.block.is_empty() && it.new.is_empty()
    });
    of_pen.cloned().collect()
}

fn effects(change: &mut PenChange, steps: StepsOf) {
    let Some(pair) = &change.pair else { return };
    let (was, is) = (&pair.old, &pair.new);
    let (Some(old), Some(new)) = (was.0.design.pen(&was.1), is.0.design.pen(&is.1)) else {
        return;
    };
    let parts = pair.parts();
    let outlines = parts.iter().flat_map(|(was, is)| outline::changes(was, is));
    let outlines = outlines.collect();
    let measures = measures::changes((old, was.0.examined()), (new, is.0.examined()));
    let lines = [(&was.0, old), (&is.0, new)].map(|(it, pen)| steps(&it.design, pen));
    let steps = steps::changes(&lines[0], &lines[1]);
    (change.outlines, change.measures, change.steps) = (outlines, measures, steps);
}
