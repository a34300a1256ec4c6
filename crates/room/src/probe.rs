//! A design with some of its numbers written otherwise, checked.

use crate::Number;
use quillet_check::{
    CheckReport, KnownParts, asks_for_a_tool, examine, examine_again, examine_knowing,
};
use quillet_model::{Design, Loaded, Redraw, resolve};
use quillet_syntax::visit::{Node, walk};
use quillet_syntax::{Edit, FileId, Finding, RuleId, Severity, Span};
use std::collections::BTreeMap;

/// A number and the value that it is given.
pub type Setting<'n> = (&'n Number, f64);

/// A design as it is drawn, and what counts against it when its numbers move.
#[derive(Debug)]
pub struct Probe<'a> {
    loaded: &'a Loaded,
    /// As drawn.
    design: &'a Design,
    examined: &'a CheckReport,
    pen: Option<&'a str>,
    until: Severity,
    /// Where the statements of the file asked for begin, in order.
    statements: Vec<u32>,
    /// How often each finding that counts is there as drawn.
    known: Known,
    /// What is drawn again with numbers changed, and what is found of its parts as they are.
    redraw: Redraw<'a>,
    parts: KnownParts,
}

/// Who a finding is, wherever its numbers went: its rule, and the statement it points into.
type Identity = (RuleId, FileId, usize);

/// How often each finding that counts is there.
pub(crate) type Known = BTreeMap<Identity, usize>;

/// What counts first of what is found that was not there as drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct NewFinding {
    /// How grave it is.
    pub severity: Severity,
    /// The rule.
    pub rule: RuleId,
}

impl<'a> Probe<'a> {
    /// Of a design as it was loaded, resolved and checked; findings of `pen` alone count, where one is
    /// given, and none below `until`.
    pub fn of(
        loaded: &'a Loaded,
        (design, examined): (&'a Design, &'a CheckReport),
        pen: Option<&'a str>,
        until: Severity,
    ) -> Self {
        let mut statements = Vec::new();
        if let Some(root) = design.root() {
            walk(&root.parsed.tree, &mut |node: Node<'_>| {
                if node.is_statement() {
                    statements.push(node.span().start);
                }
            });
        }
        statements.sort_unstable();
        let redraw = Redraw::of(loaded);
        let shared = redraw.with(&[]).map(|mut it| {
            at_benches_of(design, &mut it);
            examine_knowing(it)
        });
        let parts = shared.unwrap_or_default();
        let mut probe = Probe {
            loaded,
            design,
            examined,
            pen,
            until,
            statements,
            known: BTreeMap::new(),
            redraw,
            parts,
        };
        let counting = probe.counting(&examined.findings);
        let known: Vec<Identity> = counting.map(|it| probe.identity(it, &[])).collect();
        for identity in known {
            *probe.known.entry(identity).or_default() += 1;
        }
        probe
    }

    /// The design as drawn.
    pub fn design(&self) -> &'a Design {
        self.design
    }

    /// Whether a part or pen rests on a number.
    pub(crate) fn moves(&self, number: &Number) -> bool {
        self.redraw.moves(number.span)
    }

    /// What is found in it as drawn.
    pub fn drawn(&self) -> &'a CheckReport {
        self.examined
    }

    /// What is there as drawn but for one thing: beside that only what is without it passes.
    pub(crate) fn known_but(&self, finding: &Finding) -> Known {
        let mut known = self.known.clone();
        let identity = self.identity(finding, &[]);
        known
            .entry(identity)
            .and_modify(|it| *it = it.saturating_sub(1));
        known
    }

    /// The gravest of what is found, with numbers set so, that was not there as drawn; none where that
    /// passes.
    pub fn new_with(&self, settings: &[Setting<'_>]) -> Option<NewFinding> {
        self.new_beside(&self.known, settings)
    }

    /// The same beside what counts as known.
    pub(crate) fn new_beside(&self, known: &Known, settings: &[Setting<'_>]) -> Option<NewFinding> {
        let exactly = settings.iter().map(|(it, value)| it.exactly(*value));
        let exactly: Option<Vec<_>> = exactly.collect();
        let redrawn = exactly.and_then(|it| self.redraw.of_pen(&it, self.pen));
        if let Some(mut design) = redrawn {
            at_benches_of(self.design, &mut design);
            let examined = examine_again(&design, &self.parts, self.pen);
            return self.new_in(known, &examined, &[]);
        }
        let edits = edits_of(settings);
        let (_, examined) = self.with(&edits)?;
        self.new_in(known, &examined, &edits)
    }

    fn new_in(&self, known: &Known, examined: &CheckReport, edits: &[Edit]) -> Option<NewFinding> {
        let mut counts: BTreeMap<Identity, usize> = BTreeMap::new();
        let mut new = None;
        for finding in self.counting(&examined.findings) {
            let identity = self.identity(finding, edits);
            let count = counts.entry(identity).or_default();
            *count += 1;
            if *count > known.get(&identity).copied().unwrap_or(0) {
                let this = NewFinding {
                    severity: finding.severity,
                    rule: finding.rule,
                };
                new = new
                    .filter(|it: &NewFinding| it.severity >= this.severity)
                    .or(Some(this));
            }
        }
        new
    }

    /// The design with the text edited so, and what is found in it; none where edits overlap.
    pub fn with(&self, edits: &[Edit]) -> Option<(Design, CheckReport)> {
        let mut design = resolve(&self.loaded.edited(edits)?);
        at_benches_of(self.design, &mut design);
        let examined = examine(&design);
        Some((design, examined))
    }

    /// What counts of the pen that was asked for.
    fn counting<'f>(&self, findings: &'f [Finding]) -> impl Iterator<Item = &'f Finding> {
        let (pen, until) = (self.pen, self.until);
        findings.iter().filter(move |it| {
            let of_pen = pen
                .is_none_or(|pen| it.pens.is_empty() || it.pens.iter().any(|name| **name == *pen));
            of_pen && counts(it, until)
        })
    }

    fn identity(&self, finding: &Finding, edits: &[Edit]) -> Identity {
        let root = self.loaded.files.first().map(|it| it.id);
        let Span { file, start, .. } = finding.span;
        let place = match root == Some(file) {
            true => {
                let drawn = drawn_at(start, edits);
                self.statements.partition_point(|it| *it <= drawn)
            }
            false => start as usize,
        };
        (finding.rule, file, place)
    }
}

/// Whether a finding counts: one as grave as was asked; never that a tool is not to be had, which a list
/// of tools says, nor what only speaks of the text.
pub(crate) fn counts(finding: &Finding, until: Severity) -> bool {
    let of_text = [RuleId::UNUSED_ITEM, RuleId::STALE_ACCEPTANCE].contains(&finding.rule);
    finding.severity >= until && !of_text && !asks_for_a_tool(finding.rule)
}

/// Leaves a design at the benches that were chosen for another of the same files.
fn at_benches_of(chosen: &Design, design: &mut Design) {
    let is_chosen = |name: &str| chosen.benches.iter().any(|it| *it.name.text == *name);
    design.benches.retain(|it| is_chosen(&it.name.text));
}

/// The edits that give numbers their values.
pub(crate) fn edits_of(settings: &[Setting<'_>]) -> Vec<Edit> {
    let edits = settings
        .iter()
        .map(|(number, value)| number.written(*value));
    edits.collect()
}

/// Where a byte of an edited text lies in the text as drawn.
fn drawn_at(offset: u32, edits: &[Edit]) -> u32 {
    let mut edits: Vec<&Edit> = edits.iter().collect();
    edits.sort_by_key(|it| it.span);
    let mut at = i64::from(offset);
    // Each edit before it, as the edits before that left the text.
    for edit in edits {
        let end = i64::from(edit.span.start) + edit.text.len() as i64;
        if at < i64::from(edit.span.start) {
            break;
        }
        at = match at < end {
            true => i64::from(edit.span.start),
            false => at - edit.text.len() as i64 + edit.span.range().len() as i64,
        };
    }
    u32::try_from(at).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_found_again_in_the_text_as_drawn() {
        let edit = |start, end, text| Edit::new(Span::new(FileId(0), start, end), text);
        // `abc 12 def 3` becomes `abc 12.75 def 4.5`.
        let edits = [edit(11, 12, "4.5"), edit(4, 6, "12.75")];
        assert_eq!(drawn_at(2, &edits), 2);
        assert_eq!(drawn_at(4, &edits), 4);
        assert_eq!(drawn_at(8, &edits), 4);
        assert_eq!(drawn_at(10, &edits), 7);
        assert_eq!(drawn_at(14, &edits), 11);
    }
}
