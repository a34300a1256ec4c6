//! Every worst case of the shipped pens, and of one of slopes and broken corners, bounds what comes of it: each pen is drawn again and again
//! with every written size at one end or the other of what its hand may miss it by, and every
//! clearance and every wall of it is compared with the worst that is stated.

#![allow(
    clippy::expect_used,
    reason = "tests stop where a text is not as written"
)]
#![allow(
    clippy::print_stdout,
    reason = "a run of more samples says how many were compared"
)]

mod clearances;
mod not_round;
mod sizes;
mod walls;

use quillet_fixture::{EXAMPLES, Random};
use quillet_model::{Design, Texts, load, resolve};
use sizes::Sizes;
use std::path::Path;

/// What was compared.
struct Tally {
    what: &'static str,
    compared: usize,
    nearest_mm: f64,
}

impl Tally {
    fn of(what: &'static str) -> Tally {
        Tally {
            what,
            compared: 0,
            nearest_mm: f64::INFINITY,
        }
    }

    /// Holds that a sample lies over a worst case by no less than nothing, but a slack.
    fn hold(
        &mut self,
        (sample_mm, worst_mm, slack_mm): (f64, f64, f64),
        told: impl Fn() -> String,
    ) {
        let over_mm = sample_mm - worst_mm;
        self.compared += 1;
        self.nearest_mm = f64::min(self.nearest_mm, over_mm);
        assert!(
            over_mm >= -slack_mm,
            "{over_mm} mm under the worst of {}",
            told()
        );
    }

    /// Holds that there was something to compare, and that the bounds are no wider than they need
    /// be: some sample comes right down to one.
    fn close(&self, cases: usize) {
        let Tally {
            what,
            compared,
            nearest_mm,
        } = self;
        println!("{what}: {compared} compared, {nearest_mm:e} mm over the nearest");
        assert!(*compared > cases, "{compared} {what} compared");
        assert!(
            *nearest_mm < 1e-3,
            "{what} never nearer than {nearest_mm} mm"
        );
    }
}

fn open(name: &str, texts: &Texts) -> Design {
    resolve(&load(Path::new(name), texts).expect("the example is there"))
}

fn bounded(name: &str) {
    let example = |texts: Texts, (name, text): &(&str, &str)| texts.with(*name, text);
    bounded_in(name, EXAMPLES.iter().fold(Texts::default(), example));
}

fn bounded_in(name: &str, texts: Texts) {
    let cases = std::env::var("QUILLET_SAMPLES").map_or(CASES, |it| it.parse().expect("a number"));
    let design = open(name, &texts);
    let sizes = Sizes::of(&design);
    let mut random = Random(1);
    let stated: Vec<_> = design.pens.iter().map(walls::stated).collect();
    let mut tallies = (Tally::of("clearances"), Tally::of("walls"));
    for _ in 0..cases {
        let sample = open(name, &sizes.sample(&design, &mut random));
        assert!(sample.findings.is_empty(), "{:#?}", sample.findings);
        let both = design.pens.iter().zip(&sample.pens);
        for ((pen, made), stated) in both.zip(&stated) {
            clearances::compare(&mut tallies.0, pen, made);
            walls::compare(&mut tallies.1, pen, stated, made);
        }
    }
    tallies.0.close(cases);
    tallies.1.close(cases);
}

/// How many samples are drawn of each, where `QUILLET_SAMPLES` does not say.
const CASES: usize = 150;

#[test]
fn heron() {
    bounded("heron.quillet");
}

#[test]
fn avocet() {
    bounded("avocet.quillet");
}

#[test]
fn dunlin() {
    bounded("dunlin.quillet");
}

#[test]
fn curlew() {
    bounded("curlew.quillet");
}

#[test]
fn godwit() {
    bounded("godwit.quillet");
}

#[test]
fn whimbrel() {
    bounded("whimbrel.quillet");
}

/// A pen drawn to be awkward.
#[test]
fn edges() {
    let texts = Texts::default().with(
        "edges.quillet",
        include_str!("../../../../tests/oracles/edges.quillet"),
    );
    bounded_in("edges.quillet", texts);
}
