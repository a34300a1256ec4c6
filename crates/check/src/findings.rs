//! Where rules put what they find.

use quillet_geometry::{Length, Limits};
use quillet_model::JointId;
use quillet_syntax::Finding;
use std::sync::Arc;

/// Collects what rules find, and for which pen and part.
#[derive(Debug, Default)]
pub struct Findings {
    pub(crate) raised: Vec<RaisedFinding>,
    /// Who is being looked at: set by the runner, copied to each finding.
    pub(crate) about: Subject,
}

impl Findings {
    /// Raises a finding.
    pub fn push(&mut self, finding: Finding) {
        self.raised.push(RaisedFinding {
            finding,
            about: self.about.clone(),
            stretch: None,
            want: None,
        });
    }

    /// Raises what is to be told of a want, by its number among those judged.
    pub(crate) fn push_want(&mut self, finding: Finding, want: usize) {
        self.raised.push(RaisedFinding {
            finding,
            about: self.about.clone(),
            stretch: None,
            want: Some(want),
        });
    }

    /// Raises a finding that concerns a stretch of the part, between two stations from its
    /// first end: `accept RULE at A..B` covers it where it lies within.
    pub fn push_at(&mut self, finding: Finding, from: Length, to: Length) {
        let stretch = Some(Limits::new(from, to));
        self.raised.push(RaisedFinding {
            finding,
            about: self.about.clone(),
            stretch,
            want: None,
        });
    }
}

/// A finding with what it is about.
#[derive(Clone, Debug)]
pub(crate) struct RaisedFinding {
    pub(crate) finding: Finding,
    pub(crate) about: Subject,
    /// The stretch of the part it concerns.
    pub(crate) stretch: Option<Limits>,
    /// The want it is about, by its number among those judged.
    pub(crate) want: Option<usize>,
}

/// The pen and part, or the pen and joint, a rule was looking at.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Subject {
    pub(crate) pen: Option<Arc<str>>,
    pub(crate) part: Option<Arc<str>>,
    pub(crate) joint: Option<JointId>,
}
