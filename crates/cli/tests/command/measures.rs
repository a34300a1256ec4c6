//! What every example comes to, held still: a change of a figure is a change that must be meant.

use crate::run::{ended, examples, json, run, run_fed, stderr, stdout};
use std::path::Path;

/// What `quillet measure` prints of an example.
fn measured(name: &str) -> String {
    let file = format!("{name}.quillet");
    let (code, printed, aside) = ended(&run(&examples(), &["measure", "--full", &file]));
    assert_eq!((code, aside.as_str()), (Some(0), ""));
    printed
}

#[test]
fn heron() {
    insta::assert_snapshot!(measured("heron"));
}

#[test]
fn avocet() {
    insta::assert_snapshot!(measured("avocet"));
}

#[test]
fn curlew() {
    insta::assert_snapshot!(measured("curlew"));
}

#[test]
fn dunlin() {
    insta::assert_snapshot!(measured("dunlin"));
}

#[test]
fn godwit() {
    insta::assert_snapshot!(measured("godwit"));
}

#[test]
fn whimbrel() {
    insta::assert_snapshot!(measured("whimbrel"));
}

/// What `quillet measure` says of a text on standard input: how it ends, JSON, standard error.
fn measured_text(text: &str) -> (Option<i32>, serde_json::Value, String) {
    let args = ["measure", "-", "--format", "json"];
    let output = run_fed(Path::new("."), &args, text.as_bytes());
    (output.status.code(), json(&output), stderr(&output))
}

const TUBE: &str = "part tube from mouth to end {\n  blank of acrylic rod 14\n  length 50\n  \
                    outside dia 12\n  from mouth {\n    bore 7.1 to 30\n  }\n}\n";
const REFILL: &str = "bought refill \"Refill\" from point to end {\n  length 30\n  mass 2.8\n  \
                      outside dia 7\n}\npen sketch {\n  slip refill.end into tube.mouth\n}\n";

/// A tube of 12, 50 long, bored 7.1 to 30, acrylic of 1.19 g/cm³: 4205 − 1188 ≈ 4467.12 mm³.
#[test]
fn what_rests_on_something_missing_is_null() {
    let (code, sound, written) = measured_text(&(TUBE.to_owned() + REFILL));
    assert_eq!((code, written.as_str()), (Some(0), ""));
    let volume = std::f64::consts::FRAC_PI_4 * (144.0 * 50.0 - 7.1 * 7.1 * 30.0);
    let near = |found: &serde_json::Value, wanted: f64| {
        assert!(
            (found.as_f64().unwrap() - wanted).abs() <= 0.5e-6,
            "{found}, {wanted}"
        );
    };
    near(&sound["parts"][0]["volume_mm3"], volume);
    near(
        &sound["pens"][0]["configurations"]["uncapped"]["mass_g"],
        volume * 1.19e-3 + 2.8,
    );
    assert_eq!(sound["parts"][1]["mass_g"].to_string(), "2.8");
    // Each with what it takes away: the material, the bore, the mass of a bought part.
    for (from, to, errors, volume, length) in [
        ("of acrylic", "of nowhere-resin", 1, true, true),
        ("bore 7.1", "bore seven", 1, false, false),
        ("bore 7.1 to 30", "bore 12.6 to 30", 1, false, false),
        ("  mass 2.8\n", "", 0, true, true),
    ] {
        let text = (TUBE.to_owned() + REFILL).replace(from, to);
        let (code, json, written) = measured_text(&text);
        assert_eq!(code, Some(i32::from(errors > 0)), "{to}");
        assert_eq!(
            written.contains("has an error"),
            errors > 0,
            "{to}: {written}"
        );
        assert_eq!(json["parts"][0]["volume_mm3"].is_number(), volume, "{to}");
        let pen = &json["pens"][0];
        let uncapped = &pen["configurations"]["uncapped"];
        assert_eq!(uncapped["length_mm"].is_number(), length, "{to}");
        for key in ["mass_g", "balance_mm", "balance_share", "dry_mass_g"] {
            assert!(uncapped[key].is_null(), "{to}: {key} is {}", uncapped[key]);
        }
        assert_eq!(pen["joints"][0]["goes_in_mm"].is_number(), length, "{to}");
        assert_eq!(pen["missing"].as_array().unwrap().len(), 1, "{to}");
    }
}

/// A pen that has lost what it uses has no weight; it does not weigh nothing.
#[test]
fn a_pen_without_its_parts_has_no_weight() {
    let pen = TUBE.to_owned()
        + "use \"none.quillet\"\npen sketch {\n  slip refill.end into \
               tube.mouth\n  want mass(uncapped) <= 24\n}\n";
    let (code, json, written) = measured_text(&pen);
    assert_eq!(code, Some(1));
    assert!(written.contains("has an error"), "{written}");
    let pen = &json["pens"][0];
    assert!(pen["configurations"]["uncapped"].is_null());
    let want = &pen["wants"][0];
    assert_eq!(
        (&want["verdict"], &want["met"]),
        (&"unknown".into(), &serde_json::Value::Null)
    );
    assert!(want["value"].is_null());
}

/// Of a joint that does not come to rest nothing is told: neither how far it goes nor that nothing holds it,
/// whatever keeps it from being known.
#[test]
fn what_holds_a_joint_at_no_known_place_is_not_known() {
    let told = |text: &str| {
        let output = run_fed(Path::new("."), &["measure", "-"], text.as_bytes());
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        let line = text
            .lines()
            .find(|it| it.contains("refill.end in tube.mouth"));
        line.map(|it| it.split_whitespace().collect::<Vec<_>>().join(" "))
            .unwrap_or_default()
    };
    let sound = TUBE.to_owned() + REFILL;
    assert!(told(&sound).ends_with("nothing"), "{}", told(&sound));
    for (from, to) in [
        ("bore 7.1", "bore seven"),
        ("bore 7.1 to 30", "bore 12.6 to 30"),
        ("outside dia 7\n", "outside dia seven\n"),
        ("length 30\n", "length none\n"),
    ] {
        let said = told(&sound.replace(from, to));
        assert_eq!(
            said, "slip refill.end in tube.mouth not known not known",
            "{to}"
        );
    }
}

/// What figures rest on is said once where no bench says it, in `measure`, in `check` and on the sheet; a
/// bench that keeps anything says it itself.
#[test]
fn what_no_bench_says_is_said_to_be_assumed() {
    let hand = "sizes as ISO 2768-1 f keeps them, depths as m, a drilled hole up to 0.15 mm over, a nib \
                within 1 mm";
    let text = TUBE.to_owned() + REFILL;
    let bench = "bench shed {\n  drills 1..13 step 0.1\n}\n";
    let keeps = "bench shed {\n  drills 1..13 step 0.1\n  keeps depth 0.2\n}\n";
    let tools = "; no tool is known to be at hand";
    for (text, said) in [
        (
            text.clone(),
            Some(format!("sketch: no bench is named; {hand}{tools}")),
        ),
        (
            text.clone() + bench,
            Some(format!("sketch: bench shed keeps nothing said; {hand}")),
        ),
        (text.clone() + keeps, None),
        (
            TUBE.to_owned(),
            Some(format!("tube: no bench is named; {hand}{tools}")),
        ),
    ] {
        let asked: [&[&str]; 2] = [&["measure", "--full", "-"], &["check", "--full", "-"]];
        for args in asked {
            let output = run_fed(Path::new("."), args, text.as_bytes());
            let printed = stdout(&output);
            let times = said
                .as_ref()
                .map_or(0, |said| printed.matches(&**said).count());
            assert_eq!(times, usize::from(said.is_some()), "{args:?}: {printed}");
            assert_eq!(
                printed.contains("ISO 2768-1"),
                said.is_some(),
                "{args:?}: {printed}"
            );
        }
    }
}

/// A drill's point begins at a plane, and that is no metal: the line says so, and the JSON keeps its kind.
#[test]
fn what_is_no_metal_is_told_as_such() {
    let printed = measured("heron");
    let corners: Vec<&str> = printed
        .lines()
        .filter(|line| line.trim_start().starts_with("corner "))
        .collect();
    assert!(corners.len() >= 2, "{printed}");
    let plane = "| the plane, no metal, where the point begins of ";
    assert!(corners.iter().all(|it| it.contains(plane)), "{corners:?}");
    assert_eq!(printed.matches(plane).count(), corners.len());
}
