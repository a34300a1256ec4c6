//! `unused-item`: a named item that nothing uses.

use crate::{DesignView, Findings, Rule, Run, edits};
use quillet_model::{DefinitionId, DefinitionKind};
use quillet_syntax::{Severity, text};
use std::collections::BTreeSet;

pub(crate) static RULE: Rule = Rule {
    code: "unused-item",
    severity: Severity::Note,
    limit: None,
    page: include_str!("unused-item.md"),
    run: Run::Design(run),
};

fn run(view: &DesignView<'_>, findings: &mut Findings) {
    let design = view.design;
    let Some(root) = design.root() else { return };
    // What could not be read may be what uses it.
    if design
        .findings
        .iter()
        .any(|it| it.severity == Severity::Error)
    {
        return;
    }
    let is_store = !design.pens.iter().any(|pen| pen.span.file == root.id);
    if is_store {
        return;
    }
    let used: BTreeSet<DefinitionId> = design
        .names
        .references
        .iter()
        .map(|it| it.definition)
        .collect();
    for (index, item) in design.names.definitions.with_ids() {
        let reported = matches!(
            item.kind,
            DefinitionKind::Let
                | DefinitionKind::Material
                | DefinitionKind::Thread
                | DefinitionKind::Blank
                | DefinitionKind::Part
                | DefinitionKind::Bought
        );
        if !reported || used.contains(&index) || item.owner.is_some() || item.span.file != root.id {
            continue;
        }
        let finding = RULE
            .at(
                item.span,
                text!("the {} {} is used nowhere", item.kind.word(), item.name),
            )
            .hint("use it, or take it out")
            .fix_all("take it out", vec![edits::take_out(design, item.item)]);
        findings.push(finding);
    }
}
