//! The shipped pens: Heron, Avocet, Dunlin, Curlew, Godwit and Whimbrel are clean, Knot shows its
//! flaws.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_check::{Role, check, examine};
use quillet_fixture::{EXAMPLES, MORE_EXAMPLES};
use quillet_model::{Design, Texts, load, resolve};
use quillet_syntax::{Encoding, Finding, LineIndex};
use std::collections::BTreeSet;
use std::path::Path;

fn design(name: &str) -> Design {
    let texts = Texts::from_iter(EXAMPLES);
    resolve(&load(Path::new(name), &texts).unwrap())
}

/// One line a finding: place, severity, rule, message; hints and fixes below.
fn shown(design: &Design, findings: &[Finding]) -> String {
    let place = |span: quillet_syntax::Span| {
        let file = design.file(span.file).unwrap();
        let at = LineIndex::new(file.text.clone()).position(span.start as usize, Encoding::Utf32);
        format!("{}:{}:{}", file.path.display(), at.line + 1, at.column + 1)
    };
    let mut out = String::new();
    for it in findings {
        out += &format!(
            "{} {} [{}]\n  {}\n",
            place(it.span),
            it.severity.word(),
            it.rule,
            it.message
        );
        for label in &it.labels {
            out += &format!("  {}: {}\n", place(label.span), label.text);
        }
        if let Some(hint) = &it.hint {
            out += &format!("  hint: {hint}\n");
        }
        for fix in &it.fixes {
            out += &format!("  fix: {}\n", fix.title);
        }
    }
    out
}

#[test]
fn every_pen_a_maker_would_make_is_clean() {
    for name in ["heron", "avocet", "dunlin", "curlew", "godwit", "whimbrel"] {
        let design = design(&format!("{name}.quillet"));
        let found = check(&design);
        assert!(found.is_empty(), "\n{}", shown(&design, &found));
    }
}

/// One of `examples/more`, read as if it stood a folder above.
fn of_another_kind(name: &str, text: &str) -> Design {
    let text = text.replace("\"../", "\"");
    let texts = Texts::from_iter(EXAMPLES).with(name, &text);
    resolve(&load(Path::new(name), &texts).unwrap())
}

#[test]
fn every_pen_of_other_kinds_is_clean() {
    for (name, text) in MORE_EXAMPLES {
        let design = of_another_kind(name, text);
        let found = check(&design);
        assert!(found.is_empty(), "\n{}", shown(&design, &found));
    }
}

/// A taper that is a tenth wider lets the nib down by its length over what it narrows by, ten times that.
#[test]
fn a_nib_that_may_reach_the_floor_of_its_stand_is_told_of() {
    let mut all = MORE_EXAMPLES.iter();
    let (name, text) = all.find(|it| it.0 == "stilt.quillet").unwrap();
    let deep = "drill 10.8              to 38";
    assert!(text.contains(deep));
    let shallow = text.replace(deep, "drill 10.8              to 35");
    let design = of_another_kind(name, &shallow);
    let found = check(&design);
    let rules: Vec<_> = found.iter().map(|it| it.rule.code()).collect();
    assert_eq!(rules, ["too-close-to-call"], "{}", shown(&design, &found));
}

#[test]
fn knot_shows_at_least_eight_rules() {
    let design = design("knot.quillet");
    let found = examine(&design).findings;
    let rules: BTreeSet<_> = found.iter().map(|it| it.rule).collect();
    assert!(rules.len() >= 8, "{rules:?}");
    insta::assert_snapshot!(shown(&design, &found));
}

/// The walls of the worked pen, checked by hand against its own text: half the differences of
/// the diameters it writes, thread roots by ISO 68-1 (d3 = d − 17/24·√3·P).
#[test]
fn heron_has_the_walls_its_sizes_give() {
    let design = design("heron.quillet");
    let root = |major: f64, pitch: f64| major - 17.0 / 24.0 * 3f64.sqrt() * pitch;
    let least = |part: &str, outer: &str, inner: &str| {
        let part = design.part(part).unwrap();
        let found = quillet_check::walls(part).into_iter().find(|wall| {
            wall.outer_words(part).starts_with(outer) && wall.inner_words(part).starts_with(inner)
        });
        found
            .unwrap_or_else(|| panic!("{outer} over {inner}"))
            .least
            .to_mm()
    };
    let near =
        |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-6, "{found}, {wanted}");
    near(
        least("cap", "the outside (⌀15.20)", "the ⌀13.10 bore"),
        1.05,
    );
    near(
        least("barrel", "the closing thread's root", "the joint thread"),
        (root(13.0, 0.8) - 10.0) / 2.0,
    );
    near(least("barrel", "the relief", "the joint thread"), 1.0);
    near(
        least("section", "the joint thread's root", "the ⌀8.00 drill"),
        (root(10.0, 0.75) - 8.0) / 2.0,
    );
    near(least("section", "the relief", "the ⌀8.00 drill"), 0.5);
    // The crown, by brute force: the drill's cone, apex 6.1/tan 59° beyond 54, and the quarter
    // ellipse of the dome from 58/14.4 to the pole at 64.
    let cap = quillet_check::walls(design.part("cap").unwrap());
    let ends = cap.iter().filter(|wall| wall.role == Role::End);
    let crown = ends
        .map(|wall| wall.least.to_mm())
        .reduce(f64::min)
        .unwrap();
    let share = |nth: u32| f64::from(nth) / 1000.0;
    let cone = |t: f64| (54.0 + t * 6.1 / 59f64.to_radians().tan(), 6.1 * (1.0 - t));
    let dome = |t: f64| {
        let (sin, cos) = (t * std::f64::consts::FRAC_PI_2).sin_cos();
        (58.0 + 6.0 * sin, 7.2 * cos)
    };
    let apart = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).hypot(a.1 - b.1);
    let pairs = (0..=1000).flat_map(|a| (0..=1000).map(move |b| (share(a), share(b))));
    let sampled = pairs
        .map(|(a, b)| apart(cone(a), dome(b)))
        .fold(f64::MAX, f64::min);
    assert!((crown - sampled).abs() < 1e-3, "{crown}, {sampled}");
}

/// Would it write, close and be comfortable? By arithmetic on its own sizes: the cap's mouth on
/// the shoulder at 8 gives 64 + 82 − 8; the section's 22 and the nib's 22.5 before the barrel's 82
/// give 126.5; the thread's leading edge 6.5 deep less its mate's mouth at 2.5 gives a travel of 4.
#[test]
fn heron_closes_in_less_than_two_turns_and_balances_near_the_middle() {
    let design = design("heron.quillet");
    for pen in &design.pens {
        let assembly = &pen.assembly;
        let (capped, uncapped) = (assembly.capped.as_ref(), assembly.uncapped.as_ref());
        let (capped, uncapped) = (capped.unwrap(), uncapped.unwrap());
        assert!((capped.length_mm.unwrap() - 138.0).abs() < 1e-9);
        assert!((uncapped.length_mm.unwrap() - 126.5).abs() < 1e-9);
        let closed = assembly.joints.last().unwrap();
        assert!((closed.engagements[0].turns() - 4.0 / 2.4).abs() < 1e-9);
        assert!(closed.seat_gap_mm.unwrap().abs() < 1e-9);
        let balance = uncapped.balance_share().unwrap();
        assert!((0.5..0.56).contains(&balance), "{balance}");
        assert!((12.0..20.0).contains(&uncapped.filled.unwrap().mass_g));
    }
}
