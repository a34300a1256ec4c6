//! A slip in an end, in its way in, or in which end is meant.

use super::reports;

#[test]
fn an_end_taken_for_the_other_is_told_with_the_end_that_has_the_thread() {
    let rule = "wrong-way-round";
    for (name, right, wrong, cure) in [
        (
            "heron.quillet",
            "screw section.shank into barrel.mouth",
            "screw section.tip into barrel.mouth",
            "write section.shank",
        ),
        (
            "avocet.quillet",
            "screw section.shank into barrel.mouth",
            "screw section.shank into barrel.tail",
            "write barrel.mouth",
        ),
        // Its threads stop short of each other by the length between them.
        (
            "heron.quillet",
            "screw nib-unit.heel into section.tip",
            "screw nib-unit.heel into section.shank",
            "write section.tip",
        ),
    ] {
        reports(name, &[(right, wrong)], rule, wrong, cure);
    }
}

#[test]
fn a_thread_cut_outside_for_inside_is_told_alone() {
    for (name, right, wrong, cure) in [
        (
            "heron.quillet",
            "thread closing inside ",
            "thread closing outside ",
            "write inside",
        ),
        (
            "heron.quillet",
            "thread housing inside ",
            "thread housing outside ",
            "write inside",
        ),
        (
            "godwit.quillet",
            "thread housing inside ",
            "thread housing outside ",
            "write inside",
        ),
        (
            "whimbrel.quillet",
            "thread joint inside ",
            "thread joint outside ",
            "write inside",
        ),
    ] {
        let at = wrong.trim().rsplit(' ').next().unwrap();
        reports(name, &[(right, wrong)], "wrong-way-round", at, cure);
    }
}

#[test]
fn blocks_named_after_each_others_ends_are_swapped_back() {
    for name in ["heron.quillet", "avocet.quillet"] {
        let slips = [
            ("from tip {", "from XX {"),
            ("from shank {", "from tip {"),
            ("from XX {", "from shank {"),
        ];
        let cure = "swap tip and shank after from";
        reports(name, &slips, "wrong-way-round", "shank", cure);
        for slip in ["from shank {", "from   shank {"] {
            let slips = [("from tip {", slip)];
            reports(name, &slips, "wrong-way-round", "shank", "write from tip");
        }
    }
}

#[test]
fn into_for_onto_is_told_where_the_thread_stands_on_the_other() {
    for name in ["heron.quillet", "avocet.quillet"] {
        let slips = [("cap.mouth onto barrel.mouth", "cap.mouth into barrel.mouth")];
        let at = "close cap.mouth into barrel.mouth";
        reports(name, &slips, "wrong-way-round", at, "write onto");
    }
}

/// Where each part lies then says nothing of what else is found: not of the joints that follow.
#[test]
fn onto_for_into_is_told_alone() {
    for (right, wrong) in [
        (
            "screw nib-unit.heel into section.tip",
            "screw nib-unit.heel onto section.tip",
        ),
        (
            "screw section.shank into barrel.mouth",
            "screw section.shank onto barrel.mouth",
        ),
        (
            "screw section.shank into barrel.mouth",
            "screw barrel.mouth into section.shank",
        ),
    ] {
        let cure = match wrong.contains("onto") {
            true => "write into",
            false => "write onto",
        };
        let rule = "wrong-way-round";
        reports("heron.quillet", &[(right, wrong)], rule, wrong, cure);
    }
}
