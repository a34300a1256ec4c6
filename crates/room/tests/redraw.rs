//! A design drawn again with a number changed is the design of the text in which it is written so.
#![allow(clippy::expect_used, reason = "a test")]

use quillet_check::{KnownParts, examine, examine_again, examine_knowing};
use quillet_fixture::{EXAMPLES, MORE_EXAMPLES, Random};
use quillet_model::{AtRest, Design, Loaded, Redraw, Texts, load, resolve};
use quillet_room::{Number, Numbers};
use quillet_syntax::{Edit, FileId, Finding, Span, ast};
use std::path::Path;

/// So many changes of each example; `QUILLET_CHANGES` says otherwise.
const CHANGES: usize = 10;

fn changes() -> usize {
    let said = std::env::var("QUILLET_CHANGES").ok();
    said.and_then(|it| it.parse().ok()).unwrap_or(CHANGES)
}

/// Where a place of a text lay before one number of it was written otherwise.
fn before(span: Span, edit: &Edit) -> Span {
    let longer = edit.text.len() as i64 - edit.span.range().len() as i64;
    let back = |at: u32| match span.file == edit.span.file
        && at >= edit.span.end.min(edit.span.start + edit.text.len() as u32)
    {
        true => usize::try_from(i64::from(at) - longer).unwrap_or(0),
        false => at as usize,
    };
    Span::new(span.file, back(span.start), back(span.end))
}

/// All that a finding says and where, in the places of the text before the edit.
fn told(finding: &Finding, at: &dyn Fn(Span) -> Span) -> String {
    let labels = finding.labels.iter().map(|it| at(it.span));
    format!(
        "{:?} {:?} {} at {:?} with {:?} of {:?}",
        finding.severity,
        finding.rule,
        finding.message,
        at(finding.span),
        labels.collect::<Vec<_>>(),
        finding.pens,
    )
}

fn all_told(findings: &[Finding], at: &dyn Fn(Span) -> Span) -> Vec<String> {
    let mut all: Vec<String> = findings.iter().map(|it| told(it, at)).collect();
    all.sort();
    all
}

/// Where the joints of every pen come to rest, wherever that is written.
fn resting(design: &Design) -> Vec<AtRest> {
    let all = design.pens.iter().flat_map(|it| it.assembly.joints.iter());
    let unplaced = all.cloned().map(|it| AtRest {
        clearances: it
            .clearances
            .iter()
            .cloned()
            .map(|mut clearance| {
                let chain = clearance.chain.iter_mut();
                chain.for_each(|link| link.span = Span::default());
                clearance
            })
            .collect(),
        ..it
    });
    unplaced.collect()
}

/// Holds what is drawn again against what is read again, change by change; how often something was found.
fn hold(name: &str, loaded: &Loaded, design: &Design, dice: &mut Random) -> usize {
    let redraw = Redraw::of(loaded);
    let known = examine_knowing(redraw.with(&[]).expect("nothing is changed"));
    let numbers = Numbers::of(design);
    let mut found = 0;
    for _ in 0..changes() {
        let nth = (dice.share() * numbers.all().len() as f64) as usize;
        let number: &Number = &numbers.all()[nth];
        // Mostly a little, at times a lot.
        let reach = if dice.share() < 0.7 { 0.1 } else { 1.0 };
        let thousandths = (number.value * 1000.0 * (1.0 + reach * (dice.share() - 0.5))).round();
        let edit = number.written(thousandths / 1000.0);
        let exactly = ast::Number::new(thousandths as i128, 1000);
        let redrawn = redraw
            .with(&[(number.span, exactly)])
            .expect("a number stands there");
        let again = examine_again(&redrawn, &known, None);
        let edited = loaded
            .edited(std::slice::from_ref(&edit))
            .expect("one edit");
        let anew = examine(&resolve(&edited));
        hold_one_pen((&redraw, &known), (number.span, exactly), &redrawn);
        assert_eq!(
            resting(&redrawn),
            resting(&resolve(&edited)),
            "{name}: {}",
            number.name
        );
        let as_drawn = all_told(&again.findings, &|it| it);
        let as_read = all_told(&anew.findings, &|it| before(it, &edit));
        assert_eq!(
            as_drawn, as_read,
            "{name}: {} to {}",
            number.name, edit.text
        );
        let wants = |of: &quillet_check::CheckReport| -> Vec<_> {
            of.wants
                .iter()
                .map(|it| (it.asked.clone(), it.measured.value))
                .collect()
        };
        assert_eq!(wants(&again), wants(&anew), "{name}: {}", number.name);
        found += anew.findings.len();
    }
    found
}

/// What is found of a pen that alone is drawn again is what is found of it among all.
fn hold_one_pen(
    (redraw, known): (&Redraw<'_>, &KnownParts),
    set: (Span, ast::Number),
    all: &Design,
) {
    for pen in &all.pens {
        let name = &*pen.name.text;
        let alone = redraw
            .of_pen(&[set], Some(name))
            .expect("a number stands there");
        let told = |design: &Design| {
            let found = examine_again(design, known, Some(name)).findings;
            let own = found
                .into_iter()
                .filter(|it| it.pens.iter().any(|it| **it == *name));
            all_told(&own.collect::<Vec<_>>(), &|it| it)
        };
        assert_eq!(told(&alone), told(all), "{name}");
    }
}

#[test]
fn what_is_drawn_again_is_what_is_read_again() {
    let mut found = 0;
    for (name, _) in EXAMPLES.iter().chain(&MORE_EXAMPLES) {
        let texts: Texts = EXAMPLES.iter().copied().collect();
        let texts = MORE_EXAMPLES.iter().fold(texts, |texts, (name, text)| {
            texts.with(*name, &text.replace("\"../", "\""))
        });
        let loaded = load(Path::new(name), &texts).expect("it is there");
        let design = resolve(&loaded);
        if Numbers::of(&design).all().is_empty() {
            continue;
        }
        let mut dice = Random(16);
        found += hold(name, &loaded, &design, &mut dice);
    }
    assert!(
        found > 50,
        "too little was found to tell the two apart: {found}"
    );
}

/// The pens that ship as made, each in one text with its drawing and in its own, whose numbers move.
#[test]
fn what_was_made_is_made_again_of_what_is_drawn_again() {
    for (name, made) in [
        (
            "dunlin",
            include_str!("../../../examples/made/dunlin-1.quillet"),
        ),
        (
            "curlew",
            include_str!("../../../examples/made/curlew-1.quillet"),
        ),
        (
            "snipe",
            include_str!("../../../examples/made/snipe-1.quillet"),
        ),
    ] {
        let drawn = |it: &&(&str, &str)| it.0 == format!("{name}.quillet");
        let drawn = EXAMPLES.iter().chain(&MORE_EXAMPLES).find(drawn);
        let drawn = drawn.expect("it is drawn").1.replace("\"../", "\"");
        let own = made.lines().filter(|it| !it.starts_with("use "));
        let in_one = format!("{drawn}\n{}\n", own.collect::<Vec<_>>().join("\n"));
        let by_itself = made.replace("\"../more/", "\"").replace("\"../", "\"");
        for text in [in_one, by_itself] {
            let texts = EXAMPLES.iter().copied().collect::<Texts>();
            let texts = texts.with(format!("{name}.quillet"), &drawn);
            let texts = texts.with("made.quillet", &text);
            let loaded = load(Path::new("made.quillet"), &texts).expect("it is there");
            let design = resolve(&loaded);
            assert!(design.pens.iter().any(|it| it.made.is_some()), "{name}");
            // Some of what moves is too far then from what was measured.
            assert!(hold(name, &loaded, &design, &mut Random(16)) > 0, "{name}");
        }
    }
}

#[test]
fn what_no_number_reaches_is_the_same_thing() {
    let texts: Texts = EXAMPLES.iter().copied().collect();
    let loaded = load(Path::new("heron.quillet"), &texts).expect("Heron is there");
    let redraw = Redraw::of(&loaded);
    let drawn = redraw.drawn();
    let numbers = Numbers::of(drawn);
    let number = numbers
        .find(drawn, "cap.mouth.drill.to")
        .expect("Heron has it");
    let redrawn = redraw
        .with(&[(number.span, ast::Number::from(53))])
        .expect("it stands there");
    let same = |name: &str| {
        let (of, again) = (drawn.part(name), redrawn.part(name));
        std::sync::Arc::ptr_eq(of.expect("a part"), again.expect("the same"))
    };
    assert!(same("barrel") && same("section") && !same("cap"));
    // Of both pens all joints but the cap's are taken over.
    for (pen, before) in redrawn.pens.iter().zip(&drawn.pens) {
        for (id, joint) in pen.joints.with_ids() {
            let [again, of] = [pen, before].map(|it| &it.assembly.joints[id].clearances);
            let kept = std::sync::Arc::ptr_eq(again, of);
            assert_eq!(kept, joint.verb != ast::Verb::Close, "{}", pen.name.text);
        }
    }
    let nowhere = Span::new(FileId(0), 0, 1);
    assert!(redraw.with(&[(nowhere, ast::Number::from(1))]).is_none());
}
