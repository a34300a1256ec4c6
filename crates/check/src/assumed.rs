//! What is worked out because nobody wrote it: tap drills, the tenons of threads; how closely sizes
//! are kept where no bench says it.

use crate::unstated;
use quillet_geometry::Length;
use quillet_model::{Cut, Design, Feature, Joint, Part, Pen, StoppedBy, ThreadDef, Units};
use quillet_syntax::Span;
use std::collections::BTreeSet;

/// A size that is assumed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Assumed {
    /// The statement it follows from.
    pub span: Span,
    /// What is assumed, in a maker's words: `cap, from mouth: a tap drill ⌀9.00 to 12 for
    /// the M10x1 thread, 77 % of thread`.
    pub text: String,
}

/// Everything that is assumed in a design, in the order of the text; a part that several pens see
/// alike is told of once.
pub fn of(design: &Design) -> Vec<Assumed> {
    let of_pens = design.pens.iter().flat_map(|pen| &pen.parts);
    let parts = design.parts.iter().chain(of_pens);
    let named = design.threads.iter().map(AsRef::as_ref);
    let written = design.parts.iter().flat_map(|part| {
        let threads = part.features.iter().filter_map(Feature::thread);
        threads.map(|(thread, _)| thread.as_ref())
    });
    let series = named.chain(written).filter_map(series);
    let units = design.units();
    let all: BTreeSet<Assumed> = parts
        .flat_map(|part| of_part(part, units))
        .chain(series)
        .chain(design.pens.iter().flat_map(levels))
        .chain(unstated::of(design).map(|(span, text)| Assumed { span, text }))
        .collect();
    all.into_iter().collect()
}

/// The series of an inch thread that does not say it: the one that lists it, else UNS.
fn series(thread: &ThreadDef) -> Option<Assumed> {
    let written = &*thread.designation.text;
    let form = thread.thread.without_classes();
    let bare = form.is_inch() && !written.contains("UN");
    bare.then(|| Assumed {
        span: thread.designation.span,
        text: format!("{written} is read as {form}"),
    })
}

/// What is assumed in a part.
fn of_part(part: &Part, units: Units) -> Vec<Assumed> {
    let reported = |feature: &Feature| {
        let message = text(feature, units)?;
        let end = part.end_name(feature.end);
        Some(Assumed {
            span: feature.span,
            text: format!("{}, from {end}: {message}", part.name.text),
        })
    };
    let cuts = part.features.iter().filter_map(reported);
    cuts.chain(of_tube(part, units)).collect()
}

/// What a tube brings: its bore, and its outside where no station says one.
fn of_tube(part: &Part, units: Units) -> Option<Assumed> {
    let tube = part.tube()?;
    let bore = units.dia(tube.tube_bore()?);
    let sizes = match part.stations.is_empty() {
        true => format!("outside {} and bore {bore}", units.dia(tube.size)),
        false => format!("bore {bore}"),
    };
    Some(Assumed {
        span: tube.span,
        text: format!("{}: {sizes}, as its tube comes", part.name.text),
    })
}

/// The joints that nothing stops, set level because nobody wrote how deep.
fn levels(pen: &Pen) -> Vec<Assumed> {
    let joints = pen.joints.iter().zip(&pen.assembly.joints);
    let level = joints.filter(|(_, rest)| rest.stopped_by == StoppedBy::Level);
    let told = |joint: &Joint| {
        let (male, female) = (joint.male.part, joint.female.part);
        let female = &pen.parts[female];
        Assumed {
            span: joint.head,
            text: format!(
                "{} is set level with {} of {}, since nothing stops it",
                pen.parts[male].name.text,
                female.end_name(joint.female.end),
                female.name.text
            ),
        }
    };
    level.map(|(joint, _)| told(joint)).collect()
}

/// What is assumed of a cut, in a maker's words; none where all of it is written.
pub fn text(feature: &Feature, units: Units) -> Option<String> {
    let size = |length: Length| units.written(length);
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
                "a tap drill {} {deep} for {}, {:.0} % of thread",
                units.hole(*dia),
                thread.called(),
                thread.thread.percent_of_thread(*dia).of_3h4,
            ))
        }
        Cut::Tenon {
            dia,
            assumed_for: Some(thread),
        } => Some(format!(
            "a tenon {} for {}, the middle of its limits",
            units.dia(*dia),
            thread.called()
        )),
        _ => None,
    }
}
