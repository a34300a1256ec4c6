//! Cures are offered only when they have been tried.
//!
//! A rule proposes edits; [`Trial::cures`] applies each in memory, checks the design again and keeps
//! those after which the finding is gone, nothing as bad has come and the text is still whole.

use crate::examine::examine_unseen;
use crate::examine_until;
use quillet_model::{Design, ReadError, Source, SourceFile, load, resolve};
use quillet_syntax::{Edit, FileId, Finding, Fix, RuleId, Severity, Span, edited, moved};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// A design that was checked, and how it is read again.
pub struct Trial<'a> {
    /// The file that was asked for.
    pub root: &'a Path,
    /// Where it and what it uses were read.
    pub source: &'a dyn Source,
    /// What is done to a design between resolving and checking it.
    pub prepare: &'a dyn Fn(&mut Design),
    /// The design as it was checked.
    pub design: &'a Design,
    /// What was found.
    pub findings: &'a [Finding],
    /// Whether the answer is not wanted any more.
    pub called_off: &'a dyn Fn() -> bool,
}

/// More cures of one finding are no help to choose from.
const MOST_OFFERED: usize = 3;

/// So much is read again at most for all cures of a design, in bytes of text and pairs of a pen's
/// joints and of a part's cuts: a pen's every cure, and the first of a file that is as long as a book.
const MOST_READ: usize = 1_000_000;

impl Trial<'_> {
    /// The findings with the cures of each that hold, the first proposed first, three at most.
    pub fn all(&self) -> Vec<Finding> {
        let length: usize = self.design.files.iter().map(|file| file.text.len()).sum();
        // Each joint sees all that those before it brought together, and each cut all others.
        let joints = self.design.pens.iter().map(|pen| pen.joints.len());
        let cuts = self.design.parts.iter().map(|part| part.features.len());
        let pairs: usize = joints.chain(cuts).map(|count| count.pow(2)).sum();
        let mut tries = MOST_READ / (length + pairs).max(1);
        let proved = |finding: &Finding| {
            let held = self.tried(finding, &mut tries);
            finding.clone().with_cures(held)
        };
        self.findings.iter().map(proved).collect()
    }

    /// The cures of one finding that hold.
    pub fn cures(&self, finding: &Finding) -> Vec<Fix> {
        let mut tries = usize::MAX;
        self.tried(finding, &mut tries)
    }

    fn tried(&self, finding: &Finding, tries: &mut usize) -> Vec<Fix> {
        let mut held: Vec<Fix> = Vec::new();
        for fix in &finding.fixes {
            if held.len() == MOST_OFFERED || *tries == 0 {
                break;
            }
            *tries -= 1;
            let known = held.iter().any(|it| it.edits == fix.edits);
            if !known && self.holds(finding, fix).unwrap_or(false) {
                held.push(fix.clone());
            }
        }
        held
    }

    /// Whether a cure cures; none where it cannot be tried.
    fn holds(&self, finding: &Finding, fix: &Fix) -> Option<bool> {
        let design = self.reading(self.changed(fix)?)?;
        let findings = examine_unseen(&design, self.called_off)?.findings;
        let moved = |span: Span| moved(span, &fix.edits);
        let still = findings.iter().any(|it| {
            it.rule == finding.rule && touch(it.span, moved(finding.span)) && same_pens(it, finding)
        });
        let as_grave = |findings: &[Finding]| {
            let same = findings.iter().filter(|it| it.rule == finding.rule);
            same.filter(|it| it.severity >= finding.severity).count()
        };
        let gone = as_grave(&findings) < as_grave(self.findings);
        // Anything as grave must have been there before, at the same place.
        let before = Places::of(self.findings.iter().map(|old| (old.rule, moved(old.span))));
        let known = |it: &Finding| before.touch(it.rule, it.span);
        let mut grave = findings.iter().filter(|it| it.severity >= finding.severity);
        let new = grave.any(|it| !known(it));
        // A cut that cuts nothing any more is no cure of it.
        let idles = |it: &Finding| it.rule == "cuts-nothing" && touch(it.span, moved(finding.span));
        let idle = findings.iter().any(|it| idles(it) && !known(it));
        Some(gone && !still && !new && !idle && !worse(self.findings, &findings, finding.severity))
    }

    /// What is found where some files read otherwise.
    pub(crate) fn found_with(&self, changed: Vec<Arc<SourceFile>>) -> Option<Vec<Finding>> {
        let design = self.reading(changed)?;
        examine_until(&design, self.called_off).map(|examined| examined.findings)
    }

    /// The design where some files read otherwise.
    fn reading(&self, changed: Vec<Arc<SourceFile>>) -> Option<Design> {
        let overlay = Overlay {
            under: self.source,
            changed,
        };
        let loaded = load(self.root, &overlay).ok()?;
        let mut design = resolve(&loaded);
        (self.prepare)(&mut design);
        Some(design)
    }

    /// The files as the edits leave them; none where they overlap or lie outside a file.
    fn changed(&self, fix: &Fix) -> Option<Vec<Arc<SourceFile>>> {
        let mut edits: BTreeMap<FileId, Vec<&Edit>> = BTreeMap::new();
        for edit in &fix.edits {
            edits.entry(edit.span.file).or_default().push(edit);
        }
        let mut changed = Vec::new();
        for (id, edits) in edits {
            let file = self.design.file(id)?;
            changed.push(Arc::new(file.reading(&edited(&file.text, edits)?)));
        }
        Some(changed)
    }
}

fn touch(a: Span, b: Span) -> bool {
    a.file == b.file && a.start <= b.end && b.start <= a.end
}

fn same_pens(a: &Finding, b: &Finding) -> bool {
    a.pens.is_empty() || b.pens.is_empty() || a.pens.iter().any(|pen| b.pens.contains(pen))
}

/// Places of findings of each rule in each file, by where they start, each with the furthest end of
/// those up to it.
struct Places(BTreeMap<(RuleId, FileId), Vec<(u32, u32)>>);

impl Places {
    fn of(found: impl Iterator<Item = (RuleId, Span)>) -> Self {
        let mut places: BTreeMap<_, Vec<(u32, u32)>> = BTreeMap::new();
        for (rule, span) in found {
            let of_rule = places.entry((rule, span.file)).or_default();
            of_rule.push((span.start, span.end));
        }
        for of_rule in places.values_mut() {
            of_rule.sort_unstable();
            let mut furthest = 0;
            for (_, end) in of_rule {
                furthest = furthest.max(*end);
                *end = furthest;
            }
        }
        Places(places)
    }

    /// Whether some place of the rule touches the span.
    fn touch(&self, rule: RuleId, span: Span) -> bool {
        let Some(places) = self.0.get(&(rule, span.file)) else {
            return false;
        };
        let until = places.partition_point(|(start, _)| *start <= span.end);
        until > 0 && places[until - 1].1 >= span.start
    }
}

fn count(findings: &[Finding]) -> BTreeMap<RuleId, usize> {
    let mut counts = BTreeMap::new();
    for finding in findings {
        *counts.entry(finding.rule).or_default() += 1;
    }
    counts
}

/// Whether there is more of anything at least as bad as `severity` than before.
fn worse(before: &[Finding], after: &[Finding], severity: Severity) -> bool {
    let mut grave = after.iter().filter(|it| it.severity >= severity);
    let (old, new) = (count(before), count(after));
    let more = |rule: RuleId| new.get(&rule) > old.get(&rule);
    let at_least = |findings: &[Finding], severity: Severity| {
        findings.iter().filter(|it| it.severity >= severity).count()
    };
    let graver = |severity| at_least(after, severity) > at_least(before, severity);
    grave.any(|it| more(it.rule)) || graver(severity) || graver(Severity::Error)
}

/// Files with some of them changed.
struct Overlay<'a> {
    under: &'a dyn Source,
    changed: Vec<Arc<SourceFile>>,
}

impl Source for Overlay<'_> {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        let file = self.under.open(path)?;
        let changed = self.changed.iter().find(|it| it.id == file.id);
        Ok(changed.cloned().unwrap_or(file))
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        self.under.beside(folder)
    }
}
