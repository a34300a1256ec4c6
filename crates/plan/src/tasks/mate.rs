//! What each end of a part meets.

use crate::tasks::asked::{AskedSize, asked};
use crate::{Bearing, Home};
use quillet_geometry::Length;
use quillet_model::{AtRest, CutId, FitRequest, Joint, PartId, Pen, StoppedBy, SurfacePoint};
use quillet_syntax::ast::Verb;
use std::sync::Arc;

/// What an end of a part meets in a pen.
#[derive(Clone, Debug, PartialEq)]
pub struct Mate {
    /// The other part's name.
    pub part: Arc<str>,
    /// The other part's end.
    pub end: Arc<str>,
    /// The other part is bought.
    pub bought: bool,
    /// This part goes into the other.
    pub goes_in: bool,
    /// How far the one is in the other when it is home, from this part's end.
    pub depth: Length,
    /// How they are joined.
    pub verb: Verb,
    /// The turns from where its thread catches until it is home, where it has one.
    pub turns: Option<f64>,
    /// This part's own thread that it catches in, where it has one.
    pub thread: Option<CutId>,
    /// What shows that it is home; none where nothing would stop it.
    pub home: Option<Home>,
    /// What the joint's fit asks of this part.
    pub asked: Option<AskedSize>,
    /// What is left for the glue, on diameter.
    pub gap: Option<Length>,
    /// The two are joined before their outside is turned.
    pub before_turning: bool,
}

/// What each end of a part meets, in the order of the joints.
pub(crate) type Mates = [Vec<Mate>; 2];

/// What the two ends of a pen's part meet.
pub(crate) fn mates(pen: &Pen, part: PartId) -> Mates {
    let mut found = Mates::default();
    for (joint, rest) in pen.joints.iter().zip(&pen.assembly.joints) {
        // A post is no joint to be made: it is where the cap goes while writing; nor is a stand.
        if matches!(joint.verb, Verb::Post | Verb::Rest) {
            continue;
        }
        for (own, other, goes_in) in [
            (joint.male, joint.female, true),
            (joint.female, joint.male, false),
        ] {
            let Some(mate) = pen.parts.get(other.part).filter(|_| own.part == part) else {
                continue;
            };
            found[own.end.index()].push(Mate {
                part: mate.name.text.clone(),
                end: Arc::from(mate.end_name(other.end)),
                bought: mate.is_bought(),
                goes_in,
                depth: Length::mm(rest.goes_in_mm),
                verb: joint.verb,
                turns: rest.engagements.first().map(|it| it.turns()),
                thread: rest.engagements.first().map(|it| match goes_in {
                    true => it.threads.male,
                    false => it.threads.female,
                }),
                home: home(pen, joint, rest, goes_in),
                asked: asked(pen, joint, rest, goes_in),
                gap: gap(joint),
                before_turning: joint.before_turning.is_some(),
            });
        }
    }
    found
}

/// What a joint leaves for its glue, on diameter.
pub(crate) fn gap(joint: &Joint) -> Option<Length> {
    match joint.asks {
        Some((FitRequest::Gap(gap), _)) => Some(gap),
        _ => None,
    }
}

/// What shows that a joint is home, seen from its male or its female.
fn home(pen: &Pen, joint: &Joint, rest: &AtRest, goes_in: bool) -> Option<Home> {
    if joint.verb == Verb::Press {
        return Some(Home::StandsOut);
    }
    match rest.stopped_by {
        StoppedBy::Overlap => Some(Home::GoesIn(Length::mm(rest.goes_in_mm))),
        StoppedBy::Contact => {
            let touch = rest.touches.first()?;
            let (male, female) = (bearing(pen, &touch.male)?, bearing(pen, &touch.female)?);
            let (own, mate) = match goes_in {
                true => (male, female),
                false => (female, male),
            };
            Some(Home::Bears { own, mate })
        }
        StoppedBy::Level => Some(Home::Level),
        StoppedBy::Nothing => None,
    }
}

fn bearing(pen: &Pen, spot: &SurfacePoint) -> Option<Bearing> {
    let part = pen.parts.get(spot.part)?;
    let at = Length::mm(spot.station_mm);
    let face = part.faces.iter().find(|it| (it.at - at).abs() <= SAME);
    Some(Bearing {
        part: part.name.text.clone(),
        face: face.map(|it| it.name.text.clone()),
        at,
    })
}

/// A place this near to a face is the face.
const SAME: Length = Length::from_nm(1_000);
