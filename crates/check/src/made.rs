//! What is found of a pen that was made: what speaks of the making is left out, and what lies in a
//! statement that is made shows the drawn one beside it.

use crate::findings::RaisedFinding;
use crate::rules;
use quillet_model::{Design, Made, Pen};
use quillet_syntax::Finding;

/// The same findings, as they are told of pens that were made.
pub(crate) fn told(design: &Design, raised: Vec<RaisedFinding>) -> Vec<RaisedFinding> {
    if design.pens.iter().all(|it| it.made.is_none()) {
        return raised;
    }
    let told = raised.into_iter().filter_map(|mut it| {
        let pen = it.about.pen.as_deref().and_then(|name| design.pen(name));
        let Some((pen, made)) = pen.and_then(|pen| Some((pen, pen.made.as_deref()?))) else {
            return Some(it);
        };
        if rules::is_of_making(it.finding.rule) && is_made(pen, made, &it) {
            return None;
        }
        it.finding = beside_drawn(made, it.finding);
        Some(it)
    });
    told.collect()
}

/// Whether a finding is about a part of which something is made, or about the whole.
fn is_made(pen: &Pen, made: &Made, raised: &RaisedFinding) -> bool {
    let part = raised.about.part.as_deref();
    let part = part.and_then(|name| pen.part_id(name));
    part.is_none_or(|part| made.has_made(part))
}

/// With the drawn statement beside the made one it points at; what is cut cannot be written otherwise.
fn beside_drawn(made: &Made, finding: Finding) -> Finding {
    let mut finding = finding;
    finding.fixes.retain(|fix| {
        let mut edits = fix.edits.iter();
        !edits.any(|edit| made.at(edit.span).is_some())
    });
    let drawn = made.at(finding.span).and_then(|it| it.drawn);
    match drawn {
        Some(drawn) => finding.label(drawn, "drawn so"),
        None => finding,
    }
}
