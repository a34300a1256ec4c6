//! A size or a unit out of all proportion, and what leaves nothing of its part.

use super::{reported, reports, slipped};
use quillet_check::examine;
use quillet_syntax::Finding;

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
#[expect(clippy::too_many_lines, reason = "one list of slips")]
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
