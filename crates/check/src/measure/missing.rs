//! What is missing where a measure is not known.

use quillet_model::{Configured, Measure, MissingData, Part, PartId, Pen, Unknown};

/// Something missing.
pub(super) struct Missing {
    /// In a maker's words: `converter says no mass`.
    pub(super) words: String,
    /// It is told of as an error of its own.
    pub(super) is_reported: bool,
}

/// What is missing of a pen to tell a measure.
pub(super) fn of_pen(measure: &Measure, pen: &Pen) -> Vec<Missing> {
    let unread = (!pen.whole).then_some(Unknown::Joints);
    let shapes = pen.parts.with_ids();
    let shapes = shapes.filter_map(|(index, part)| Some(Unknown::Part(index, part.lacks_shape()?)));
    let amiss: Vec<Missing> = unread
        .into_iter()
        .chain(shapes)
        .map(|it| unknown(it, pen))
        .collect();
    if !amiss.is_empty() {
        return amiss;
    }
    let there = |configured: &Configured| pen.assembly.configuration(*configured);
    let name = |part: &PartId| &pen.parts[*part].name.text;
    let words = match measure {
        Measure::Length(it) | Measure::Mass(it) | Measure::Balance(it) => match there(it) {
            None => never(*it).to_owned(),
            Some(there) => return there.unknown.iter().map(|it| unknown(*it, pen)).collect(),
        },
        Measure::Clearance(one, other, it) => match there(it) {
            None => never(*it).to_owned(),
            Some(there) => match [one, other]
                .into_iter()
                .find(|it| there.places[**it].is_none())
            {
                Some(part) => format!("{} is laid aside", name(part)),
                None => return Vec::new(),
            },
        },
        Measure::Turns(_) | Measure::Travel(_) | Measure::Overlap(_) => {
            "no threads of this joint reach each other".to_owned()
        }
        Measure::Hold(_) => {
            "what holds this joint is not told in newtons, or a modulus is not known".to_owned()
        }
        Measure::Distance(_, _, Some(it)) if there(it).is_none() => never(*it).to_owned(),
        Measure::Distance(..) => "the two are never put together".to_owned(),
        Measure::Ink => "nothing in it holds ink".to_owned(),
        Measure::Wall(part) => format!("{} has no wall", name(part)),
        Measure::Diameter(part, _) | Measure::Across(part, _) => {
            format!("{} does not reach there", name(part))
        }
    };
    vec![Missing {
        words,
        is_reported: false,
    }]
}

fn unknown(it: Unknown, pen: &Pen) -> Missing {
    Missing {
        words: it.words(pen),
        is_reported: !matches!(it, Unknown::Part(_, MissingData::Mass)),
    }
}

/// What is missing of a part by itself.
pub(super) fn of_part(measure: &Measure, part: &Part) -> Option<String> {
    let name = &part.name.text;
    match (part.lacks_shape(), measure) {
        (Some(lacks), _) => Some(format!("{name} {}", lacks.words())),
        (None, Measure::Wall(_)) => Some(format!("{name} has no wall")),
        (None, Measure::Diameter(..) | Measure::Across(..)) => {
            Some(format!("{name} does not reach there"))
        }
        _ => Some("it is measured of a pen put together".to_owned()),
    }
}

/// Why a pen has no such state.
fn never(configured: Configured) -> &'static str {
    match configured {
        Configured::Capped => "nothing closes the pen",
        Configured::Uncapped => "nothing is joined",
        Configured::Posted => "nothing is posted",
        Configured::Retracted => "no mechanism throws anything",
        Configured::Resting => "nothing rests in a stand",
    }
}
