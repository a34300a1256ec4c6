//! What came of all, and what of it is denied.

use crate::change::{
    Change, FindingChange, FindingState, MeasureChange, OutlineChange, StepChange,
};
use quillet_model::{Part, Units};
use quillet_pen::Analysis;
use quillet_syntax::Severity;
use std::sync::Arc;

/// Two states side by side.
#[derive(Debug, Default)]
pub struct Comparison {
    /// The files of which what is written differs, or in which something is found that is of no pen.
    pub files: Vec<FileChange>,
    /// Every pen of either state, by name.
    pub pens: Vec<PenChange>,
}

/// What differs in a file.
#[derive(Clone, Debug, Default)]
pub struct FileChange {
    /// The file.
    pub name: String,
    /// What is written otherwise.
    pub changes: Vec<Change>,
    /// What is found in no pen in particular.
    pub findings: Vec<FindingChange>,
}

/// What has become of a pen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PenState {
    /// Nothing.
    Same,
    /// It is written otherwise, and nothing of it differs.
    Written,
    /// Something of it differs.
    Changed,
    /// It is not there any more.
    Gone,
    /// It was not there before.
    Come,
}

/// What has become of a pen, and how.
#[derive(Debug)]
pub struct PenChange {
    /// Its name as it is; as it was where it is gone.
    pub name: String,
    /// What it was called, where that is another name.
    pub from: Option<String>,
    /// The other pen it is held against, where it is not its own old self.
    pub against: Option<String>,
    /// The file it stands in.
    pub file: String,
    /// What has become of it.
    pub state: PenState,
    /// What is written otherwise of what it is made of.
    pub changes: Vec<Change>,
    /// Outlines that differ.
    pub outlines: Vec<OutlineChange>,
    /// Measures that differ.
    pub measures: Vec<MeasureChange>,
    /// Its findings, those that are as they were too.
    pub findings: Vec<FindingChange>,
    /// What differs on its sheet.
    pub steps: Vec<StepChange>,
    /// The units of its file.
    pub units: Units,
    /// Both pens, where both are there and were looked at.
    pub pair: Option<PenPair>,
}

/// A pen in both states.
#[derive(Clone, Debug)]
pub struct PenPair {
    /// What it was, and in which pen of it.
    pub old: (Arc<Analysis>, String),
    /// What it is.
    pub new: (Arc<Analysis>, String),
}

/// A part in both states.
pub type PartPair<'a> = (&'a Arc<Part>, &'a Arc<Part>);

impl PenPair {
    /// The parts that are in both.
    pub fn parts(&self) -> Vec<PartPair<'_>> {
        let pens = [&self.old, &self.new].map(|(analysis, name)| analysis.design.pen(name));
        let [Some(old), Some(new)] = pens else {
            return Vec::new();
        };
        let same = |part: &Part| old.parts.iter().find(|it| it.name.text == part.name.text);
        let each = new
            .parts
            .iter()
            .filter_map(|part| Some((same(part)?, part)));
        each.collect()
    }
}

/// From what on something is denied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deny {
    /// A new finding as grave as this, or one that has become so.
    Finding(Severity),
    /// Anything that can be measured, found or read off a sheet.
    Effect,
    /// Anything at all.
    Text,
}

impl PenChange {
    /// The findings that are reported.
    pub fn reported(&self) -> impl Iterator<Item = &FindingChange> {
        self.findings.iter().filter(|it| it.state.counts())
    }

    pub(crate) fn has_effect(&self) -> bool {
        !self.outlines.is_empty()
            || !self.measures.is_empty()
            || !self.steps.is_empty()
            || self.reported().next().is_some()
    }
}

impl FileChange {
    /// The findings that are reported.
    pub fn reported(&self) -> impl Iterator<Item = &FindingChange> {
        self.findings.iter().filter(|it| it.state.counts())
    }
}

impl Comparison {
    /// Every finding, of pens and of none.
    pub fn findings(&self) -> impl Iterator<Item = &FindingChange> {
        let of_pens = self.pens.iter().flat_map(|it| &it.findings);
        self.files.iter().flat_map(|it| &it.findings).chain(of_pens)
    }

    /// How many findings of a severity are new or have become so grave, each place once.
    pub fn new_findings(&self, severity: Severity) -> usize {
        let new = self.findings().filter(|it| it.is_new());
        let new = new.filter(|it| it.finding.severity == severity);
        let places = new.map(|it| it.place.to_string());
        places.collect::<std::collections::BTreeSet<_>>().len()
    }

    /// The pens that are other than they were.
    pub fn changed(&self) -> impl Iterator<Item = &PenChange> {
        let other = |it: &&PenChange| !matches!(it.state, PenState::Same | PenState::Written);
        self.pens.iter().filter(other)
    }

    /// Whether something is denied.
    pub fn is_denied(&self, deny: Deny) -> bool {
        let found = |least: Severity| {
            let mut new = self.findings().filter(|it| it.is_new());
            new.any(|it| it.finding.severity >= least)
        };
        let effect = || {
            let mut reported = self.files.iter().flat_map(FileChange::reported);
            self.changed().next().is_some() || reported.next().is_some()
        };
        match deny {
            Deny::Finding(least) => found(least),
            Deny::Effect => effect(),
            Deny::Text => {
                let written = self.pens.iter().any(|it| it.state != PenState::Same);
                effect() || written || !self.files.is_empty()
            }
        }
    }
}

impl FindingChange {
    /// Whether it was not there before, or not so grave.
    pub fn is_new(&self) -> bool {
        matches!(self.state, FindingState::New | FindingState::Graver)
    }
}
