//! Pens as a hand makes them, against closed forms and against the worst case.
#![allow(clippy::expect_used, reason = "a test")]

use quillet_fixture::EXAMPLES;
use quillet_model::{
    Clearance, ClearanceKind, Design, Distribution, HandSize, Pen, Size, Texts, load, resolve,
};
use quillet_room::spread::{Case, Hands, Spread, Way};
use quillet_syntax::Severity;
use statrs::distribution::{ContinuousCDF, Normal};
use std::collections::BTreeMap;
use std::path::Path;

/// So many pens are made; `QUILLET_CASES` says otherwise.
const CASES: u32 = 200;

fn cases() -> u32 {
    let said = std::env::var("QUILLET_CASES").ok();
    said.and_then(|it| it.parse().ok()).unwrap_or(CASES)
}

/// An example at a bench that says nothing of how closely sizes are kept, something else written in it.
fn by_the_standard(name: &str, from: &str, to: &str) -> Design {
    let texts: Texts = EXAMPLES.iter().copied().collect();
    let texts = EXAMPLES.iter().fold(texts, |texts, (file, text)| {
        let is_kept = |line: &&str| {
            let line = line.trim_start();
            line.starts_with("keeps ") || line.starts_with("caliper ")
        };
        let text: String = text
            .split_inclusive('\n')
            .filter(|it| !is_kept(it))
            .collect();
        texts.with(*file, &text.replacen(from, to, usize::from(*file == name)))
    });
    resolve(&load(Path::new(name), &texts).expect("the example is there"))
}

fn hands<'d>(design: &'d Design, pen: &'d Pen, count: u32) -> Hands<'d> {
    Hands::of(design, pen, (count, 1), Severity::Warning).expect("it is sound as drawn")
}

fn all(hands: &Hands<'_>) -> Vec<Case> {
    let mut workplace = hands.workplace();
    hands
        .cases()
        .map(|nth| hands.case(&mut workplace, nth))
        .collect()
}

/// The gap of Heron's nib to the corner of its cap's drill.
fn to_the_corner(pen: &Pen) -> &Clearance {
    let nib = pen.assembly.nib.expect("Heron writes");
    let gaps = pen
        .assembly
        .joints
        .iter()
        .flat_map(|it| it.clearances.iter());
    let mut gaps = gaps.filter(|it| it.kind == ClearanceKind::Corner && it.male.part == nib);
    gaps.next().expect("the nib stands in the cap")
}

/// Heron's cap drilled to 51.5: 3.9635 − 2.5 = 1.4635 mm from the nib to the cone, of which 0.5 has to be left.
/// By ISO 2768-1 the depth is kept to 0.3, three lengths and a shoulder to 0.1 each and the nib to 1.0, a
/// standard deviation half of each: √(0.15² + 3·0.05² + 0.5²) = 0.5292. So Φ(−0.9635 / 0.5292) = 3.43 % would
/// fail; but the drill cuts up to 0.15 over, evenly, and its cone lies deeper by u = 0 to 0.075 / tan 59°. So
/// it is the mean of Φ(−(0.9635 + u) / 0.5292), 3.29 %.
#[test]
fn a_linear_chain_fails_as_often_as_the_normal_distribution_says() {
    // 50.6 leaves 0.0635 over what has to be left, and 45 % fail: the sharpest that few pens can tell.
    for (depth, over) in [(51.5, 0.9635), (50.6, 0.0635)] {
        let to = format!("drill 12.2              to {depth}");
        let design = by_the_standard("heron.quillet", "drill 12.2              to 54", &to);
        let pen = design.pen("heron").expect("it is there");
        let hands = hands(&design, pen, cases());
        let cases = all(&hands);
        let of_rule = |case: &&Case| {
            let mut found = case.found.keys();
            found.any(|it| it.rule.code() == "nib-strikes-cap")
        };
        let failing = cases.iter().filter(of_rule).count() as f64;
        let sd = f64::sqrt(0.15_f64.powi(2) + 3.0 * 0.05_f64.powi(2) + 0.25);
        let deeper = 0.075 / 59_f64.to_radians().tan();
        let at = |step: u32| over + deeper * (f64::from(step) + 0.5) / 100.0;
        let wanted = (0..100).map(|step| Normal::standard().cdf(-at(step) / sd));
        let wanted = wanted.sum::<f64>() / 100.0;
        let count = f64::from(self::cases());
        let within = 4.0 * (wanted * (1.0 - wanted) / count).sqrt();
        let share = failing / count;
        assert!(
            (share - wanted).abs() < within,
            "{share}, {wanted} at {depth}"
        );
    }
}

/// Each pen's gap is what is drawn, with what its sizes are off by the factors of the chain, and its scatter
/// is Σσ².
#[test]
fn a_gap_is_the_sum_of_its_sizes() {
    let design = by_the_standard("heron.quillet", "to 54", "to 53");
    let pen = design.pen("heron").expect("it is there");
    let hands = hands(&design, pen, cases());
    let drawn = to_the_corner(pen);
    let factors: BTreeMap<Size, f64> = drawn.chain.iter().map(|it| (it.size, it.factor)).collect();
    let mut gaps = Vec::new();
    for nth in hands.cases() {
        let off_mm = hands.off_mm(nth);
        // A bore that came out by twice of what is kept too narrow may not take in what rests in it.
        let mut sizes = hands.sizes().iter().zip(&off_mm);
        if sizes.any(|(it, off)| off.abs() > 4.0 * sd_mm(it)) {
            continue;
        }
        let made = hands.pen(&off_mm);
        let found = to_the_corner(&made);
        let sizes = hands.sizes().iter().zip(&off_mm);
        let sum: f64 = sizes
            .filter_map(|(it, off)| Some(factors.get(&it.link.size)? * off))
            .sum();
        let wanted = drawn.nominal_mm + sum;
        let apart = (found.nominal_mm - wanted).abs();
        assert!(apart < 1e-5, "{}, {wanted} in {nth}", found.nominal_mm);
        gaps.push(found.nominal_mm);
    }
    let n = gaps.len() as f64;
    assert!(n > 0.98 * f64::from(cases()), "{n}");
    let mean = gaps.iter().sum::<f64>() / n;
    let variance = gaps.iter().map(|it| (it - mean).powi(2)).sum::<f64>() / (n - 1.0);
    let wanted: f64 = hands
        .sizes()
        .iter()
        .filter_map(|it| Some((factors.get(&it.link.size)?, it)))
        .map(|(factor, it)| (factor * sd_mm(it)).powi(2))
        .sum();
    let ratio = (variance / wanted).sqrt();
    // 3 % at 2,000; a standard deviation scatters by 1/√(2n).
    let within = 3.0 / (2.0 * n).sqrt();
    assert!((ratio - 1.0).abs() < within, "{ratio}");
}

fn sd_mm(size: &HandSize) -> f64 {
    match size.distribution {
        Distribution::Normal { sd_mm } => sd_mm,
        Distribution::Uniform { from_mm, to_mm } => (to_mm - from_mm) / 12_f64.sqrt(),
    }
}

/// Of two sizes that come out anywhere within their limits, both shares together are over 1.5 in ½·0.5², an
/// eighth of all pens; and each slice of a size's distribution is met once.
#[test]
fn sizes_are_drawn_each_by_itself_and_evenly() {
    let design = by_the_standard("heron.quillet", "", "");
    let pen = design.pen("heron").expect("it is there");
    let hands = hands(&design, pen, 2000);
    let off: Vec<Vec<f64>> = hands.cases().map(|nth| hands.off_mm(nth)).collect();
    let mut uniform: Vec<Vec<f64>> = Vec::new();
    for (at, size) in hands.sizes().iter().enumerate() {
        let share = |off: f64| match size.distribution {
            Distribution::Normal { sd_mm } => Normal::standard().cdf(off / sd_mm),
            Distribution::Uniform { from_mm, to_mm } => (off - from_mm) / (to_mm - from_mm),
        };
        let shares: Vec<f64> = off.iter().map(|it| share(it[at])).collect();
        let mut sorted = shares.clone();
        sorted.sort_by(f64::total_cmp);
        for (slice, share) in sorted.iter().enumerate() {
            // Lengths are whole nanometres, of which the narrowest size has but a few thousand.
            let slice = slice as f64 / 2000.0;
            let apart = (share - slice - 0.00025).abs();
            assert!(apart < 0.00025 + 1e-3, "{}: {share} in {slice}", size.place);
        }
        uniform.push(shares);
    }
    let mut pairs = 0;
    for pair in uniform.chunks_exact(2) {
        let both = pair[0].iter().zip(&pair[1]);
        let over = both.filter(|(a, b)| *a + *b > 1.5).count() as f64 / 2000.0;
        let within = 4.0 * f64::sqrt(0.125 * 0.875 / 2000.0);
        assert!((over - 0.125).abs() < within, "{over}");
        pairs += 1;
    }
    assert!(pairs > 20, "{pairs}");
}

/// One cut more draws what is new, and nothing else otherwise; another seed draws everything otherwise.
#[test]
fn a_face_more_changes_no_other_draw() {
    let before = by_the_standard("heron.quillet", "", "");
    let after = by_the_standard(
        "heron.quillet",
        "chamfer 0.5",
        "chamfer 0.5\n    drill 8.4 to 2.2",
    );
    let by_place = |design: &Design, seed: u64| -> BTreeMap<String, Vec<f64>> {
        let pen = design.pen("heron").expect("it is there");
        let hands = Hands::of(design, pen, (50, seed), Severity::Error).expect("it is sound");
        let sizes = hands.sizes().iter().enumerate();
        let off = |at: usize| hands.cases().map(|nth| hands.off_mm(nth)[at]).collect();
        sizes.map(|(at, it)| (it.place.clone(), off(at))).collect()
    };
    let (old, new) = (by_place(&before, 1), by_place(&after, 1));
    assert!(new.len() > old.len());
    for (place, off) in &old {
        assert_eq!(new.get(place), Some(off), "{place}");
    }
    let other = by_place(&before, 2);
    let same = old
        .iter()
        .filter(|(place, off)| other.get(*place) == Some(off));
    assert_eq!(same.count(), 0);
}

/// No pen of which each size is within what is kept comes out worse than the worst case that is stated.
#[test]
fn the_worst_case_bounds_every_pen_made_within_what_is_kept() {
    let mut compared = 0;
    for name in ["heron.quillet", "avocet.quillet", "dunlin.quillet"] {
        let design = by_the_standard(name, "", "");
        let pen = design.pens.first().expect("there is one");
        let count = cases() / 4;
        let hands = Hands::of(&design, pen, (count, 3), Severity::Error).expect("it is sound");
        for nth in hands.cases() {
            let off = hands.off_mm(nth).into_iter().zip(hands.sizes());
            let kept = off.map(|(off, it)| off.clamp(it.link.range_mm.0, it.link.range_mm.1));
            let made = hands.pen(&kept.collect::<Vec<_>>());
            let joints = pen.assembly.joints.iter().zip(&made.assembly.joints);
            for (drawn, other) in joints {
                for found in other.clearances.iter() {
                    let parts = |it: &Clearance| (it.kind, it.male.part, it.female.part);
                    let stated = drawn
                        .clearances
                        .iter()
                        .filter(|it| parts(it) == parts(found));
                    let least = stated.map(|it| it.least_mm).min_by(f64::total_cmp);
                    let Some(least) = least else { continue };
                    compared += 1;
                    // A sloping outside turns as its ends move: not quite a sum.
                    assert!(found.nominal_mm > least - 2e-4, "{name} {nth}: {found:#?}");
                    assert_eq!(found.nominal_mm, found.least_mm, "made is made");
                }
            }
        }
    }
    assert!(compared > 1000, "{compared}");
}

/// As drawn nothing is new; the size that most of it comes from is the one that scatters most.
#[test]
fn what_fails_most_is_told_with_where_it_comes_from() {
    let to = "drill 12.2              to 50.6";
    let design = by_the_standard("heron.quillet", "drill 12.2              to 54", to);
    let pen = design.pen("heron").expect("it is there");
    let hands = hands(&design, pen, cases());
    let spread = Spread::of(&hands, &all(&hands));
    let first = spread.failures.first().expect("nearly half fail");
    assert_eq!(first.at.rule.code(), "nib-strikes-cap");
    let cause = first.cause.expect("the nib stands out");
    assert!(matches!(
        hands.sizes()[cause.size].link.size,
        Size::Nib { .. }
    ));
    assert!(cause.way == Way::Over && cause.share > 0.3, "{cause:?}");
    let failing: u32 = first.share.count;
    assert!(f64::from(first.on_that_side) > 0.75 * f64::from(failing));
    assert_eq!(spread.passing.of, cases());
    let length = spread
        .measures
        .iter()
        .find(|it| it.asked == "length(capped)");
    assert_eq!(
        length.expect("Heron wants it").bins.iter().sum::<u32>(),
        cases()
    );
}
