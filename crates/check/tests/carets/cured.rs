//! What resolution offers as a cure, each tried; and in which unit it speaks.

use crate::{examined, tried};
use quillet_syntax::edited;

/// The rule, title and text after each cure of each finding.
fn cures(text: &str) -> Vec<(&'static str, String, String)> {
    let mut cures = Vec::new();
    for finding in tried(text) {
        for fix in &finding.fixes {
            let cured = edited(text, &fix.edits).unwrap();
            cures.push((finding.rule.code(), fix.title.to_string(), cured));
        }
    }
    cures
}

const CAP: &str = "part cap from mouth to crown {\n  blank of acrylic rod 18\n  length 60\n  outside {\n    \
                   at 0     dia 15\n    at 30    dia 15.6\n    at crown dia 14\n  }\n  from mouth {\n    \
                   bore 12 to 50\n  }\n}\n";

/// A slip in the cap, the rule that finds it, and what one of its cures makes of it.
#[track_caller]
fn cured(from: &str, slip: &str, rule: &str, into: &str) {
    assert!(CAP.contains(from), "{from}");
    let found = cures(&CAP.replacen(from, slip, 1));
    let wanted = CAP.replacen(from, into, 1);
    let is = |it: &&(&str, String, String)| it.0 == rule && it.2 == wanted;
    assert!(found.iter().any(|it| is(&it)), "{slip}: {found:#?}");
}

#[track_caller]
fn not_cured(from: &str, slip: &str, rule: &str) {
    let mut found = cures(&CAP.replacen(from, slip, 1));
    found.retain(|it| it.0 == rule);
    assert_eq!(found, [], "{slip}");
}

#[test]
fn sizes_that_cannot_be_have_plain_cures() {
    cured("to 50", "to -50", "out-of-range", "to 50");
    cured("bore 12", "bore -12.5", "out-of-range", "bore 12.5");
    cured("to 50", "to 75", "out-of-range", "through");
    let from_two = "bore 12 to 50\n    groove 13 to 1 at 4";
    let cure = "bore 12 to 50\n    groove 13 for 1 at 4";
    cured("bore 12 to 50", from_two, "out-of-range", cure);
    // The length would have to be read some other way: nothing plain is left.
    not_cured("length 60", "length 0", "out-of-range");
}

#[test]
fn stations_have_plain_cures() {
    // At 75 of 60, where an end is written nowhere else.
    cured(
        "at crown dia 14",
        "at 75 dia 14",
        "out-of-range",
        "at crown dia 14",
    );
    let turned = "at 30    dia 15.6\n    at 0     dia 15\n";
    let order = "at 0     dia 15\n    at 30    dia 15.6\n";
    cured(order, turned, "unordered-stations", order);
    // A comment among them may belong to one of them.
    not_cured(
        order,
        "at 30    dia 15.6 -- the band\n    at 0     dia 15\n",
        "unordered-stations",
    );
    let twice = "at 30    dia 15.6\n    at 30    dia 15\n";
    let stepped = "at 30    dia 15.6 step 15\n    \n";
    cured("at 30    dia 15.6\n", twice, "duplicate-station", stepped);
}

#[test]
fn threads_have_plain_cures() {
    let thread = |text: &str| format!("thread {text} inside to 8\n    drill 9.2 to 40\n  }}");
    let cap = CAP.replace("bore 12 to 50\n  }", &thread("M10x0.8"));
    let all = |text: &str| -> Vec<String> {
        let slip = CAP.replace("bore 12 to 50\n  }", &thread(text));
        let found = cures(&slip).into_iter();
        found
            .filter(|it| it.0 == "out-of-range")
            .map(|it| it.1)
            .collect()
    };
    assert!(cures(&cap).iter().all(|it| it.0 != "out-of-range"));
    assert_eq!(all("M10x0.8 starts 0"), ["write 1"]);
    assert_eq!(all("M10x0.8 starts 2.5"), ["write 2", "write 3"]);
    assert_eq!(all("M10xPh1.6P0.8 starts 3"), ["leave starts out"]);
    assert_eq!(all("M10xPh1.6P0.8 starts 2"), [""; 0]);
}

#[test]
fn a_misspelt_measure_gets_its_edit() {
    let pen = |want: &str| {
        format!(
            "{CAP}part body from mouth to tail {{\n  blank of acrylic rod 18\n  length 60\n  outside \
             dia 11\n}}\npen rail {{\n  slip body.mouth into cap.mouth\n  want {want}\n}}\n"
        )
    };
    for (slip, cure) in [
        ("lenght(uncapped) <= 200", "length(uncapped) <= 200"),
        ("length(uncaped) <= 200", "length(uncapped) <= 200"),
        ("wall(capp) >= 0.5", "wall(cap) >= 0.5"),
        ("inc <= 9ml", "ink <= 9ml"),
    ] {
        let found = cures(&pen(slip));
        let wanted = pen(cure);
        assert!(
            found
                .iter()
                .any(|it| it.0 == "unknown-name" && it.2 == wanted),
            "{slip}: {found:#?}"
        );
    }
}

/// What resolution says of a file in inches is told in inches, and what it offers too.
#[test]
fn findings_of_resolution_speak_the_unit_of_the_file() {
    let cap = "dimensions in inches\n\npart cap from mouth to crown {\n  blank of acrylic rod 3/4\n  \
               length 2.5\n  outside dia 0.62\n  from mouth {\n    bore 0.5 to 2\n  }\n}\n";
    let messages = |from: &str, to: &str| -> Vec<String> {
        let found = examined(&cap.replacen(from, to, 1)).findings.into_iter();
        found.map(|it| it.message.to_string()).collect()
    };
    for (from, to, wanted) in [
        (
            "to 2\n",
            "to 3\n",
            "this cut reaches 3 in into cap, which is 2.5 in long",
        ),
        (
            "0.5 to 2",
            "-0.5 to 2",
            "a hole of -0.5 in cannot be cut; more than 0 in is expected",
        ),
        (
            "length 2.5",
            "length 63.5",
            "63.5 in is more than any pen has; 19.685 in at most",
        ),
        (
            "outside dia 0.62",
            "outside {\n at 3 dia 0.62\n at crown dia 0.6\n}",
            "this station lies at 3 in, beyond the 2.5 in of cap",
        ),
        (
            "bore 0.5 to 2",
            "bore 0.5 to 2\n groove 0.55 to 1 at 1.5",
            "starts at 1.5 in and ends at 1 in",
        ),
    ] {
        let written = messages(from, to);
        assert!(
            written.iter().any(|it| it.contains(wanted)),
            "{wanted}: {written:?}"
        );
        assert!(!written.iter().any(|it| it.contains(" mm")), "{written:?}");
    }
}

/// A countersink of 14 over a hole of 12.2 in ⌀14 meant 13 or so; 1.4 would cut nothing, which is no cure.
#[test]
fn a_cut_that_then_cuts_nothing_is_no_cure() {
    for (outside, countersink, offered) in [
        ("14", "14", None),
        ("14", "15", None),
        ("14", "131", Some("write 13.1 for 131")),
        ("16.4", "128", Some("write 12.8 for 128")),
    ] {
        let found = cures(&format!(
            "part cap from mouth to crown {{\n blank of acrylic rod 18\n length 60\n outside dia {outside}\n from mouth {{\n \
             drill 12.2 to 50\n countersink {countersink}\n }}\n}}\n"
        ));
        let mut own = found.iter().filter(|it| it.0 == "out-of-range");
        assert_eq!(own.next().map(|it| it.1.as_str()), offered, "{found:?}");
    }
}
