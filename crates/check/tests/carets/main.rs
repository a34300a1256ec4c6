//! What is found where: small texts with carets under the spans expected to be flagged.
//!
//! A comment line of carets and a rule, as `--  ^^^^ thin-wall`, points at the line above it (and
//! past other such lines). What is found must be just what is pointed at.

#![allow(clippy::unwrap_used, reason = "tests")]

mod accepting;
mod cured;
mod edges;
mod holding;
mod joints;
mod limits;
mod pens;
mod threads;
mod walls;
mod wants;

use quillet_check::{CheckReport, examine};
use quillet_model::{Texts, load, resolve};
use std::path::Path;

/// Runs every rule over a text.
pub(crate) fn examined(text: &str) -> CheckReport {
    let texts = Texts::default().with("pen.quillet", text);
    examine(&resolve(&load(Path::new("pen.quillet"), &texts).unwrap()))
}

/// Holds what is found against the carets, and gives it back.
#[track_caller]
pub(crate) fn expect(text: &str) -> CheckReport {
    let found = examined(text);
    let mut told: Vec<String> = found
        .findings
        .iter()
        .map(|it| format!("{:?} {}", it.span.range(), it.rule))
        .collect();
    let mut wanted = pointed_at(text);
    told.sort();
    wanted.sort();
    let messages: Vec<_> = found
        .findings
        .iter()
        .map(|it| (it.rule, &it.message))
        .collect();
    assert_eq!(told, wanted, "\n{messages:#?}");
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

/// The message of the only finding of a rule.
#[track_caller]
pub(crate) fn message<'a>(found: &'a CheckReport, rule: &str) -> &'a str {
    let mut of_rule = found.findings.iter().filter(|it| it.rule == rule);
    let one = of_rule.next().unwrap();
    assert!(of_rule.next().is_none(), "{rule} is found more than once");
    &one.message
}
