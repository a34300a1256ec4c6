//! Each rule of which a cure can be written exactly offers one; the others are listed, by what is wanting.

use quillet_check::{RULES, Rule};
use quillet_ide::{ActionKind, Workspace, actions};
use quillet_syntax::edited;
use std::collections::BTreeSet;
use std::path::Path;

/// What is wanted is a name, a size or a figure that only the maker has.
const MAKERS_WORD: &[&str] = &[
    "bad-colour",
    "bad-designation",
    "duplicate-name",
    "incomplete",
    "not-in-drawing",
    "unit-mismatch",
    "unshaped-outside",
    "want-unmet",
];

/// Several things would cure it, none of them one edit: another part, joint, form or material.
const ANOTHER_DESIGN: &[&str] = &[
    "crumbling-thread",
    "dry-nib",
    "ink-attacks",
    "joined-twice",
    "leaky-reservoir",
    "lettered-out-of-line",
    "loose-part",
    "narrow-bearing",
    "no-order-works",
    "rolls-away",
    "short-engagement",
    "short-grip",
    "slender-mandrel",
    "spring-bound",
    "spring-slack",
    "stiff-cap",
    "tips-over",
    "trapped-air",
    "weak-hold",
    "wont-post",
];

/// The tool is not there, or what is cut is not reckoned with: no text changes that.
const NOT_IN_THE_TEXT: &[&str] = &[
    "no-such-bushing",
    "no-such-collet",
    "no-such-die",
    "no-such-reamer",
    "no-such-speed",
    "no-such-tap",
    "not-reckoned",
];

/// It has cures, and of its page's example none holds: a file of nearly that name, a drill that suits, a word
/// that is nearly one.
const NOT_HERE: &[&str] = &[
    "die-wont-pass",
    "missing-file",
    "no-such-drill",
    "nothing-holds",
    "slow-cap",
    "syntax",
    "thin-wall",
];

/// The failing examples of a rule's page.
fn failing(rule: &Rule) -> impl Iterator<Item = &'static str> {
    let parts = rule.page.split("```quillet fails\n").skip(1);
    parts.map(|rest| rest.split("```").next().unwrap())
}

/// Whether a cure is offered on what the rule finds in a text; each one offered must leave less of it.
fn is_cured(rule: &Rule, text: &str) -> bool {
    let path = Path::new("/bench/example.quillet");
    let asked = |text: &str| {
        let mut workspace = Workspace::default();
        workspace.set(path, text.into());
        workspace.snapshot()
    };
    let snapshot = asked(text);
    let analysis = snapshot.analysis(path, &|| false).unwrap();
    let found = analysis.findings(&|| false).unwrap();
    let mut cured = false;
    for (index, finding) in found
        .iter()
        .enumerate()
        .filter(|(_, it)| it.rule == rule.code)
    {
        let all = actions(&snapshot, &analysis, finding.span, &|| false).unwrap();
        let cures = all.into_iter().filter(|it| {
            it.kind == ActionKind::Fix
                && it.cures == Some(index)
                && !it.title.starts_with("accept ")
        });
        for cure in cures {
            let after = asked(&edited(text, &cure.edits).unwrap());
            let after = after.analysis(path, &|| false).unwrap();
            let left = after.findings(&|| false).unwrap();
            let count = |found: &[quillet_syntax::Finding]| {
                found.iter().filter(|it| it.rule == rule.code).count()
            };
            assert!(count(left) < count(found), "{}: {}", rule.code, cure.title);
            cured = true;
        }
    }
    cured
}

#[test]
fn a_rule_without_a_cure_is_known_to_have_none() {
    let none = RULES
        .iter()
        .filter(|rule| !failing(rule).any(|text| is_cured(rule, text)));
    let none: BTreeSet<&str> = none.map(|rule| rule.code).collect();
    let known: BTreeSet<&str> = [MAKERS_WORD, ANOTHER_DESIGN, NOT_IN_THE_TEXT, NOT_HERE]
        .concat()
        .into_iter()
        .collect();
    assert_eq!(none, known);
}
