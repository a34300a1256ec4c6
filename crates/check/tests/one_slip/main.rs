//! One slip in a sound pen is one finding, at the slip: not all that follows from it.
//!
//! These tests want nothing else found, of any rule: the pens are those that ship, and they are clean.

#![allow(clippy::unwrap_used, reason = "tests")]

mod ends;
mod proportion;
mod springs;

use quillet_check::examine;
use quillet_fixture::EXAMPLES;
use quillet_model::{Design, Texts, load, resolve};
use quillet_syntax::Finding;
use std::path::Path;

/// An example with some of its text written otherwise.
fn slipped(name: &str, slips: &[(&str, &str)]) -> Design {
    let mut text = EXAMPLES
        .into_iter()
        .find_map(|(path, text)| (path == name).then(|| text.to_owned()))
        .unwrap();
    for (right, wrong) in slips {
        assert!(text.contains(right), "{name} has no {right:?}");
        text = text.replacen(right, wrong, 1);
    }
    let texts = Texts::from_iter(EXAMPLES).with(name, &text);
    resolve(&load(Path::new(name), &texts).unwrap())
}

/// The only finding of an example with slips: its rule, the text it points at, its first cure.
#[track_caller]
fn reported(name: &str, slips: &[(&str, &str)]) -> (String, String, String) {
    let design = slipped(name, slips);
    let found = examine(&design).findings;
    let shown: Vec<String> = found.iter().map(shown).collect();
    assert_eq!(found.len(), 1, "{slips:?}: {shown:#?}");
    let cure = found[0].fixes.first().map(|fix| fix.title.to_string());
    (
        found[0].rule.to_string(),
        design.text(found[0].span).to_owned(),
        cure.unwrap_or_default(),
    )
}

fn shown(it: &Finding) -> String {
    format!("{} [{}] {}", it.severity.word(), it.rule, it.message)
}

#[track_caller]
fn reports(name: &str, slips: &[(&str, &str)], rule: &str, at: &str, cure: &str) {
    let reported = reported(name, slips);
    assert_eq!(reported, (rule.into(), at.into(), cure.into()), "{slips:?}");
}

#[test]
fn a_name_given_twice_is_told_of_where_the_other_was_meant() {
    for name in ["heron.quillet", "avocet.quillet"] {
        let slips = [("thread joint", "thread closing")];
        reports(name, &slips, "duplicate-name", "closing", "call it joint");
    }
}

#[test]
fn a_name_that_nothing_bears_may_mean_the_only_item_that_nothing_uses() {
    let slips = [("thread joint ", "thread tenon-thread ")];
    let design = slipped("heron.quillet", &slips);
    let found = examine(&design).findings;
    let cures: Vec<_> = found
        .iter()
        .map(|it| it.fixes[0].title.to_string())
        .collect();
    assert_eq!(cures, ["write tenon-thread", "write tenon-thread"]);
}

#[test]
fn a_file_that_is_missing_is_told_of_and_not_what_it_would_define() {
    let (rule, at) = ("missing-file", "\"bouhgt.quillet\"");
    let slips = [("\"bought.quillet\"", at)];
    reports("heron.quillet", &slips, rule, at, "write bought.quillet");
    let at = "\"elsewhere.quillet\"";
    reports("heron.quillet", &[("\"bought.quillet\"", at)], rule, at, "");
    let at = "\"saltings\"";
    reports(
        "heron.quillet",
        &[("\"saltings.quillet\"", at)],
        rule,
        at,
        "write saltings.quillet",
    );
    // A name that is only misspelt is told of all the same.
    let slips = [
        ("\"bought.quillet\"", "\"elsewhere.quillet\""),
        ("thread closing outside", "thread closinf outside"),
    ];
    let found = examine(&slipped("heron.quillet", &slips)).findings;
    let rules: Vec<_> = found.iter().map(|it| it.rule.to_string()).collect();
    assert_eq!(rules, ["missing-file", "unknown-name"]);
}

#[test]
fn a_length_too_short_for_much_of_its_part_is_told_of_alone() {
    let rule = "out-of-range";
    for (right, wrong) in [
        ("length 64", "6.4"),
        ("length 82", "8.2"),
        ("length 30", "3.0"),
        ("length 30", "3"),
    ] {
        let slip = [(right, &*format!("length {wrong}"))];
        reports(
            "heron.quillet",
            &slip,
            rule,
            wrong,
            &right.replace("length", "write"),
        );
    }
    // Two lines are told of each.
    let slip = [("to 54", "to 540"), ("to 7.5 at 2.5", "to 75 at 2.5")];
    let found = examine(&slipped("heron.quillet", &slip)).findings;
    assert_eq!(found.iter().filter(|it| it.rule == rule).count(), 2);
}

/// Whether what it begins with, or its name, is half written: what uses it is not told of as well.
#[test]
fn an_item_that_cannot_be_read_is_told_of_and_not_what_it_would_define() {
    for (right, wrong, at) in [
        ("thread joint = M10x0.75", "threa joint = M10x0.75", "threa"),
        ("thread joint = M10x0.75", "threa", "threa"),
        ("thread joint = M10x0.75", "thread = M10x0.75", "="),
        ("let body = reed", "let = reed", "="),
        ("let body = reed", "lt body = reed", "lt"),
        ("pen heron \"Heron\"", "pen \"Heron\"", "\"Heron\""),
    ] {
        let found = reported("heron.quillet", &[(right, wrong)]);
        assert_eq!((&*found.0, &*found.1), ("syntax", at), "{wrong}");
    }
    // Another name that nothing bears is told of all the same.
    let slips = [
        ("let body = reed", "let = reed"),
        ("joint outside", "jiont-2 outside"),
    ];
    let found = examine(&slipped("heron.quillet", &slips)).findings;
    let rules: Vec<_> = found.iter().map(|it| it.rule.to_string()).collect();
    assert_eq!(rules, ["syntax", "unknown-name"]);
}

#[test]
fn a_want_that_only_an_open_joint_keeps_unmet_is_not_told_of() {
    let slips = [(
        "drill 12.2              to 54",
        "drill 12.2              to 44",
    )];
    let at = "close cap.mouth onto barrel.mouth";
    let reported = reported("heron.quillet", &slips);
    assert_eq!((&*reported.0, &*reported.1), ("nib-strikes-cap", at));
    // It is told of where all closes.
    let slips = [("length(capped) <= 145", "length(capped) <= 125")];
    assert_eq!(self::reported("heron.quillet", &slips).0, "want-unmet");
}

#[test]
fn threads_that_do_not_match_are_told_of_and_not_the_die_that_is_missing_for_one() {
    let slips = [("starts 3      ", "")];
    let design = slipped("heron.quillet", &slips);
    assert!(!examine(&design).findings.is_empty());
    let slips = [(
        "thread closing outside  for 4 at 1.5",
        "thread M13x0.8 outside  for 4 at 1.5",
    )];
    let reported = reported("heron.quillet", &slips);
    assert_eq!(reported.0, "thread-mismatch");
}
