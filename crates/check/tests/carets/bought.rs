//! What is bought and measured wrong: a clip's arm, a spring's two lengths.

use crate::tried;

/// A cap of 60 on a barrel of 70, of which the tenon's 8 go in, and a clip held under a finial.
fn clipped(arm: &str) -> String {
    format!(
        "thread closing = M13x0.8 starts 3\nthread small = M8x0.75\n\
         bought clip from under to over {{\n length 1\n mass 2\n outside dia 12\n from under {{\n bore 8.2 through\n }}\n arm {arm}\n}}\n\
         part cap from mouth to crown {{\n blank of acrylic rod 20\n length 60\n outside dia 16\n from mouth {{\n bore 13.1 to 2.5\n thread closing inside to 7.5 at 2.5\n drill 12.2 to 40\n }}\n from crown {{\n drill 7.3 to 10\n thread small inside to 7\n }}\n}}\n\
         part finial from top to shank {{\n blank of acrylic rod 16\n length 13\n outside {{\n at 0 dia 12\n at 6 dia 12 as ledge\n }}\n from shank {{\n tenon for 7\n thread small outside for 6\n relief 6.9 for 1 at 6\n }}\n}}\n\
         part barrel from mouth to tail {{\n blank of acrylic rod 20\n length 70\n outside {{\n at 8 dia 16 as ledge\n at 70 dia 16\n }}\n from mouth {{\n tenon for 8\n relief 12 for 1.5\n thread closing outside for 4 at 1.5\n relief 12 for 2.5 at 5.5\n }}\n}}\n\
         pen test {{\n close cap.mouth onto barrel.mouth\n screw finial.shank into cap.crown through clip\n}}\n"
    )
}

/// The pen is 60 + 70 − 8 long, and 1 for the clip's ring and 6 for the finial, 129 in all.
#[test]
fn an_arm_is_no_longer_than_the_pen() {
    for (arm, cure) in [
        ("38", None),
        ("128.9", None),
        ("129.1", Some("write 12.91")),
        ("380", Some("write 38")),
        ("40.5in", Some("write 40.5")),
    ] {
        let found = tried(&clipped(arm));
        let it = found.iter().find(|it| it.rule == "out-of-proportion");
        let offered = it.map(|it| it.fixes.first().map(|fix| fix.title.to_string()));
        assert_eq!(offered.flatten().as_deref(), cure, "{arm}: {found:#?}");
        if let Some(it) = it {
            let ends = it.message.to_string();
            assert!(ends.ends_with("on a pen of 129.00 mm"), "{ends}");
        }
    }
}

/// What gives has a range of lengths: each end is held to what a length may be, and a minus in
/// place of the two points is told as such.
#[test]
fn both_lengths_of_what_gives_can_be_made() {
    let spring = |length: &str| {
        let text = format!(
            "bought spring from front to back {{\n length {length}\n mass 0.1\n outside dia 5\n}}\n"
        );
        let found = tried(&text);
        let first = |it: &quillet_syntax::Finding| {
            let cure = it.fixes.first().map(|fix| fix.title.to_string());
            (it.rule.to_string(), cure)
        };
        found
            .iter()
            .filter(|it| it.rule != "unused-item")
            .map(first)
            .collect::<Vec<_>>()
    };
    let out = |cure: Option<&str>| vec![("out-of-range".to_string(), cure.map(str::to_owned))];
    for sound in ["4..12", "12-4", "6", "1/8in..1/2in", "500"] {
        assert_eq!(spring(sound), [], "{sound}");
    }
    assert_eq!(spring("0..12"), out(None));
    assert_eq!(spring("-4..12"), out(Some("write it without the minus")));
    assert_eq!(spring("12..4"), out(Some("write 4..12")));
    assert_eq!(spring("4-12"), out(Some("write 4..12")));
    assert_eq!(spring("2.5 - 30"), out(Some("write 2.5..30")));
    assert_eq!(spring("1/8in-1/2in"), out(Some("write 1/8in..1/2in")));
    assert_eq!(spring("4..501"), out(None));
}

/// What is said of a bought part must be able to be so. A cylinder ⌀7.4 by 73 has π/4·7.4²·73 = 3139.6 mm³:
/// it holds no more, nor weighs more than osmium would, 22.6 g/cm³ (from memory), 23 here: 72.2 g; and
/// it balances somewhere between its ends. What weighs nothing was not weighed.
#[test]
fn a_bought_part_weighs_and_holds_what_it_can() {
    let said = |lines: &str, dia: &str, unit: &str| {
        let text = format!(
            "{unit}bought converter from mouth to end {{\n{lines}\n outside dia {dia}\n}}\n"
        );
        let found = tried(&text);
        let own = found.iter().filter(|it| it.rule != "unused-item");
        own.map(|it| it.rule.to_string()).collect::<Vec<_>>()
    };
    let mm = |lines: &str| said(&format!(" length 73\n {lines}"), "7.4", "");
    for sound in [
        "mass 2.8",
        "mass 0.01",
        "mass 72.2",
        "mass 2.8 at 73",
        "mass 2.8 at 0",
        "mass 2.8\n holds 3.13",
        "mass 500\n arm 38",
    ] {
        assert_eq!(mm(sound), [""; 0], "{sound}");
    }
    for wrong in [
        "mass 0",
        "mass -0.1",
        "mass 72.3",
        "mass 2.8 at 73.1",
        "mass 2.8 at -1",
        "mass 2.8\n holds 3.15",
        "mass 2.8\n holds 8",
    ] {
        assert_eq!(mm(wrong), ["out-of-range"], "{wrong}");
    }
    // 0.3 in by 2.9: 3359 mm³, 77.26 g.
    let inches = |lines: &str| {
        let unit = "dimensions in inches\n";
        said(&format!(" length 2.9\n {lines}"), "0.3", unit)
    };
    assert_eq!(inches("mass 77.2 at 2.9"), [""; 0]);
    assert_eq!(inches("mass 77.3"), ["out-of-range"]);
    assert_eq!(inches("mass 2.8 at 2.91"), ["out-of-range"]);
    // Where its bore is no matter: what it holds is held against its outline.
    assert_eq!(
        mm("mass 2.8\n holds 3.1\n from mouth {\n bore 4 to 6\n }"),
        [""; 0]
    );
}
