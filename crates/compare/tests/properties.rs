//! What holds of every comparison.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_compare::{
    Asked, Comparison, Deny, FindingState, PenState, SheetLine, State, States, unknown,
};
use quillet_fixture::EXAMPLES;
use quillet_model::{Design, Pen, SourceFile, Texts};
use std::path::PathBuf;

/// A stand-in for the sheet: every operation's work, as the plan has it.
fn steps(design: &Design, pen: &Pen) -> Vec<SheetLine> {
    let planned = quillet_pen::Planned::of_pen(design, pen);
    let routes = planned.plan.routes.iter();
    let each = routes.flat_map(|route| {
        let name = route.part.name.text.to_string();
        route.operations.iter().map(move |it| {
            let head = format!(
                "{:?} {:?}",
                it.depth,
                it.speed.as_ref().map(|it| it.low_rev_min)
            );
            SheetLine {
                group: name.clone(),
                number: None,
                key: format!("{:?}", it.tool),
                head,
                rest: Vec::new(),
            }
        })
    });
    each.collect()
}

fn called(file: &SourceFile) -> String {
    file.path.display().to_string()
}

fn compared(old: &[(String, String)], new: &[(String, String)]) -> Comparison {
    let texts = |all: &[(String, String)]| -> Texts {
        all.iter()
            .map(|(name, text)| (name.clone(), text.as_str()))
            .collect()
    };
    let files = |all: &[(String, String)]| -> Vec<PathBuf> {
        all.iter().map(|(name, _)| PathBuf::from(name)).collect()
    };
    let (was, is) = (texts(old), texts(new));
    let state = |source, files| State {
        source,
        files,
        name: &called,
        known: &unknown,
    };
    let (was, is) = (state(&was, files(old)), state(&is, files(new)));
    let (states, problems) = States::of(&was, &is, &Asked::default());
    assert_eq!(problems, Vec::<String>::new());
    let done = (0..states.len()).map(|job| states.work(job, &steps).unwrap());
    states.gather(done.collect::<Vec<_>>())
}

fn shipped() -> Vec<(String, String)> {
    EXAMPLES
        .map(|(name, text)| (name.to_owned(), text.to_owned()))
        .into()
}

fn with(name: &str, change: impl Fn(&str) -> String) -> Vec<(String, String)> {
    let mut all = shipped();
    let file = all.iter_mut().find(|it| it.0 == name).unwrap();
    let changed = change(&file.1);
    assert_ne!(file.1, changed, "{name} is changed");
    file.1 = changed;
    all
}

/// Changes of many kinds, each of one file.
fn changes() -> Vec<Vec<(String, String)>> {
    let replaced = |name: &'static str, old: &'static str, new: &'static str| {
        with(name, |text| {
            assert!(text.contains(old), "{name} has {old}");
            text.replace(old, new)
        })
    };
    vec![
        replaced("heron.quillet", "let grip = 11.4", "let grip = 9.8"),
        replaced(
            "heron.quillet",
            "drill 12.2              to 54",
            "drill 12.9 to 54",
        ),
        replaced(
            "heron.quillet",
            "    countersink 10.4",
            "    -- countersink 10.4",
        ),
        replaced("heron.quillet", "length 82", "length 84"),
        replaced("saltings.quillet", "M9x0.75 lead 2", "M9x0.75 lead 2.6"),
        replaced("saltings.quillet", "  mandrels 12, 16\n", ""),
        replaced(
            "heron.quillet",
            "want length(capped) <= 145",
            "want length(capped) <= 100",
        ),
        replaced("knot.quillet", "pen knot", "pen red-knot"),
    ]
}

#[test]
fn a_state_beside_itself_says_nothing() {
    let all = shipped();
    let comparison = compared(&all, &all);
    assert!(!comparison.is_denied(Deny::Text));
    assert!(comparison.pens.len() > 7);
    assert!(comparison.pens.iter().all(|it| it.state == PenState::Same));
}

/// Layout, comments and order do nothing, though each is looked at to its end.
#[test]
fn a_state_beside_its_own_form_says_nothing() {
    let all = shipped();
    let loose: Vec<(String, String)> = all
        .iter()
        .map(|(name, text)| {
            let lines = text.lines().map(|line| match line.contains('"') {
                true => format!("{line}\n"),
                false => format!("\t{}\n", line.replace("  ", " ")),
            });
            (
                name.clone(),
                format!("-- a note\n\n{}", lines.collect::<String>()),
            )
        })
        .collect();
    let formatted: Vec<(String, String)> = loose
        .iter()
        .map(|(name, text)| (name.clone(), quillet_syntax::format(text)))
        .collect();
    for (old, new) in [(&loose, &formatted), (&all, &loose)] {
        let comparison = compared(old, new);
        assert!(!comparison.is_denied(Deny::Effect));
        let files: Vec<_> = comparison.files.iter().flat_map(|it| &it.changes).collect();
        assert!(files.is_empty(), "{files:#?}");
        assert!(
            comparison
                .pens
                .iter()
                .all(|it| it.state == PenState::Written)
        );
    }
}

/// Who is new the one way is gone the other, and every figure changes its sides.
#[test]
fn swapped_sides_swap_all_that_is_told() {
    let all = shipped();
    for changed in changes() {
        let (there, back) = (compared(&all, &changed), compared(&changed, &all));
        let found = |it: &Comparison, states: [FindingState; 2]| {
            let reported = it.findings().filter(|it| states.contains(&it.state));
            let mut places: Vec<String> = reported.map(|it| it.place.to_string()).collect();
            places.sort();
            places
        };
        let (new, gone) = (
            [FindingState::New, FindingState::Graver],
            [FindingState::Gone, FindingState::Milder],
        );
        // A pen of another name takes the name of its side with it.
        if there.pens.iter().all(|it| it.from.is_none()) {
            assert_eq!(found(&there, new), found(&back, gone));
            assert_eq!(found(&there, gone), found(&back, new));
        }
        let figures = |it: &Comparison, swapped: bool| {
            let each = it.pens.iter().flat_map(|it| &it.measures);
            let mut all: Vec<String> = each
                .map(|it| match swapped {
                    true => format!("{:?} {:?} {:?}", it.kind, it.new, it.old),
                    false => format!("{:?} {:?} {:?}", it.kind, it.old, it.new),
                })
                .collect();
            all.sort();
            all
        };
        assert_eq!(figures(&there, false), figures(&back, true));
        let steps = |it: &Comparison| it.pens.iter().map(|it| it.steps.len()).sum::<usize>();
        assert_eq!(steps(&there), steps(&back));
        let any = |it: &Comparison| it.is_denied(Deny::Text);
        assert!(any(&there) && any(&back));
    }
}

#[test]
fn a_name_changed_there_and_back_is_nothing() {
    let all = shipped();
    let renamed = with("heron.quillet", |text| {
        text.replace("thread joint", "thread section-joint")
            .replace("section", "grip-part")
    });
    let there = compared(&all, &renamed);
    assert!(
        !there.is_denied(Deny::Effect),
        "{:#?}",
        there.changed().collect::<Vec<_>>()
    );
    assert!(
        there
            .files
            .iter()
            .flat_map(|it| &it.changes)
            .all(|it| it.renamed),
        "{:#?}",
        there.files
    );
    let back: Vec<(String, String)> = renamed
        .iter()
        .map(|(name, text)| {
            let text = text.replace("grip-part", "section");
            (
                name.clone(),
                text.replace("thread section-joint", "thread joint"),
            )
        })
        .collect();
    assert!(!compared(&all, &back).is_denied(Deny::Text));
}
