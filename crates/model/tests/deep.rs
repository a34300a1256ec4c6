//! Texts that go on and on: each comes to an end, and is told of where it goes too far.

#![allow(clippy::unwrap_used, reason = "tests")]

use quillet_model::{Texts, load, resolve};
use std::path::Path;

fn told(text: &str) -> Vec<String> {
    let texts = Texts::default().with("pen.quillet", text);
    let design = resolve(&load(Path::new("pen.quillet"), &texts).unwrap());
    design
        .findings
        .into_iter()
        .map(|it| it.message.to_string())
        .collect()
}

#[test]
fn sums_through_one_another_stop_somewhere() {
    let chain = |count: usize| -> String {
        let links = (0..count).map(|it| format!("let a{it} = a{} + 1\n", it + 1));
        links.chain([format!("let a{count} = 1\n")]).collect()
    };
    assert!(told(&chain(150)).is_empty());
    let deep = told(&chain(20_000));
    assert!(deep[0].contains("is worked out through more than 200 others"));
}

#[test]
fn parts_like_one_another_stop_somewhere() {
    let chain = |count: usize| -> String {
        let first = "part p0 from a to b {\n  length 4\n  outside dia 3\n}\n".to_owned();
        let links = (1..count).map(|it| format!("part p{it} like p{}\n", it - 1));
        std::iter::once(first).chain(links).collect()
    };
    assert!(told(&chain(50)).is_empty());
    assert!(told(&chain(60))[0].contains("is like another through more than 50"));
}

#[test]
fn names_that_are_not_known_are_not_all_compared() {
    let text: String = (0..3_000)
        .map(|it| format!("let side{it} = sidf{it}\n"))
        .collect();
    let told = told(&text);
    assert_eq!(told.len(), 3_000);
    assert!(told.iter().all(|it| it.starts_with("no named quantity")));
}
