//! Heron as it was made: judged with what was measured, in the place of what is drawn.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_check::{check, examine};
use quillet_fixture::{EXAMPLES, MORE_EXAMPLES};
use quillet_model::{Design, Texts, load, resolve};
use quillet_syntax::Finding;
use std::path::Path;

/// What is made of Heron, drawn with its cap's hole so deep.
fn made(deep: &str, of_heron: &str) -> Design {
    let mut texts = Texts::default();
    for (name, text) in EXAMPLES {
        let to = format!("drill 12.2              to {deep}");
        texts = texts.with(name, &text.replace("drill 12.2              to 54", &to));
    }
    let text = format!("use \"heron.quillet\"\nmade heron-1 of heron {{\n{of_heron}\n}}\n");
    let texts = texts.with("made.quillet", &text);
    resolve(&load(Path::new("made.quillet"), &texts).unwrap())
}

fn of_rule(design: &Design, rule: &str) -> Vec<Finding> {
    let mut found = check(design);
    found.retain(|it| it.rule == rule);
    found
}

fn hint(finding: &Finding) -> String {
    finding
        .hint
        .as_ref()
        .map(ToString::to_string)
        .unwrap_or_default()
}

/// The first Dunlin, Curlew and Snipe, as they ship.
#[test]
fn what_ships_as_made_is_clean_and_says_why() {
    for (name, text) in [
        (
            "dunlin-1",
            include_str!("../../../examples/made/dunlin-1.quillet"),
        ),
        (
            "curlew-1",
            include_str!("../../../examples/made/curlew-1.quillet"),
        ),
        (
            "snipe-1",
            include_str!("../../../examples/made/snipe-1.quillet"),
        ),
    ] {
        let text = text.replace("\"../more/", "\"").replace("\"../", "\"");
        let texts = MORE_EXAMPLES
            .iter()
            .fold(Texts::from_iter(EXAMPLES), |texts, (name, text)| {
                texts.with(*name, &text.replace("\"../", "\""))
            });
        let texts = texts.with("made.quillet", &text);
        let design = resolve(&load(Path::new("made.quillet"), &texts).unwrap());
        let report = examine(&design);
        assert!(report.findings.is_empty(), "{:#?}", report.findings);
        let accepted = report
            .accepted
            .iter()
            .filter(|it| it.finding.rule == "off-drawing");
        assert_eq!(accepted.count(), 1, "{name}");
        assert!(design.pen(name).is_some_and(|it| it.made.is_some()));
    }
}

#[test]
fn what_came_out_as_drawn_is_not_told_of() {
    let as_drawn = "part cap { length 64.05; from mouth { drill 12.24 to 54.1 } }";
    let design = made("54", as_drawn);
    let found = check(&design);
    assert!(found.is_empty(), "{found:#?}");
    assert_eq!(design.pens.len(), 3);
}

#[test]
fn a_tool_that_is_not_on_the_bench_was_there_when_it_was_made() {
    // The bench has no drill of 12.24, nor a bushing of 12.85: both are cut.
    let design = made(
        "54",
        "part cap { from mouth { drill 12.24 to 54 } }
part barrel { from mouth { tenon 12.85 for 8 } }",
    );
    assert!(check(&design).is_empty(), "{:#?}", check(&design));
}

#[test]
fn a_face_in_one_plane_moves_as_one() {
    let design = made("54", "part barrel { from mouth { tenon 12.88 for 8.04 } }");
    let pen = design.pen("heron-1").unwrap();
    let barrel = &pen.parts[pen.part_id("barrel").unwrap()];
    assert_eq!(barrel.face("shoulder").unwrap().at.to_mm(), 8.04);
    let ends: Vec<f64> = barrel.features.iter().map(|it| it.to.to_mm()).collect();
    assert!(ends.contains(&8.04) && !ends.contains(&8.0), "{ends:?}");
    assert!(check(&design).is_empty(), "{:#?}", check(&design));
}

/// At the example bench the chain of what is drawn takes 0.3 + 0.15 + 0.15 + 0.05 + 0.05 and 0.02 across the
/// cone: 51.4 leaves 3.9635 - 2.6 = 1.36, 50.9 leaves 0.86, of which a cap that is made takes 0.02 along and
/// not 0.15. So 0.29 is left at worst; 0.5 is wanted, and each face that is not cut yet gives the 0.21.
#[test]
fn of_a_gap_that_fails_what_is_not_cut_yet_is_told() {
    let sound = made("51.4", "part cap { from mouth { drill 12.2 to 51.4 } }");
    assert_eq!(of_rule(&sound, "nib-strikes-cap"), []);
    let short = made("51.4", "part cap { from mouth { drill 12.2 to 50.9 } }");
    let found = of_rule(&short, "nib-strikes-cap");
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_eq!(
        hint(&found[0]),
        "section's bore to 1.2 is not cut yet: to 1.45 mm; or barrel's shoulder is not cut yet: to \
         7.75 mm; or section's shoulder is not cut yet: to 21.75 mm; or cap's drill to 50.9 is cut: \
         cut it on, to 51.15 mm; quillet room says how far each can go"
    );
    // What it says is so: the gap has its room again.
    let cured = made("51.4", "part cap { from mouth { drill 12.2 to 51.15 } }");
    assert_eq!(of_rule(&cured, "nib-strikes-cap"), []);
    let not_yet = made("51.4", "part cap { from mouth { drill 12.2 to 51.1 } }");
    assert_eq!(of_rule(&not_yet, "nib-strikes-cap").len(), 1);
}

/// A plug's tenon of 8 before a hole to 8.06 of a cap that is 8.1 long. Measured both are known to 0.05 (common
/// practice, no published source), so that they may meet 0.04 early: a tenon that is made gets no shorter, and 0.05
/// more of the hole would come out at the crown. One that is not made keeps 0.1 (ISO 2768-1 f) and lacks 0.09.
#[test]
fn where_no_cut_remains_that_is_said() {
    let found = |cap: &str, tenon: &str, rule: &str| {
        let drawn = format!(
            "part cap from mouth to crown {{\n  blank of acrylic rod 18\n  length 8.1\n  outside dia 15\n  \
             from mouth {{ {cap} }}\n}}\n\
             part plug from front to back {{\n  blank of acrylic rod 18\n  length 20\n  outside dia 15\n  \
             from front {{ tenon 9.9 for 8 }}\n}}\npen redshank {{\n  glue plug.front into cap.mouth\n}}\n"
        );
        let text = format!(
            "{drawn}made redshank-1 of redshank {{\n  part cap {{ from mouth {{ {cap} }} }}\n  {tenon}\n}}\n"
        );
        let texts = Texts::default().with("made.quillet", &text);
        let design = resolve(&load(Path::new("made.quillet"), &texts).unwrap());
        let mut all = of_rule(&design, rule);
        all.retain(|it| it.pens.iter().any(|pen| &**pen == "redshank-1"));
        all.iter().map(hint).collect::<Vec<_>>()
    };
    let made = "part plug { from front { tenon 9.9 for 8 } }";
    let hints = found("bore 10.1 to 8.06", made, "too-close-to-call");
    assert_eq!(hints, ["no cut that remains can cure it"]);
    let hints = found("bore 10.1 to 8.06", "", "too-close-to-call");
    let shorter =
        "plug's tenon to 8 is not cut yet: to 7.9 mm; quillet room says how far each can go";
    assert_eq!(hints, [shorter]);
}

#[test]
fn a_finding_in_what_is_made_shows_what_is_drawn_and_proposes_no_other_size() {
    let design = made("54", "part barrel { from mouth { tenon 12.8 for 8 } }");
    let found = of_rule(&design, "off-drawing");
    assert_eq!(found.len(), 1);
    assert_eq!(design.text(found[0].span), "12.8");
    let drawn = found[0].labels.iter().map(|it| design.text(it.span));
    let drawn: Vec<_> = drawn
        .map(|it| it.split_whitespace().collect::<Vec<_>>())
        .collect();
    assert_eq!(drawn, [["tenon", "for", "8"]]);
    assert!(found[0].fixes.is_empty());
}

#[test]
fn what_is_made_of_a_part_may_be_accepted() {
    let made = |accept: &str| {
        let text = format!("part barrel {{ from mouth {{ tenon 12.8 for 8 }} }}\n{accept}");
        of_rule(&made("54", &text), "off-drawing").len()
    };
    assert_eq!(made(""), 1);
    assert_eq!(
        made("accept off-drawing because \"the cap was drilled to suit\""),
        0
    );
}

/// Of ⌀9.9 and ⌀10 a hand that says nothing keeps 0.1 (ISO 2768-1 f). A hole that came out 0.06 over asks for a tenon
/// as much over, 9.86 to 10.06; what is within the drawing's 9.8 to 10 is not told of either.
#[test]
fn what_was_turned_to_suit_a_hole_is_held_against_that_hole() {
    let told = |tenon: &str, bore: &str| {
        let text = format!(
            "part cap from mouth to crown {{\n  blank of acrylic rod 18\n  length 40\n  outside dia 15\n  \
             from mouth {{ bore 10 to 12 }}\n}}\n\
             part plug from front to back {{\n  blank of acrylic rod 18\n  length 20\n  outside dia 15\n  \
             from front {{ tenon 9.9 for 8 }}\n}}\npen redshank {{ slip plug.front into cap.mouth }}\n\
             made redshank-1 of redshank {{\n  part plug {{ from front {{ tenon {tenon} for 8 }} }}\n  {bore}\n}}\n"
        );
        let texts = Texts::default().with("made.quillet", &text);
        let design = resolve(&load(Path::new("made.quillet"), &texts).unwrap());
        let all = of_rule(&design, "off-drawing");
        all.iter()
            .map(|it| it.message.to_string())
            .collect::<Vec<_>>()
    };
    let bore = "part cap { from mouth { bore 10.06 to 12 } }";
    assert_eq!(
        told("10.03", ""),
        ["turned to ⌀10.03; ⌀9.80 to ⌀10.00 was asked"]
    );
    assert_eq!(told("10.03", bore), [""; 0]);
    assert_eq!(told("9.81", bore), [""; 0]);
    assert_eq!(
        told("10.08", bore),
        ["turned to ⌀10.08; ⌀9.86 to ⌀10.06 was asked to suit cap's ⌀10.06"]
    );
}
