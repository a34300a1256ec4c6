//! What was found in files that were checked.

mod brief;
mod json;
pub(super) mod sarif;
mod sarif_baseline;
mod summary;

pub use sarif_baseline::baseline_of_sarif;

use quillet_check::Accepted;
use quillet_check::assumed::Assumed;
use quillet_compare::{Baseline, Place, places};
use quillet_model::SourceFile;
use quillet_syntax::{FileId, Finding, RuleId, Severity};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// One file asked for, with all it uses.
pub struct CheckedFile {
    /// The file, then those it uses.
    pub files: Vec<Arc<SourceFile>>,
    /// The files that others use.
    pub uses: Vec<FileId>,
    /// What was found.
    pub findings: Vec<Finding>,
    /// What was found and is accepted.
    pub accepted: Vec<Accepted>,
    /// What nobody wrote and is worked out, where that was asked for.
    pub assumed: Option<Vec<Assumed>>,
}

/// What was found in all files asked for, together.
#[derive(Default)]
pub struct Checked {
    /// How many files were asked for and checked.
    count: usize,
    files: BTreeMap<FileId, Arc<SourceFile>>,
    used: BTreeSet<FileId>,
    findings: Vec<Finding>,
    accepted: Vec<Accepted>,
    /// How many findings were there before, where that was asked for.
    known: Option<usize>,
    /// What is assumed, where that was asked for.
    assumed: Option<Vec<Assumed>>,
}

impl Checked {
    /// Adds what was found in one.
    pub fn add(&mut self, one: CheckedFile) {
        self.count += 1;
        for file in one.files {
            // A file reached by several paths is called by the first of them in order.
            let known = self.files.entry(file.id).or_insert_with(|| file.clone());
            if file.path < known.path {
                *known = file;
            }
        }
        self.used.extend(one.uses);
        self.findings.extend(one.findings);
        self.accepted.extend(one.accepted);
        if let Some(assumed) = one.assumed {
            self.assumed.get_or_insert_default().extend(assumed);
        }
    }

    /// Sorts by file name and place, and drops what several files tell of one they share.
    pub fn put_in_order(&mut self) {
        let Checked {
            files,
            used,
            findings,
            accepted,
            assumed,
            ..
        } = self;
        findings.retain(|it| it.rule != RuleId::UNUSED_ITEM || !used.contains(&it.span.file));
        findings.sort_by_cached_key(|it| {
            let path = files.get(&it.span.file).map(|file| file.path.clone());
            let place = (path, it.span.start, it.span.end);
            (
                place,
                std::cmp::Reverse(it.severity),
                it.rule,
                it.message.clone(),
            )
        });
        findings.dedup();
        accepted.sort_by_cached_key(|it| {
            let path = files
                .get(&it.finding.span.file)
                .map(|file| file.path.clone());
            (
                path,
                it.finding.span.start,
                it.finding.rule,
                it.finding.message.clone(),
            )
        });
        accepted.dedup();
        if let Some(assumed) = assumed {
            assumed.sort_by_cached_key(|it| {
                let path = files.get(&it.span.file).map(|file| file.path.clone());
                (path, it.span.start, it.text.clone())
            });
            assumed.dedup();
        }
    }

    /// The file of a number.
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(&id).map(Arc::as_ref)
    }

    /// All that was found.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// What was found before, each finding known by its place; `name` says what a file is called.
    pub fn baseline(&self, name: &dyn Fn(&SourceFile) -> String) -> Baseline {
        Baseline::of(self.places(name).iter().zip(&self.findings))
    }

    /// Takes out what was found before and is no graver now, and counts it.
    pub fn leave_out(&mut self, before: &Baseline, name: &dyn Fn(&SourceFile) -> String) {
        let places = self.places(name);
        let all = std::mem::take(&mut self.findings);
        let count = all.len();
        let each = places.iter().zip(all);
        let new = each.filter(|(place, finding)| !before.knows(place, finding));
        self.findings = new.map(|(_, finding)| finding).collect();
        self.known = Some(count - self.findings.len());
    }

    fn places(&self, name: &dyn Fn(&SourceFile) -> String) -> Vec<Place> {
        places(&self.findings, &|id| self.file(id), name)
    }

    /// For other programs that show findings: the Static Analysis Results Interchange Format, 2.1.0,
    /// of OASIS. `name` says what a file is called, from the folder that stands for all.
    pub fn sarif(&self, name: &dyn Fn(&SourceFile) -> String) -> String {
        sarif::text(self, name)
    }

    /// For people: one line a finding, the gravest of each file first; then [`Checked::rest`].
    pub fn brief(&self) -> String {
        brief::text(self)
    }

    /// For programs.
    pub fn json(&self) -> String {
        json::text(self)
    }

    /// For people, what follows the findings: what is assumed, and how many there are.
    pub fn rest(&self) -> String {
        summary::assumed(self) + &summary::summary(self)
    }

    /// How many findings there are of a severity.
    fn count_of(&self, severity: Severity) -> usize {
        self.findings
            .iter()
            .filter(|it| it.severity == severity)
            .count()
    }
}
