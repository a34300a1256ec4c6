//! Prints what holds each joint of the pens in the files named, for a check from outside.
//!
//! A line a joint: its pen, its verb, the force that draws it apart in newtons, the same while it is new, and
//! the strain of a snap, separated by commas; `-` where one is not told. Files that others use are named too.

#![allow(clippy::print_stdout, reason = "printing is all it does")]

use quillet_model::{HeldBy, Pen, Texts, load, resolve};
use std::path::Path;

fn main() {
    let names: Vec<String> = std::env::args().skip(1).collect();
    let texts = names.iter().fold(Texts::default(), |texts, name| {
        let text = std::fs::read_to_string(name).unwrap_or_default();
        texts.with(name, &text)
    });
    for name in &names {
        if let Ok(loaded) = load(Path::new(name), &texts) {
            resolve(&loaded).pens.iter().for_each(joints);
        }
    }
}

fn joints(pen: &Pen) {
    let told = |it: Option<f64>| it.map_or("-".to_owned(), |it| format!("{it:?}"));
    for (id, joint) in pen.joints.with_ids() {
        let held = pen.assembly.joints.get(id);
        let held = held.into_iter().flat_map(|it| &it.verdict.held_by);
        let mut strains = held.filter_map(|it| match it {
            HeldBy::Snap(it) => it.strain,
            _ => None,
        });
        println!(
            "{},{},{},{},{}",
            pen.name.text,
            joint.verb.word(),
            told(pen.hold_n(id)),
            told(pen.new_hold_n(id)),
            told(strains.next())
        );
    }
}
