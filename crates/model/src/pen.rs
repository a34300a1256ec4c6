//! A pen: how its parts meet, and what is wanted of it.

pub(crate) mod as_one;
pub(crate) mod assembly;
pub(crate) mod doubt;
mod follow;
pub(crate) mod lining;
mod metal;
mod outlined;
pub(crate) mod sampled;

use crate::{
    Acceptance, Assembly, ById, Doubts, End, Hand, JointId, Limits, Made, MissingData, Part,
    PartId, PenFace, ThreadDef, Unknown, Want,
};
use quillet_geometry::{Length, Mass};
use quillet_syntax::{Span, ast};
use std::sync::Arc;

/// The parts of a pen.
pub type Parts = ById<PartId, Arc<Part>>;

/// What each part of a pen weighs; none where it is not known.
pub type Weights = ById<PartId, Option<Mass>>;

/// A pen with its parts as it sees them: its own `let`s applied.
#[derive(Clone, Debug)]
pub struct Pen {
    /// Its name.
    pub name: ast::Name,
    /// Its title.
    pub title: Option<ast::Text>,
    /// The comment lines above it.
    pub note: Option<ast::Text>,
    /// The whole item.
    pub span: Span,
    /// Its block; its name where there is none.
    pub block: Span,
    /// The parts its joints name, in the order first named; shared with the design
    /// where this pen's `let`s change nothing in them.
    pub parts: Parts,
    /// The joints, those of the pen it is like first.
    pub joints: ById<JointId, Joint>,
    /// What is wanted, its joints' own wants apart.
    pub wants: Vec<Want>,
    /// What is accepted in it.
    pub accepts: Vec<Acceptance>,
    /// Its thresholds.
    pub limits: Limits,
    /// The bench it names.
    pub bench: Option<ast::Name>,
    /// How closely each of `parts` is made: at the bench it names, the pen's, or the only one in
    /// sight.
    pub hands: ById<PartId, Hand>,
    /// The part that itself holds the ink, and where it is said.
    pub fill: Option<(PartId, Span)>,
    /// Whether every joint and `let` that is written could be read: where not, it is put together
    /// from what is left, and no figure of it is told.
    pub whole: bool,
    /// What was made of it, where it is one that was made.
    pub made: Option<Arc<Made>>,
    /// Where everything comes to rest.
    pub assembly: Assembly,
}

impl Pen {
    /// Whether where its parts rest can be told: it is whole, and so is the shape of each part.
    pub fn is_settled(&self) -> bool {
        self.whole && self.parts.iter().all(|part| part.shaped)
    }

    /// What may be other than reckoned in what its parts weigh, at the hand of the bench they are
    /// made at.
    pub fn doubts(&self) -> Doubts {
        Doubts::of(&self.parts, &self.assembly.weights, &self.hands)
    }

    /// What is missing to tell all of its figures.
    pub fn unknown(&self) -> Vec<Unknown> {
        let of_pen = (!self.whole).then_some(Unknown::Joints);
        let parts = self.parts.with_ids();
        let of_parts = parts.filter_map(|(index, part)| {
            let lacks = part.lacks_mass();
            // A part that says its mass may carry a ring that does not.
            let weight = self.assembly.weights.get(index).copied().flatten();
            let lacks = lacks.or(weight.is_none().then_some(MissingData::Mass))?;
            Some(Unknown::Part(index, lacks))
        });
        of_pen.into_iter().chain(of_parts).collect()
    }

    /// Its joints that are made when its parts are finished: none that is made before turning.
    pub fn joined_at_last(&self) -> impl Iterator<Item = (JointId, &Joint)> {
        let joints = self.joints.with_ids();
        joints.filter(|(_, joint)| joint.before_turning.is_none())
    }

    /// The index of a part of a name.
    pub fn part_id(&self, name: &str) -> Option<PartId> {
        self.parts.position(|part| &*part.name.text == name)
    }
}

/// A joint, resolved to ends.
#[derive(Clone, Debug)]
pub struct Joint {
    /// The whole statement.
    pub span: Span,
    /// Its first line, block left out: where findings of the joint point.
    pub head: Span,
    /// Its verb.
    pub verb: ast::Verb,
    /// What goes in; `end` is always known.
    pub male: JointEnd,
    /// What receives it.
    pub female: JointEnd,
    /// The thread named by `with`.
    pub with: Option<Arc<ThreadDef>>,
    /// What is trapped between, from the female's face outward.
    pub through: Vec<PartId>,
    /// `by L`
    pub by: Option<(Length, Span)>,
    /// What a plain joint asks of its sizes.
    pub asks: Option<(FitRequest, Span)>,
    /// The overlap, on diameter, that is meant to spring past.
    pub snap: Option<(Length, Span)>,
    /// The two are joined before their outside is turned; where it is said.
    pub before_turning: Option<Span>,
    /// What is to touch.
    pub seat: Option<Seat>,
    /// The outsides are to be flush.
    pub flush: Option<Span>,
    /// What is wanted of it.
    pub wants: Vec<Want>,
    /// What is accepted in it.
    pub accepts: Vec<Acceptance>,
    /// Its thresholds.
    pub limits: Limits,
}

impl Joint {
    /// The end written first: the cap's, in a cap joint.
    pub fn first(&self) -> JointEnd {
        if self.male.span < self.female.span {
            self.male
        } else {
            self.female
        }
    }

    /// The end written second.
    pub fn second(&self) -> JointEnd {
        if self.male.span < self.female.span {
            self.female
        } else {
            self.male
        }
    }
}

/// One side of a joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JointEnd {
    /// The part.
    pub part: PartId,
    /// The end.
    pub end: End,
    /// The phrase.
    pub span: Span,
}

/// `seat a.x on b.y`
#[derive(Clone, Debug)]
pub struct Seat {
    /// The statement.
    pub span: Span,
    /// The face named first.
    pub first: PenFace,
    /// The face it is to touch.
    pub second: PenFace,
}

/// What a plain joint asks; diameters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FitRequest {
    /// An ISO 286 fit.
    Fit(quillet_standards::fit::Fit),
    /// A clearance.
    Clearance(Length),
    /// An interference.
    Interference(Length),
    /// A glue gap.
    Gap(Length),
}
