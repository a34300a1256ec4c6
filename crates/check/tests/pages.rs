//! Every rule's page is true: its failing example shows the rule, its passing one does not.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_check::{RULES, Rule, Run, Trial, check};
use quillet_model::{Texts, load, resolve};
use quillet_syntax::{Finding, Severity, edited};
use std::collections::BTreeSet;
use std::path::Path;

/// What the checker finds in a text on its own.
fn findings(text: &str) -> Vec<Finding> {
    let texts = Texts::default().with("example.quillet", text);
    let loaded = load(Path::new("example.quillet"), &texts).expect("the text is there");
    check(&resolve(&loaded))
}

/// The same, each with the cures that hold.
fn tried(text: &str) -> Vec<Finding> {
    let texts = Texts::default().with("example.quillet", text);
    let root = Path::new("example.quillet");
    let design = resolve(&load(root, &texts).expect("the text is there"));
    let findings = check(&design);
    Trial {
        root,
        source: &texts,
        prepare: &|_| {},
        design: &design,
        findings: &findings,
        called_off: &|| false,
    }
    .all()
}

/// The fenced examples of a page that are to fail or to pass.
fn examples<'a>(rule: &'a Rule, kind: &str) -> Vec<&'a str> {
    let fence = format!("```quillet {kind}\n");
    let parts = rule.page.split(fence.as_str()).skip(1);
    parts
        .map(|rest| rest.split("```").next().unwrap())
        .collect()
}

fn reported(findings: &[Finding]) -> String {
    let line = |it: &Finding| format!("  {} [{}] {}\n", it.severity.word(), it.rule, it.message);
    findings.iter().map(line).collect()
}

#[test]
fn failing_examples_show_the_rule_and_no_other_error() {
    let mut wrong = String::new();
    for rule in RULES {
        let failing = examples(rule, "fails");
        assert!(!failing.is_empty(), "{} has no failing example", rule.code);
        for text in failing {
            let found = findings(text);
            let shown = found.iter().any(|it| it.rule == rule.code);
            let other = found
                .iter()
                .any(|it| it.rule != rule.code && it.severity == Severity::Error);
            if !shown || other {
                wrong += &format!("{}:\n{}", rule.code, reported(&found));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn passing_examples_do_not_show_it_and_have_no_error() {
    let mut wrong = String::new();
    for rule in RULES {
        let passing = examples(rule, "passes");
        assert!(!passing.is_empty(), "{} has no passing example", rule.code);
        for text in passing {
            let found = findings(text);
            let bad = found
                .iter()
                .any(|it| it.rule == rule.code || it.severity == Severity::Error);
            if bad {
                wrong += &format!("{}:\n{}", rule.code, reported(&found));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn each_cure_of_a_failing_example_cures_it() {
    let mut wrong = String::new();
    for rule in RULES {
        for text in examples(rule, "fails") {
            for finding in tried(text).iter().filter(|it| it.rule == rule.code) {
                for fix in &finding.fixes {
                    let cured = edited(text, &fix.edits).unwrap();
                    let left = findings(&cured);
                    let same = |it: &&Finding| it.rule == rule.code && it.span == finding.span;
                    let new_error = left.iter().any(|it| it.severity == Severity::Error)
                        && !findings(text)
                            .iter()
                            .any(|it| it.rule != rule.code && it.severity == Severity::Error);
                    if left.iter().any(|it| same(&it)) || new_error {
                        wrong +=
                            &format!("{}: {}\n{cured}\n{}", rule.code, fix.title, reported(&left));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn pages_are_headed_by_their_code_and_summed_up_in_a_sentence() {
    let mut codes = BTreeSet::new();
    for rule in RULES {
        assert!(codes.insert(rule.code), "{} is listed twice", rule.code);
        assert!(
            rule.page.starts_with(&format!("# {}\n", rule.code)),
            "{}",
            rule.code
        );
        let summary = rule.summary();
        assert!(
            summary.ends_with('.') && summary.len() < 140,
            "{}: {summary}",
            rule.code
        );
        assert!(
            rule.page.contains("\n## Why\n"),
            "{} does not say why",
            rule.code
        );
        let computed = ["\n## How it is found\n", "\n## How it is worked out\n"];
        assert!(
            computed.iter().any(|it| rule.page.contains(it)),
            "{}",
            rule.code
        );
        if rule.limit.is_some() {
            let written = format!("`limit {} = ", rule.code);
            assert!(
                rule.page.contains(&written),
                "{} does not say how its limit is set",
                rule.code
            );
        }
        let kebab = |c: char| c.is_ascii_lowercase() || c == '-';
        assert!(rule.code.chars().all(kebab), "{}", rule.code);
    }
}

#[test]
fn every_page_beside_the_rules_belongs_to_one() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rules");
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|it| it == "md") {
            let code = path
                .file_stem()
                .unwrap()
                .to_str()
                .expect("the text is there");
            assert!(
                RULES.iter().any(|rule| rule.code == code),
                "{code}.md has no rule"
            );
        }
    }
    assert!(RULES.iter().any(|rule| matches!(rule.run, Run::Part(_))));
}

/// What a rule says stands in the unit of the file it is said of, so no text of a rule names one itself:
/// a length is handed to it.
#[test]
fn no_text_of_a_rule_is_in_one_unit() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/rules");
    let mut seen = 0;
    let mut wrong = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|it| it != "rs") {
            continue;
        }
        seen += 1;
        let text = std::fs::read_to_string(&path).unwrap();
        let code = text.lines().filter(|it| !it.trim_start().starts_with("//"));
        let in_mm = code.filter(|line| {
            let mut ends = line.match_indices(" mm").map(|it| &line[..it.0]);
            ends.any(|before| before.ends_with(|it: char| it.is_ascii_digit()))
        });
        wrong.extend(in_mm.map(|it| format!("{}: {}", path.display(), it.trim())));
    }
    assert!(seen > 60, "{seen} rules");
    assert!(wrong.is_empty(), "{wrong:#?}");
}
