//! One slip in a sound pen is one finding, at the slip: not all that follows from it.
//!
//! These tests want nothing else found, of any rule: the pens are those that ship, and they are clean.

#![allow(clippy::unwrap_used, reason = "tests")]

mod ends;
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

/// A unit that stands apart counts all the same: in a file in inches 5 mm are not 5 inches.
#[test]
fn a_unit_that_stands_apart_is_told_alone() {
    for (name, right, wrong, at, cure) in [
        (
            "heron.quillet",
            "length 64",
            "length 64 mm",
            "64 mm",
            "write 64mm",
        ),
        (
            "heron.quillet",
            "length 64",
            "length 2.5197 in",
            "2.5197 in",
            "write 2.5197in",
        ),
    ] {
        reports(name, &[(right, wrong)], "syntax", at, cure);
    }
}

#[test]
fn a_size_out_of_all_proportion_is_told_alone() {
    let rule = "out-of-proportion";
    for (right, wrong, at, cure) in [
        (
            "drill 9.3               to 12",
            "drill 9.3in to 12",
            "9.3in",
            "write 9.3",
        ),
        (
            "drill 8.0               to 67",
            "drill 80 to 67",
            "80",
            "write 8",
        ),
        (
            "at 12           dia 10.0",
            "at 12 dia 1.0",
            "1.0",
            "write 10",
        ),
        (
            "at 42           dia 13.8",
            "at 42 dia 138",
            "138",
            "write 13.8",
        ),
        (
            "at 0            dia 10.4",
            "at 0 dia 1.04",
            "1.04",
            "write 10.4",
        ),
        // Beside an end, where a hole is wider than what is left; and a hole wider than the part.
        (
            "at 8            dia 14.4",
            "at 8 dia 1.44",
            "1.44",
            "write 14.4",
        ),
        (
            "at 6 from tail  dia 10.8",
            "at 6 from tail dia 1.08",
            "1.08",
            "write 10.8",
        ),
        (
            "drill 6.3               through",
            "drill 63 through",
            "63",
            "write 6.3",
        ),
        // The number that a name stands for.
        ("let grip = 11.4", "let grip = 1.14", "1.14", "write 11.4"),
        ("let grip = 11.4", "let grip = 114", "114", "write 11.4"),
        (
            "let grip = 11.4",
            "let grip = 11.4in",
            "11.4in",
            "write 11.4",
        ),
        ("let grip = 11.0", "let grip = 110", "110", "write 11"),
        ("let grip = 11.0", "let grip = 11in", "11in", "write 11"),
        // Of a thread; the parts it is cut on have no other fault.
        ("M13x0.8", "M130x0.8", "M130x0.8", "write M13x0.8"),
        ("M10x0.75", "M100x0.75", "M100x0.75", "write M10x0.75"),
        // Outside, and lost in a hole that is wider.
        (
            "relief 12.0             for 1.5 ",
            "relief 120 for 1.5 ",
            "120",
            "write 12",
        ),
        (
            "relief 12.0             for 1.5 ",
            "relief 12.0in for 1.5 ",
            "12.0in",
            "write 12.0",
        ),
        ("bore 13.1 ", "bore 1.31 ", "1.31", "write 13.1"),
        // What has to pass is many times as wide.
        ("drill 12.2 ", "drill 1.22 ", "1.22", "write 12.2"),
    ] {
        reports("heron.quillet", &[(right, wrong)], rule, at, cure);
    }
}

/// What a thread's joint does when nothing is left of the thread says nothing more.
#[test]
fn a_thread_that_nothing_is_left_of_is_told_of_alone() {
    for (right, wrong, rule, at) in [
        (
            "for 1.5    -- ",
            "for 1.5in -- ",
            "cuts-nothing",
            "for 1.5in",
        ),
        ("for 1.5    -- ", "for 15 -- ", "cuts-nothing", "for 15"),
        ("to 2.5\n", "to 25\n", "off-tap-drill", "13.1"),
        ("inside   to 9\n", "inside to 0.9\n", "off-tap-drill", "8.6"),
    ] {
        let found = reported("heron.quillet", &[(right, wrong)]);
        assert_eq!((&*found.0, &*found.1), (rule, at), "{wrong}");
    }
}

#[test]
fn a_hole_that_leaves_nothing_of_its_part_is_told_of_alone() {
    for (right, wrong) in [
        ("drill 6.9               to 10.5", "drill 12 to 10.5"),
        ("drill 6.3               through", "drill 12 through"),
        ("drill 8.0               to 17", "drill 12 to 17"),
        ("bore 8.6                to 1.2", "bore 12 to 1.2"),
    ] {
        let found = reported("heron.quillet", &[(right, wrong)]);
        assert_eq!((&*found.0, &*found.1), ("broken-through", wrong));
    }
}

#[test]
fn what_is_in_proportion_or_may_be_meant_is_not_told_of() {
    for (right, wrong) in [
        // A waist of a third, and one that no slip of the point makes of its neighbours.
        ("at 12           dia 10.0", "at 12 dia 3.5"),
        ("at 12           dia 10.0", "at 12 dia 2.9"),
        ("drill 9.3               to 12", "drill 43 to 12"),
    ] {
        let design = slipped("heron.quillet", &[(right, wrong)]);
        let found = examine(&design).findings;
        let odd = |it: &&Finding| it.rule == "out-of-proportion";
        assert!(found.iter().find(odd).is_none(), "{wrong}");
    }
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
