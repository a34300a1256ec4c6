//! What was found, file by file, and what of it the editor was last told.
//!
//! A file is checked by itself and again in every file that uses it, so what is shown
//! of it is gathered from all of these, each told once.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tower_lsp::lsp_types::{Diagnostic, NumberOrString};

/// What one check found in one file, and in which text of it.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    /// The text the ranges count in.
    pub(crate) text: Arc<str>,
    /// What was found.
    pub(crate) diagnostics: Vec<Diagnostic>,
}

/// What one check found: every file it read, and those it looked for in vain.
#[derive(Clone, Debug, Default)]
pub(crate) struct Checked {
    /// By file, also where nothing was found.
    pub(crate) files: BTreeMap<PathBuf, Found>,
    /// Files that were looked for and are not there.
    pub(crate) missing: Vec<PathBuf>,
}

/// The latest check of every file, and what was published.
#[derive(Default)]
pub(crate) struct Shown {
    checks: BTreeMap<PathBuf, Checked>,
    /// By file, the files whose checks read it or looked for it.
    readers: BTreeMap<PathBuf, BTreeSet<PathBuf>>,
    published: BTreeMap<PathBuf, Vec<Diagnostic>>,
}

impl Shown {
    /// Records a check of `root`; gives the files whose findings may have changed.
    pub(crate) fn record(&mut self, root: &Path, checked: Checked) -> BTreeSet<PathBuf> {
        let mut touched = self.forget(root);
        touched.extend(checked.files.keys().cloned());
        for file in checked.files.keys().chain(&checked.missing) {
            self.readers
                .entry(file.clone())
                .or_default()
                .insert(root.to_path_buf());
        }
        self.checks.insert(root.to_path_buf(), checked);
        touched
    }

    /// Drops the check of `root`; gives the files whose findings may have changed.
    pub(crate) fn forget(&mut self, root: &Path) -> BTreeSet<PathBuf> {
        let Some(old) = self.checks.remove(root) else {
            return BTreeSet::new();
        };
        for file in old.files.keys().chain(&old.missing) {
            if let Some(readers) = self.readers.get_mut(file) {
                readers.remove(root);
            }
        }
        old.files.into_keys().collect()
    }

    /// The files whose checks read `file` or looked for it.
    pub(crate) fn readers(&self, file: &Path) -> Vec<PathBuf> {
        self.readers
            .get(file)
            .into_iter()
            .flatten()
            .cloned()
            .collect()
    }

    /// Every file that was checked by itself.
    pub(crate) fn roots(&self) -> Vec<PathBuf> {
        self.checks.keys().cloned().collect()
    }

    /// Every file some check read.
    pub(crate) fn files(&self) -> Vec<PathBuf> {
        self.readers.keys().cloned().collect()
    }

    /// Whether `root` has been checked by itself.
    pub(crate) fn knows(&self, root: &Path) -> bool {
        self.checks.contains_key(root)
    }

    /// What is found in `file` by all checks that read it, each told once, in order.
    ///
    /// `text` is the open document's text: what was found in another text is left out.
    pub(crate) fn gather(&self, file: &Path, text: Option<&Arc<str>>) -> Vec<Diagnostic> {
        let mut all: Vec<Diagnostic> = Vec::new();
        let readers = self.readers(file);
        let used = readers.iter().any(|root| root != file);
        for root in &readers {
            let Some(found) = self
                .checks
                .get(root)
                .and_then(|check| check.files.get(file))
            else {
                continue;
            };
            if text.is_some_and(|text| !Arc::ptr_eq(text, &found.text)) {
                continue;
            }
            for diagnostic in &found.diagnostics {
                // What is used elsewhere is not unused, whatever the file says by itself.
                let idle = used && root == file && is_rule(diagnostic, "unused-item");
                if !idle && !all.contains(diagnostic) {
                    all.push(diagnostic.clone());
                }
            }
        }
        all.sort_by_key(|found| (found.range.start, found.range.end));
        all
    }

    /// Notes what is published of a file; whether it differs from what was.
    pub(crate) fn publish(&mut self, file: &Path, diagnostics: &[Diagnostic]) -> bool {
        let old = self.published.get(file).map_or(&[][..], Vec::as_slice);
        let differs = old != diagnostics;
        if diagnostics.is_empty() {
            self.published.remove(file);
        } else if differs {
            self.published
                .insert(file.to_path_buf(), diagnostics.to_vec());
        }
        differs
    }
}

fn is_rule(diagnostic: &Diagnostic, rule: &str) -> bool {
    matches!(&diagnostic.code, Some(NumberOrString::String(code)) if code == rule)
}
