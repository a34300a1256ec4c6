//! Names that nothing bears, looked at together when all is resolved: what one slip explains is one
//! finding.

use super::Resolver;
use super::scope::named;
use crate::{DefinitionId, DefinitionKind};
use quillet_syntax::ast::ItemKind;
use quillet_syntax::{Finding, RuleId, Span};
use std::collections::BTreeSet;
use std::sync::Arc;

/// A name of an item that is not known, and that no known one comes near.
pub(super) struct UnknownName {
    pub(super) name: Arc<str>,
    pub(super) at: Span,
    pub(super) wanted: Vec<DefinitionKind>,
}

impl Resolver<'_> {
    /// Leaves out names that only a file that is missing would tell, an item that cannot be read, or a
    /// name given twice; offers the one item of the wanted kind that nothing uses.
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
        self.drop_unread();
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

    /// Leaves out names that an item would give if it could be read: those that stand in its text, and
    /// the only one of a kind of which an item has no name yet.
    fn drop_unread(&mut self) {
        let names: BTreeSet<&str> = self.astray.iter().map(|it| &*it.name).collect();
        if names.is_empty() {
            return;
        }
        let mut given: BTreeSet<Arc<str>> = BTreeSet::new();
        let (mut nameless, mut wordless) = (BTreeSet::new(), false);
        for item in &self.scope.items {
            match (&item.kind, named(item)) {
                (ItemKind::Bad, _) => {
                    let words = self.design.text(item.span).split(|it| !is_of_name(it));
                    given.extend(words.clone().filter(|it| names.contains(it)).map(Arc::from));
                    // A word alone may have been meant to begin any item.
                    wordless |= words.filter(|it| !it.is_empty()).count() == 1;
                }
                (_, Some((name, kind))) if name.text.is_empty() => {
                    nameless.insert(kind);
                }
                _ => {}
            }
        }
        given.extend(
            nameless
                .into_iter()
                .filter_map(|kind| self.only_astray(kind)),
        );
        given.extend(self.one_astray(|_| wordless));
        let follows = |it: &&UnknownName| given.contains(&it.name);
        let dropped = self.astray.iter().filter(follows).map(|it| it.at).collect();
        self.drop_unknown(&dropped);
        self.astray.retain(|it| !given.contains(&it.name));
    }

    /// The name astray of a kind, where there is but one.
    fn only_astray(&self, kind: DefinitionKind) -> Option<Arc<str>> {
        self.one_astray(|it| it.wanted.contains(&kind))
    }

    /// The name astray that is so, where there is but one.
    fn one_astray(&self, is_so: impl Fn(&UnknownName) -> bool) -> Option<Arc<str>> {
        let mut names = self.astray.iter().filter(|it| is_so(it)).map(|it| &it.name);
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

/// Whether a letter may stand in a name.
fn is_of_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '-' || letter == '_'
}

/// So many places of one name are pointed at.
const MOST_LABELS: usize = 3;
