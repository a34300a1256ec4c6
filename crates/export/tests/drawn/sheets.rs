//! The sheet of a whole pen, in every form.

mod laid;
mod pages;
mod shipped;
mod told;

use crate::common::{example, part, picture};
use quillet_check::{CheckReport, examine};
use quillet_export::draw::Paper;
use quillet_export::mark;
use quillet_export::scene::Scene;
use quillet_export::sheet::{self, Content};
use quillet_syntax::{Finding, Severity};

fn heron(judged: &CheckReport) -> Content {
    let design = example("heron.quillet");
    let pen = design.pen("heron").expect("there is a heron");
    sheet::content(&design, pen, judged, design.units())
}

#[test]
fn a_sheet_holds_what_is_taken_to_the_lathe() {
    let content = heron(&examine(&example("heron.quillet")));
    let names: Vec<&str> = content.parts.iter().map(|part| &*part.name).collect();
    assert_eq!(
        names,
        ["cap", "barrel", "section"],
        "females first, males to suit"
    );
    // The worked pen asks for seven sizes of hole.
    assert!(
        content
            .tools_note
            .starts_with("Holes of 7 sizes: 13.1, 12.2, 9.3, 8.6, 8, 6.9, 6.3")
    );
    let cap = &content.parts[0];
    let drilled = cap
        .route
        .iter()
        .find(|line| line.what.starts_with("drill Ø12.2"));
    let how = drilled.map(|line| line.how.join("; ")).unwrap_or_default();
    // 54 to the corner; the point of 118° is 6.1 / tan 59° = 3.665 further on.
    assert!(
        how.contains("54 to the corner, 57.67 to the point from the mouth"),
        "{how}"
    );
    assert!(cap.route.iter().any(|line| line.gate), "there is a stop");
    assert!(content.wants.iter().all(|want| want.is_met()) && content.wants.len() == 3);
    assert!(!content.mandrels.rows.is_empty() && !content.cuts.rows.is_empty());
}

/// The barrel's ⌀9.3 opens the mouth before its ⌀8 is drilled: no caliper reads that one.
#[test]
fn a_hole_behind_a_wider_mouth_is_tried_by_a_pin() {
    let content = heron(&examine(&example("heron.quillet")));
    let rows = content.parts.iter().flat_map(|part| &part.holdings);
    let mut rows = rows.flat_map(|holding| &holding.rows);
    let drilled = rows.find(|row| row.size == "⌀8" && row.reach == "to 67");
    let cell = drilled.and_then(|row| row.dia.as_deref());
    assert_eq!(cell, Some("⌀8 goes home"));
}

/// ISO 286-2 at 10: H7 is +0.015 to 0, p6 +0.024 to +0.015. To the hundredth both limits of p6
/// would read 10.02.
#[test]
fn the_limits_of_a_fit_are_told_to_the_micrometre() {
    let design = example("fitted.quillet");
    let content = sheet::content(
        &design,
        &design.pens[0],
        &CheckReport::default(),
        design.units(),
    );
    for (name, limits) in [("band", "10.000 to 10.015"), ("body", "10.015 to 10.024")] {
        let part = content.parts.iter().find(|part| part.name == name);
        let part = part.expect("both are cut");
        let mut checks = part.route.iter().flat_map(|line| &line.checks);
        assert!(checks.any(|check| check.limits == limits), "{name}'s route");
        let mut cells = part.calipers.rows.iter().flatten();
        assert!(
            cells.any(|cell| cell.starts_with(limits)),
            "{name}'s calipers"
        );
        assert!(part.calipers.head.iter().any(|it| it == "limits"));
    }
    // The tenon is turned from a stub, and its band tried there.
    let body = content.parts.iter().find(|part| part.name == "body");
    let gate = body.and_then(|it| it.route.iter().find(|line| line.gate));
    let written = &gate.expect("the band is tried").what;
    assert!(written.contains("does not go home by hand"), "{written}");
}

#[test]
fn every_form_holds_every_part_and_the_mark() {
    let content = heron(&CheckReport::default());
    let (html, text, json) = (
        sheet::html(&content, Paper::A4),
        sheet::text(&content),
        sheet::json(&content),
    );
    for form in [&html, &text, &json] {
        assert!(mark::is_ours(form.as_bytes()).unwrap());
        for word in ["cap", "barrel", "section", "shoulder", "STOP"] {
            assert!(form.contains(word), "{word} is missing");
        }
    }
    // Pages say a thread as makers do, lists as its standard does.
    assert!(html.contains("M13×0.8") && html.contains("57.7"));
    assert!(text.contains("M13×0.8 ×3") && text.contains("scale 57.7"));
    assert!(json.contains("M13xPh2.4P0.8") && json.contains("57.67"));
    // Nothing is fetched from anywhere.
    let bare = html.replace("url(data:", "").replace("url(#", "");
    for reach in ["src=", "@import", "url(", "<link rel=\"stylesheet\""] {
        assert!(
            !bare.contains(reach),
            "the page is not self-contained: {reach}"
        );
    }
    let pdf = sheet::pdf(&content, Paper::Letter);
    assert!(mark::is_ours(pdf.as_slice()).unwrap());
    picture("heron-sheet.html", html.as_bytes());
    picture("heron-sheet.pdf", &pdf);
}

#[test]
fn a_pen_with_errors_says_so_on_every_page() {
    let design = example("heron.quillet");
    let span = part(&design, "cap").span;
    let finding = Finding::new(
        "broken-through",
        Severity::Error,
        span,
        "the bore breaks out",
    );
    let content = heron(&CheckReport {
        findings: vec![finding],
        ..CheckReport::default()
    });
    let warned = "This design has errors: do not cut.";
    assert!(sheet::html(&content, Paper::A4).contains(warned));
    let pages = sheet::pages(&content, Paper::A4);
    let warns = |page: &Scene| page.texts().filter(|it| it.words == warned).count();
    assert!(pages.iter().all(|page| warns(page) == 1), "once a page");
}

/// What is sanded on a screwed mandrel is not sanded in reverse, whether the centre went or not.
#[test]
fn sanding_on_a_mandrel_says_which_way_unscrews_it() {
    let content = heron(&examine(&example("heron.quillet")));
    let text = sheet::text(&content);
    let sanded: Vec<&str> = text.lines().filter(|it| it.contains("  SAND ")).collect();
    assert_eq!(sanded.len(), 3, "{sanded:#?}");
    for line in sanded {
        assert!(line.contains("never in reverse: it unscrews"), "{line}");
    }
}

/// What glues a stack stands before its part, where the part's page has no room for it; its rows go on in
/// number, and each of them is there once.
#[test]
fn a_stack_is_glued_up_before_its_page() {
    let design = example("avocet.quillet");
    let content = sheet::content(&design, &design.pens[0], &examine(&design), design.units());
    let pages = sheet::pages(&content, Paper::Letter);
    let words = |page: &Scene| -> Vec<String> { page.texts().map(|it| it.words.clone()).collect() };
    let at = |said: &str| {
        pages
            .iter()
            .position(|it| words(it).iter().any(|it| it == said))
    };
    assert_eq!(at("Glue up the barrel"), Some(2));
    assert_eq!(at("Glued up first: page 3"), at("Barrel"));
    let glues = |page: &Scene| words(page).iter().filter(|it| *it == "GLUE").count();
    assert_eq!(
        pages.iter().map(glues).collect::<Vec<_>>(),
        [0, 0, 2, 0, 0, 0, 0]
    );
}

#[test]
fn a_sheet_says_what_is_asked_of_it() {
    let content = heron(&examine(&example("heron.quillet")));
    let pages = sheet::pages(&content, Paper::A4);
    let all: Vec<&str> = pages
        .iter()
        .flat_map(Scene::texts)
        .map(|it| &*it.words)
        .collect();
    let written = all.join("\n");
    for never in ["take hold anew", "joined with", "Helvetica", "{", "NaN"] {
        assert!(!written.contains(never), "{never}");
    }
    for always in [
        "the die passes ⌀8.7",
        "nub ⌀6 × 6",
        "never in reverse:",
        "M13×0.8",
    ] {
        assert!(written.contains(always), "{always}");
    }
    // The nib's point to the cap's floor, at the example bench, and its cap's last station.
    let left: Vec<_> = content
        .contacts
        .iter()
        .filter_map(|it| it.left.as_ref())
        .collect();
    assert!(
        left.contains(&&("1.50".to_owned(), "0.80".to_owned())),
        "{left:?}"
    );
    let cap = content.parts[0].strip.as_ref().expect("it is shaped");
    let last = cap.columns.last().expect("it has stations");
    assert_eq!((&*last.at, &*last.finished), ("63", "8.0"));
    // Every speed is one number of the bench's lathe, or the hand.
    let speeds = ["450", "700", "1100", "1700", "2800", "hand", ""];
    let rows = content
        .parts
        .iter()
        .flat_map(|it| &it.holdings)
        .flat_map(|it| &it.rows);
    for row in rows {
        assert!(speeds.contains(&&*row.speed), "{row:?}");
    }
}

/// A thread within the outside is cut when that is turned, so what lies before it is turned to the strip too.
#[test]
fn a_strip_has_all_that_is_turned_to_it() {
    let design = example("godwit.quillet");
    let pen = design.pen("godwit").expect("there is a godwit");
    let content = sheet::content(&design, pen, &examine(&design), design.units());
    let section = content.parts.iter().find(|it| it.name == "section");
    let strip = section.and_then(|it| it.strip.as_ref());
    let columns = &strip.expect("it is shaped").columns;
    let at: Vec<&str> = columns.iter().map(|it| &*it.at).collect();
    // Written: 0, 10, 21, 27.5, 34.5; from there on is the tenon, finished before.
    assert_eq!(at, ["0", "5", "10", "15", "21", "27.5", "34.5"]);
    let text = sheet::text(&content);
    for said in ["centre up; parting tool", "\n        ⌀6.3 goes home\n"] {
        assert!(text.contains(said), "{said}");
    }
}

/// Blanks and comments' places do not change the mark, a size does; no clock enters it.
#[test]
fn the_design_mark_tells_designs_apart() {
    let mark = |file: &str| {
        let design = example(file);
        let pen = &design.pens[0];
        let judged = CheckReport::default();
        sheet::content(&design, pen, &judged, design.units()).design_mark
    };
    assert_eq!(mark("heron.quillet"), mark("heron.quillet"));
    assert_ne!(mark("heron.quillet"), mark("dunlin.quillet"));
    let digits = mark("heron.quillet").replace(' ', "");
    assert!(digits.len() == 8 && u32::from_str_radix(&digits, 16).is_ok());
}

#[test]
fn without_a_bench_a_sheet_says_cutting_speeds_and_no_tool_is_missing() {
    let design = example("patient.quillet");
    let content = sheet::content(&design, &design.pens[0], &examine(&design), design.units());
    assert!(content.lacking.is_empty() && content.bench.is_none());
    let rows = content
        .parts
        .iter()
        .flat_map(|it| &it.holdings)
        .flat_map(|it| &it.rows);
    let speeds: Vec<&str> = rows
        .map(|it| &*it.speed)
        .filter(|it| !it.is_empty())
        .collect();
    let reported = |it: &&str| it.ends_with(" m/min") || *it == "hand";
    assert!(
        speeds.len() > 8 && speeds.iter().all(reported),
        "{speeds:?}"
    );
    let pages = sheet::pages(&content, Paper::A4);
    assert!(
        pages[1]
            .texts()
            .any(|it| it.words == "no bench: sizes as drawn")
    );
}
