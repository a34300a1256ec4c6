//! Names that nothing bears, looked at together when all is resolved: what one slip explains is one
//! finding.

use super::Resolver;
use crate::{DefinitionId, DefinitionKind};
use quillet_syntax::{Finding, RuleId, Span};
use std::collections::BTreeSet;
use std::sync::Arc;

/// A name of an item that is not known, and that no known one comes near.
pub(super) struct UnknownName {
    pub(super) name: Arc<str>,
    pub(super) at: Span,
    pub(super) wanted: Vec<DefinitionKind>,
}

/// A second definition of a name.
pub(super) struct Redefinition {
    /// Where the name stands.
    pub(super) at: Span,
    pub(super) kind: DefinitionKind,
}

impl Resolver<'_> {
    /// Leaves out names that only a file that is missing would tell, or a name given twice; offers
    /// the one item of the wanted kind that nothing uses.
    pub(super) fn gather_astray(&mut self) {
        let findings = &self.design.findings;
        if findings
            .iter()
            .any(|it| it.rule == RuleId::UNFINISHED_MERGE)
        {
            // What is meant is not known yet.
            let read = [
                RuleId::UNFINISHED_MERGE,
                RuleId::SYNTAX,
                RuleId::MISSING_FILE,
            ];
            self.design.findings.retain(|it| read.contains(&it.rule));
            return;
        }
        if findings.iter().any(|it| it.rule == RuleId::MISSING_FILE) {
            let astray: BTreeSet<Span> = self.astray.iter().map(|it| it.at).collect();
            self.drop_unknown(&astray);
            return;
        }
        let kinds: BTreeSet<DefinitionKind> = self
            .astray
            .iter()
            .flat_map(|it| it.wanted.clone())
            .collect();
        for kind in kinds {
            let Some(name) = self.only_astray(kind) else {
                continue;
            };
            match self.only_again(kind) {
                Some(second) => self.misnamed(second, kind, &name),
                None => self.offer_unused(kind, &name),
            }
        }
    }

    /// The name astray of a kind, where there is but one.
    fn only_astray(&self, kind: DefinitionKind) -> Option<Arc<str>> {
        let of_kind = self.astray.iter().filter(|it| it.wanted.contains(&kind));
        let mut names = of_kind.map(|it| &it.name);
        let first = names.next()?;
        names.all(|name| name == first).then(|| first.clone())
    }

    /// The second definition of a kind, where there is but one.
    fn only_again(&self, kind: DefinitionKind) -> Option<Span> {
        let mut again = self.scope.again.iter().filter(|it| it.kind == kind);
        let one = again.next()?;
        again.next().is_none().then_some(one.at)
    }

    /// The second item of a name is the one that is missed.
    fn misnamed(&mut self, second: Span, kind: DefinitionKind, name: &str) {
        let of_name = |it: &&UnknownName| *it.name == *name && it.wanted.contains(&kind);
        let missed: Vec<Span> = self.astray.iter().filter(of_name).map(|it| it.at).collect();
        self.drop_unknown(&missed.iter().copied().collect());
        let duplicate = |it: &&mut Finding| it.span == second && it.rule == RuleId::DUPLICATE_NAME;
        if let Some(finding) = self.design.findings.iter_mut().find(duplicate) {
            let title = format!("call it {name}");
            let mut reported = finding.clone().hint(title.clone()).fix(title, second, name);
            let used = missed.iter().take(MOST_LABELS);
            reported = used.fold(reported, |reported, at| {
                reported.label(*at, format!("no {} is called {name}", kind.word()))
            });
            *finding = reported;
        }
    }

    /// Offers the item of the kind that nothing uses, where there is but one: in the same file, else
    /// in sight.
    fn offer_unused(&mut self, kind: DefinitionKind, name: &str) {
        let used: BTreeSet<DefinitionId> = self
            .design
            .names
            .references
            .iter()
            .map(|it| it.definition)
            .collect();
        let unused: Vec<(Arc<str>, Span)> = self
            .design
            .names
            .definitions
            .with_ids()
            .filter(|(index, it)| it.kind == kind && it.owner.is_none() && !used.contains(index))
            .map(|(_, it)| (it.name.clone(), it.span))
            .collect();
        let of_name = |it: &&UnknownName| *it.name == *name && it.wanted.contains(&kind);
        let places: Vec<Span> = self.astray.iter().filter(of_name).map(|it| it.at).collect();
        for at in places {
            let here: Vec<_> = unused.iter().filter(|(_, it)| it.file == at.file).collect();
            let one = match here.as_slice() {
                [] => unused.iter().collect(),
                _ => here,
            };
            let [(meant, defined)] = one.as_slice() else {
                continue;
            };
            let unknown = |it: &&mut Finding| it.span == at && it.rule == RuleId::UNKNOWN_NAME;
            if let Some(finding) = self.design.findings.iter_mut().find(unknown) {
                let reported = finding.clone().label(*defined, "used nowhere so far");
                let hint = format!("did you mean {meant}?");
                *finding = reported
                    .hint(hint)
                    .fix(format!("write {meant}"), at, &**meant);
            }
        }
    }

    fn drop_unknown(&mut self, at: &BTreeSet<Span>) {
        let stays = |it: &Finding| it.rule != RuleId::UNKNOWN_NAME || !at.contains(&it.span);
        self.design.findings.retain(stays);
    }
}

/// So many places of one name are pointed at.
const MOST_LABELS: usize = 3;
