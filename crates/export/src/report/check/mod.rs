//! What was found in files that were checked.

mod brief;
mod json;
mod summary;

use quillet_check::assumed::Assumed;
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
