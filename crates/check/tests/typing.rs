//! What is found while a pen is typed: the line at the cursor is half written, the rest is there.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_check::check;
use quillet_fixture::EXAMPLES;
use quillet_model::{Texts, load, resolve};
use quillet_syntax::{Finding, Severity};
use std::path::Path;

/// Every so many letters one is looked at.
const EVERY: usize = 17;

/// What is found in a text under an example's name, its files beside it.
fn found(name: &str, text: &str) -> Vec<Finding> {
    let texts = Texts::from_iter(EXAMPLES).with(name, text);
    check(&resolve(&load(Path::new(name), &texts).unwrap()))
}

#[test]
fn a_half_written_line_is_told_of_once_and_nothing_else_for_its_sake() {
    let name = "heron.quillet";
    let whole = EXAMPLES.iter().find(|(path, _)| *path == name).unwrap().1;
    let (mut looks, mut reported, mut elsewhere, mut most) = (0_usize, 0_usize, Vec::new(), 0);
    for cursor in (1..whole.len()).step_by(EVERY) {
        if !whole.is_char_boundary(cursor) {
            continue;
        }
        let from = whole[..cursor].rfind('\n').map_or(0, |at| at + 1);
        let rest = whole[cursor..]
            .find('\n')
            .map_or("", |at| &whole[cursor + at..]);
        let text = format!("{}{rest}", &whole[..cursor]);
        let found = found(name, &text);
        let here = |it: &&Finding| {
            let at = it.span.range();
            at.start >= from && at.start <= cursor
        };
        looks += 1;
        reported += found.len();
        most = most.max(found.len());
        // What the line leaves of the pen may be wrong; what cannot be read says nothing of it.
        let unread =
            |it: &Finding| ["syntax", "unknown-name", "incomplete"].contains(&it.rule.code());
        if found.iter().filter(here).any(&unread) {
            let others = found.iter().filter(|it| !here(it) && !unread(it));
            elsewhere.extend(
                others
                    .map(|it| format!("{:?}: [{}] {}", &whole[from..cursor], it.rule, it.message)),
            );
        }
    }
    let mean = reported as f64 / looks as f64;
    println!(
        "{looks} places, {mean:.2} findings each, {most} at most, {} elsewhere",
        elsewhere.len()
    );
    elsewhere.iter().for_each(|it| println!("{it}"));
    assert!(looks > 100);
    assert!(mean < 1.2, "{mean}");
    assert!(elsewhere.is_empty(), "{elsewhere:#?}");
}

/// A new item is begun below a pen that is sound, letter by letter.
#[test]
fn an_item_that_is_begun_below_is_told_of_once() {
    let name = "heron.quillet";
    let whole = EXAMPLES.iter().find(|(path, _)| *path == name).unwrap().1;
    for line in [
        "part cap-2 from mouth to crown {",
        "bought clip-2 \"A clip\" from under to over {",
        "thread third = M11x0.75 starts 2",
        "material bog \"Bog oak\" {",
        "blank bar of reed rod 18 by 150",
        "pen second \"Second\" like heron {",
        "let width = 11.4 + 0.2",
        "limit thin-wall = 0.9",
    ] {
        for typed in (1..=line.len()).map(|end| &line[..end]) {
            let found = found(name, &format!("{whole}\n{typed}"));
            let own: Vec<_> = found
                .iter()
                .filter(|it| it.severity == Severity::Error && it.span.range().end > whole.len())
                .map(|it| format!("[{}] {}", it.rule, it.message))
                .collect();
            assert!(own.len() <= 1, "{typed:?}: {own:#?}");
        }
    }
}

/// The pen is written from its first letter to its last; what stands below the cursor is not there
/// yet.
#[test]
fn a_pen_that_is_written_from_the_first_letter_flickers_little() {
    let name = "heron.quillet";
    let whole = EXAMPLES.iter().find(|(path, _)| *path == name).unwrap().1;
    let (mut looks, mut all, mut pushed, mut most) = (0_usize, 0_usize, 0_usize, 0);
    for cursor in (1..whole.len()).step_by(EVERY) {
        if !whole.is_char_boundary(cursor) {
            continue;
        }
        let text = &whole[..cursor];
        let line = text.rfind('\n').map_or(0, |at| at + 1);
        let found = found(name, text);
        // The server holds these back until the hand rests.
        let held = |it: &&Finding| it.rule.code() == "syntax" && it.span.range().end >= line;
        looks += 1;
        all += found.len();
        pushed += found.len() - found.iter().filter(held).count();
        most = most.max(found.len());
    }
    let [all, pushed] = [all, pushed].map(|count| count as f64 / looks as f64);
    println!(
        "{looks} places, {all:.2} findings each, {pushed:.2} while the hand moves, {most} at most"
    );
    assert!(looks > 100);
    assert!(all < 1.2, "{all}");
    assert!(pushed < 0.9, "{pushed}");
    assert!(most <= 2, "{most}");
}
