//! What is found where: small texts with carets under the spans expected to be flagged.
//!
//! A comment line of carets and a rule, as `--  ^^^^ thin-wall`, points at the line above it (and
//! past other such lines). A test names the rule it is about, which must find just what is pointed at.

#![allow(clippy::unwrap_used, reason = "tests")]

mod accepting;
mod bought;
mod cured;
mod deep_sinks;
mod edges;
mod holding;
mod joints;
mod limits;
mod no_land;
mod nothing_there;
mod overlaps;
mod pens;
mod threads;
mod walls;
mod wants;
mod whole_pens;
mod worked_pens;

use quillet_check::{CheckReport, Trial, examine};
use quillet_model::{Texts, load, resolve};
use quillet_syntax::Finding;
use std::path::Path;

/// Runs every rule over a text.
pub(crate) fn examined(text: &str) -> CheckReport {
    let texts = Texts::default().with("pen.quillet", text);
    examine(&resolve(&load(Path::new("pen.quillet"), &texts).unwrap()))
}

/// What is found in a text, with those cures that have been tried.
pub(crate) fn tried(text: &str) -> Vec<Finding> {
    let texts = Texts::default().with("pen.quillet", text);
    let root = Path::new("pen.quillet");
    let design = resolve(&load(root, &texts).unwrap());
    let trial = Trial {
        root,
        source: &texts,
        prepare: &|_| {},
        design: &design,
        findings: &examine(&design).findings,
        called_off: &|| false,
    };
    trial.all()
}

/// Holds what a rule finds against the carets, and gives back all that was found: the rule speaks
/// just where it is pointed at, and so do others where they are; what else they find is theirs.
#[track_caller]
pub(crate) fn expect(rule: &str, text: &str) -> CheckReport {
    hold(text, &|it| it.rule == rule)
}

/// The same of every rule: nothing is found that is not pointed at. A rule that is added may break
/// such a test, so it is for what says that one slip is told once.
#[track_caller]
pub(crate) fn expect_no_more(text: &str) -> CheckReport {
    hold(text, &|_| true)
}

#[track_caller]
fn hold(text: &str, counts: &dyn Fn(&Finding) -> bool) -> CheckReport {
    let found = examined(text);
    let shown = |it: &Finding| format!("{:?} {}", it.span.range(), it.rule);
    let all: Vec<String> = found.findings.iter().map(shown).collect();
    let counted = found.findings.iter().filter(|it| counts(it));
    let mut counted: Vec<String> = counted.map(shown).collect();
    let mut wanted = pointed_at(text);
    // What is pointed at is found, whichever rule it is of.
    for other in wanted
        .iter()
        .filter(|it| !counted.contains(it))
        .cloned()
        .collect::<Vec<_>>()
    {
        if all.contains(&other) {
            counted.push(other);
        }
    }
    counted.sort();
    wanted.sort();
    let messages: Vec<_> = found
        .findings
        .iter()
        .map(|it| (it.rule, &it.message))
        .collect();
    assert_eq!(counted, wanted, "\n{messages:#?}");
    found
}

/// The spans and rules that a text's carets point at.
fn pointed_at(text: &str) -> Vec<String> {
    let mut wanted = Vec::new();
    let (mut offset, mut above) = (0, 0);
    for line in text.split_inclusive('\n') {
        match line
            .find('^')
            .filter(|_| line.trim_start().starts_with("--"))
        {
            Some(column) => {
                let count = line[column..].chars().take_while(|c| *c == '^').count();
                let rule = line[column + count..].trim();
                // Characters before a caret are counted, not bytes.
                let span = above + column..above + column + count;
                wanted.push(format!("{span:?} {rule}"));
            }
            None => above = offset,
        }
        offset += line.len();
    }
    wanted
}

/// The only finding of a rule.
#[track_caller]
pub(crate) fn finding<'a>(found: &'a CheckReport, rule: &str) -> &'a Finding {
    let mut of_rule = found.findings.iter().filter(|it| it.rule == rule);
    let one = of_rule.next().unwrap();
    assert!(of_rule.next().is_none(), "{rule} is found more than once");
    one
}

/// Its message.
#[track_caller]
pub(crate) fn message<'a>(found: &'a CheckReport, rule: &str) -> &'a str {
    &finding(found, rule).message
}
