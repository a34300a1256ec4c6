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
pub(crate) struct CheckedText {
    /// The text the ranges count in.
    pub(crate) text: Arc<str>,
    /// What was found.
    pub(crate) diagnostics: Vec<Diagnostic>,
}

/// What one check found, by file that it read; none where it looked for a file in vain.
pub(crate) type Checked = BTreeMap<PathBuf, Option<CheckedText>>;

/// The latest check of every file, and what was published.
#[derive(Default)]
pub(crate) struct DiagnosticStore {
    /// By file that was checked by itself, the files it read or looked for.
    checks: BTreeMap<PathBuf, Vec<PathBuf>>,
    /// By file, what each check found in it.
    found: BTreeMap<PathBuf, ByRoot>,
    published: BTreeMap<PathBuf, Vec<Diagnostic>>,
}

type ByRoot = BTreeMap<PathBuf, Option<CheckedText>>;

impl DiagnosticStore {
    /// Records a check of `root`; gives `root` and the other files whose findings may have changed.
    pub(crate) fn record(&mut self, root: &Path, checked: Checked) -> BTreeSet<PathBuf> {
        let mut touched = BTreeSet::from([root.to_path_buf()]);
        let old = self.checks.remove(root).unwrap_or_default();
        for file in old.iter().filter(|file| !checked.contains_key(*file)) {
            self.change(root, file, |by_root| by_root.remove(root), &mut touched);
        }
        let files = checked.keys().cloned().collect();
        self.checks.insert(root.to_path_buf(), files);
        for (file, found) in checked {
            let insert = |by_root: &mut ByRoot| by_root.insert(root.to_path_buf(), found);
            self.change(root, &file, insert, &mut touched);
        }
        touched
    }

    /// Drops the check of `root`; gives the files whose findings may have changed.
    pub(crate) fn forget(&mut self, root: &Path) -> BTreeSet<PathBuf> {
        let mut touched = BTreeSet::new();
        for file in self.checks.remove(root).unwrap_or_default() {
            self.change(root, &file, |by_root| by_root.remove(root), &mut touched);
        }
        touched
    }

    /// Changes what the check of `root` found in `file`, and notes where that may show.
    fn change(
        &mut self,
        root: &Path,
        file: &Path,
        change: impl FnOnce(&mut ByRoot) -> Option<Option<CheckedText>>,
        touched: &mut BTreeSet<PathBuf>,
    ) {
        let by_root = self.found.entry(file.to_path_buf()).or_default();
        let was_used = is_used(file, by_root);
        let old = change(by_root).flatten();
        let new = by_root.get(root).and_then(Option::as_ref);
        let shows = match (&old, new) {
            (Some(old), Some(new)) => !old.shows_as(new),
            (Some(found), None) | (None, Some(found)) => !found.diagnostics.is_empty(),
            (None, None) => false,
        };
        if shows || was_used != is_used(file, by_root) {
            touched.insert(file.to_path_buf());
        }
    }

    /// The files whose checks read `file` or looked for it.
    pub(crate) fn readers(&self, file: &Path) -> Vec<PathBuf> {
        let by_root = self.found.get(file);
        by_root
            .into_iter()
            .flatten()
            .map(|(root, _)| root.clone())
            .collect()
    }

    /// Every file that was checked by itself.
    pub(crate) fn roots(&self) -> Vec<PathBuf> {
        self.checks.keys().cloned().collect()
    }

    /// Every file some check read or looked for.
    pub(crate) fn files(&self) -> Vec<PathBuf> {
        self.found.keys().cloned().collect()
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
        let Some(by_root) = self.found.get(file) else {
            return all;
        };
        let used = is_used(file, by_root);
        let current = |found: &&CheckedText| text.is_none_or(|text| Arc::ptr_eq(text, &found.text));
        for (root, found) in by_root {
            for diagnostic in found.iter().filter(current).flat_map(|it| &it.diagnostics) {
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

    /// What was last published of a file.
    pub(crate) fn published(&self, file: &Path) -> &[Diagnostic] {
        self.published.get(file).map_or(&[][..], Vec::as_slice)
    }

    /// Notes what is published of a file; whether it differs from what was.
    pub(crate) fn publish(&mut self, file: &Path, diagnostics: &[Diagnostic]) -> bool {
        let differs = self.published(file) != diagnostics;
        if diagnostics.is_empty() {
            self.published.remove(file);
        } else if differs {
            self.published
                .insert(file.to_path_buf(), diagnostics.to_vec());
        }
        differs
    }
}

impl CheckedText {
    /// Whether the other shows nothing else, whatever the editor has open.
    fn shows_as(&self, other: &Self) -> bool {
        self.diagnostics == other.diagnostics
            && (self.diagnostics.is_empty() || Arc::ptr_eq(&self.text, &other.text))
    }
}

/// Whether a file is used by another that was checked.
fn is_used(file: &Path, by_root: &ByRoot) -> bool {
    by_root.keys().take(2).any(|root| root != file)
}

fn is_rule(diagnostic: &Diagnostic, rule: &str) -> bool {
    matches!(&diagnostic.code, Some(NumberOrString::String(code)) if code == rule)
}
