//! Slips of the pen: every shipped design with one mistake at a time. Whatever cure is offered must
//! cure and bring nothing as bad; cures applied in turn must come to an end.

#![allow(clippy::unwrap_used, reason = "tests")]

mod slip;

use quillet_check::{Trial, check};
use quillet_fixture::EXAMPLES;
use quillet_model::{Texts, load, resolve};
use quillet_syntax::{Finding, Fix, Severity, edited};
use slip::Slip;
use std::collections::BTreeMap;
use std::path::Path;

/// How many slips are tried, of each pen as many; `.ci/weekly` sets QUILLET_SLIPS and tries them all.
fn tried() -> usize {
    let asked = std::env::var("QUILLET_SLIPS").ok();
    asked.map_or(112, |it| it.parse().unwrap())
}

/// So many findings of one slip bury it.
const CROWD: usize = 4;

/// What is found, each with the cures that are offered.
fn found(name: &str, text: &str) -> Vec<Finding> {
    let texts = Texts::from_iter(EXAMPLES).with(name, text);
    let root = Path::new(name);
    let design = resolve(&load(root, &texts).unwrap());
    let findings = check(&design);
    let trial = Trial {
        root,
        source: &texts,
        prepare: &|_| {},
        design: &design,
        findings: &findings,
        called_off: &|| false,
    };
    trial.all()
}

/// The text with a cure; none where it is for another file.
fn cured(text: &str, fix: &Fix, file: quillet_syntax::FileId) -> Option<String> {
    let own = fix.edits.iter().all(|edit| edit.span.file == file);
    own.then(|| edited(text, &fix.edits).unwrap())
}

fn line(text: &str, offset: u32) -> usize {
    text[..offset as usize].matches('\n').count()
}

fn counts(findings: &[Finding]) -> BTreeMap<&str, usize> {
    let mut counts = BTreeMap::new();
    for finding in findings {
        *counts.entry(finding.rule.code()).or_default() += 1;
    }
    counts
}

/// What a cure leaves wrong, judged by lines and counts alone: the finding still there, or more of
/// anything as grave.
fn fault(
    text: &str,
    before: &[Finding],
    finding: &Finding,
    after: (&str, &[Finding]),
) -> Option<String> {
    let at = line(text, finding.span.start);
    let near = |text: &str, findings: &[Finding]| {
        let near = findings.iter().filter(|it| {
            it.rule == finding.rule
                && it.span.file == finding.span.file
                && line(text, it.span.start.min(text.len() as u32)).abs_diff(at) <= 1
        });
        near.count()
    };
    if near(after.0, after.1) >= near(text, before) {
        return Some("does not cure".to_owned());
    }
    let (had, has) = (counts(before), counts(after.1));
    let come = after.1.iter().find(|it| {
        let code = it.rule.code();
        it.severity >= finding.severity && has[code] > had.get(code).copied().unwrap_or(0)
    });
    come.map(|it| format!("brings {}", it.rule))
}

/// The designs that the slips are made in.
fn slips() -> Vec<(&'static str, Slip)> {
    let pens: Vec<_> = EXAMPLES
        .iter()
        // Knot is flawed to begin with.
        .filter(|(name, text)| text.contains("\npen ") && *name != "knot.quillet")
        .collect();
    let each = tried().div_ceil(pens.len());
    pens.into_iter()
        .flat_map(|(name, text)| {
            let all = slip::all(text);
            let step = (all.len() / each).max(1);
            all.into_iter()
                .step_by(step)
                .take(each)
                .map(|slip| (*name, slip))
        })
        .collect()
}

#[test]
fn every_cure_that_is_offered_cures_and_brings_nothing_as_bad() {
    let slips = slips();
    assert!(slips.len() >= 100, "{}", slips.len());
    let (mut findings, mut with_cure, mut faults) = (0, 0, Vec::new());
    let mut crowds = Vec::new();
    for (name, slip) in &slips {
        let before = found(name, &slip.text);
        findings += before.len();
        if before.len() >= CROWD {
            let told: Vec<_> = before.iter().map(|it| it.rule.code()).collect();
            crowds.push(format!("{name}: {}: {}", slip.what, told.join(", ")));
        }
        for finding in &before {
            with_cure += usize::from(!finding.fixes.is_empty());
            for fix in &finding.fixes {
                let Some(text) = cured(&slip.text, fix, finding.span.file) else {
                    continue;
                };
                let design_texts = Texts::from_iter(EXAMPLES).with(name, &text);
                let design = resolve(&load(Path::new(name), &design_texts).unwrap());
                let after = check(&design);
                if let Some(fault) = fault(&slip.text, &before, finding, (&text, &after)) {
                    faults.push(format!("{name}: {}: {}: {fault}", slip.what, fix.title));
                }
            }
        }
    }
    println!(
        "{} slips, {findings} findings, {with_cure} with a cure, {} told of {CROWD} times or more\n{}",
        slips.len(),
        crowds.len(),
        crowds.join("\n"),
    );
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
    assert!(2 * with_cure >= findings, "{with_cure} of {findings}");
    // One in sixty: of all that could be made by hand, 43 of 3,709 were when they were counted.
    assert!(crowds.len() <= (slips.len() / 60).max(1), "{crowds:#?}");
}

#[test]
fn cures_applied_in_turn_come_to_an_end() {
    let mut circles = Vec::new();
    for (name, slip) in slips().iter().step_by(3) {
        let (mut text, mut seen) = (slip.text.clone(), Vec::new());
        loop {
            if seen.contains(&text) || seen.len() > 20 {
                circles.push(format!("{name}: {}", slip.what));
                break;
            }
            seen.push(text.clone());
            let found = found(name, &text);
            let next = found
                .iter()
                .find_map(|it| cured(&text, it.fixes.first()?, it.span.file));
            let Some(next) = next else { break };
            text = next;
        }
    }
    assert!(circles.is_empty(), "\n{}", circles.join("\n"));
}

/// Knot, flawed on purpose, has no error left when the first cure of each finding is made in turn.
#[test]
fn knot_is_cured_of_its_errors() {
    let (name, text) = EXAMPLES
        .iter()
        .find(|(name, _)| *name == "knot.quillet")
        .unwrap();
    let mut text = (*text).to_owned();
    for _ in 0..60 {
        let found = found(name, &text);
        let next = found
            .iter()
            .find_map(|it| cured(&text, it.fixes.first()?, it.span.file));
        match next {
            Some(next) => text = next,
            None => {
                let errors: Vec<_> = found
                    .iter()
                    .filter(|it| it.severity == Severity::Error)
                    .map(|it| format!("{}: {}", it.rule, it.message))
                    .collect();
                assert!(errors.is_empty(), "\n{}\n{text}", errors.join("\n"));
                return;
            }
        }
    }
    panic!("it never settles:\n{text}");
}

/// One finding, and its first cure leaves the pen as sound as it was.
#[test]
fn a_slip_of_the_hand_is_undone_by_its_first_cure() {
    let name = "heron.quillet";
    let sound = EXAMPLES.iter().find(|(path, _)| *path == name).unwrap().1;
    for (right, wrong) in [
        ("M10x0.75", "M10X0.75"),
        ("M10x0.75", "M10×0.75"),
        ("M10x0.75", "M10 x 0.75"),
        ("M10x0.75", "M10x0,75"),
        ("length 82", "length 8.2cm"),
        ("length 82", "length = 82"),
        ("length 30", "length 3O"),
        ("blank of body rod 18", "blank of body rod18"),
        ("let grip = 11.4", "let grip 11.4"),
        ("<= 145", "=< 145"),
        ("relief 9.0 ", "relief ø9.0 "),
        ("chamfer 0.5", "chamfer .5"),
        (
            "-- the land that enters the cap's",
            "— the land that enters the cap's",
        ),
    ] {
        assert!(sound.contains(right), "{right}");
        let text = sound.replacen(right, wrong, 1);
        let told = found(name, &text);
        let [finding] = told.as_slice() else {
            panic!("{wrong}: {told:#?}");
        };
        let fix = finding.fixes.first();
        let fix = fix.unwrap_or_else(|| panic!("{wrong}: no cure: {}", finding.message));
        let after = cured(&text, fix, finding.span.file).unwrap();
        assert_eq!(found(name, &after), [], "{wrong}: {}", fix.title);
    }
}
