//! What is worked out because nobody wrote it: tap drills, the tenons of threads.

use crate::words;
use quillet_geometry::Length;
use quillet_model::{Cut, Design, Feature, Part};
use quillet_syntax::Span;
use std::collections::BTreeSet;

/// A size that is assumed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Assumed {
    /// The statement it follows from.
    pub span: Span,
    /// What is assumed, in a maker's words: `cap: a tap drill ⌀12.20 to 12 for the M10x1 thread`.
    pub says: String,
}

/// Everything that is assumed in a design, in the order of the text; a part that several pens see
/// alike is told of once.
pub fn of(design: &Design) -> Vec<Assumed> {
    let of_pens = design.pens.iter().flat_map(|pen| &pen.parts);
    let parts = design.parts.iter().chain(of_pens);
    let all: BTreeSet<Assumed> = parts.flat_map(|part| of_part(part)).collect();
    all.into_iter().collect()
}

/// What is assumed in a part.
fn of_part(part: &Part) -> Vec<Assumed> {
    let told = |feature: &Feature| {
        let says = says(feature)?;
        let end = part.end_name(feature.end);
        Some(Assumed {
            span: feature.span,
            says: format!("{}, from {end}: {says}", part.name.text),
        })
    };
    part.features.iter().filter_map(told).collect()
}

/// What is assumed of a cut, in a maker's words; none where all of it is written.
pub fn says(feature: &Feature) -> Option<String> {
    let size = |length: Length| length.mm_text(2);
    match &feature.cut {
        Cut::Drill {
            dia,
            assumed_for: Some(thread),
            ..
        } => {
            let deep = match feature.through {
                true => "through".to_owned(),
                false => format!("to {}", size(feature.to)),
            };
            Some(format!(
                "a tap drill {} {deep} for {}",
                words::dia(*dia),
                thread.called()
            ))
        }
        Cut::Tenon {
            dia,
            assumed_for: Some(thread),
        } => Some(format!(
            "a tenon {} for {}, the middle of its limits",
            words::dia(*dia),
            thread.called()
        )),
        _ => None,
    }
}
