//! Whole pens of other kinds, each with the figures that it was drawn for: worked out by hand, or by the
//! formula's own source, before any of this was written.

use quillet_check::examine;
use quillet_model::{Configured, Design, HeldBy, Pen, Texts, load, resolve};
use std::path::Path;

/// One of the pens of `fixture/more-pens`, its two shared files beside it.
fn worked(text: &str) -> Design {
    let shared = [
        (
            "saltings.quillet",
            include_str!("../../../../examples/saltings.quillet"),
        ),
        (
            "bought.quillet",
            include_str!("../../../fixture/more-pens/bought.quillet"),
        ),
    ];
    let text = text.replace("../../../examples/", "");
    let texts = Texts::from_iter(shared).with("pen.quillet", &text);
    resolve(&load(Path::new("pen.quillet"), &texts).unwrap())
}

fn rules(design: &Design) -> Vec<String> {
    let found = examine(design).findings;
    found.iter().map(|it| it.rule.to_string()).collect()
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    let off = (found - wanted).abs();
    assert!(off <= within, "{found} where {wanted} was wanted");
}

fn long(pen: &Pen, configured: Configured) -> f64 {
    let state = pen.assembly.configuration(configured).unwrap();
    state.length_mm.unwrap()
}

/// A cap that screws onto its own tail: of two threads of one designation the tail's, 4.5 of travel over a
/// lead of 2.4, with 4 of it overlapping.
#[test]
fn a_cap_posts_by_the_thread_on_the_tail() {
    let design = worked(include_str!(
        "../../../fixture/more-pens/sanderling.quillet"
    ));
    let pen = design.pen("sanderling").unwrap();
    near(long(pen, Configured::Posted), 150.5, 0.005);
    near(long(pen, Configured::Uncapped), 104.5, 0.005);
    let mut joints = pen.joints.with_ids();
    let posts = joints.find(|(_, it)| it.verb == quillet_syntax::ast::Verb::Post);
    let rest = &pen.assembly.joints[posts.unwrap().0];
    let thread = rest.engagements.first().unwrap();
    near(thread.turns(), 4.5 / 2.4, 1e-9);
    let found = rules(&design);
    for silent in ["wont-post", "joined-twice"] {
        assert!(!found.iter().any(|it| it == silent), "{found:?}");
    }
}

/// A cap of 13.4 over a plain 12 is held by nothing; one of 12 on 12.05 by far too much: Lamé, 132 N in the
/// design, which takes 0.05 of interference exactly.
#[test]
fn a_loose_cap_and_a_tight_one_are_told_apart() {
    let plain = worked(include_str!("../../../fixture/more-pens/plain-cap.quillet"));
    let found = rules(&plain);
    assert!(found.iter().any(|it| it == "nothing-holds"), "{found:?}");
    let tight = worked(include_str!("../../../fixture/more-pens/tight-cap.quillet"));
    let found = rules(&tight);
    assert!(found.iter().any(|it| it == "stiff-cap"), "{found:?}");
    assert!(!found.iter().any(|it| it == "wont-pass"), "{found:?}");
    let pen = tight.pens.first().unwrap();
    let mut joints = pen.joints.with_ids();
    let (close, _) = joints
        .find(|(_, it)| it.verb == quillet_syntax::ast::Verb::Close)
        .unwrap();
    near(pen.new_hold_n(close).unwrap(), 131.5, 1.5);
}

/// A click pen: the point 2.5 out to write and 2.5 in, the spring 4.56 and 9.56 long.
#[test]
fn a_click_draws_its_refill_back() {
    let design = worked(include_str!("../../../fixture/more-pens/redshank.quillet"));
    let pen = design.pen("redshank").unwrap();
    near(long(pen, Configured::Uncapped), 138.0, 0.005);
    near(long(pen, Configured::Retracted), 135.5, 0.005);
    let springs = pen.assembly.joints.iter().flat_map(|it| &it.trapped);
    let written: Vec<f64> = springs.map(|it| it.length_mm).collect();
    let drawn = &pen.assembly.springs_retracted;
    let drawn: Vec<f64> = drawn.iter().map(|it| it.1.length_mm).collect();
    assert_eq!((written.len(), drawn.len()), (1, 1));
    near(written[0], 4.56, 0.005);
    near(drawn[0], 9.56, 0.005);
    let found = rules(&design);
    assert!(!found.iter().any(|it| it == "loose-part"), "{found:?}");
}

/// Magnets 0.2 apart, 5.7 N by uniform discs with the share of a gap to one place; six fingers of
/// polycarbonate, 3.0 N at a strain of 0.44 %.
#[test]
fn magnets_and_fingers_hold_a_cap() {
    let magnets = worked(include_str!(
        "../../../fixture/more-pens/oystercatcher.quillet"
    ));
    let held = |design: &Design| {
        let pen = design.pens.first().unwrap().clone();
        let mut joints = pen.joints.with_ids();
        let (close, _) = joints
            .find(|(_, it)| it.verb == quillet_syntax::ast::Verb::Close)
            .unwrap();
        let by = pen.assembly.joints[close].verdict.held_by.clone();
        (by, pen.hold_n(close).unwrap())
    };
    near(held(&magnets).1, 5.7, 0.15);
    let fingers = worked(include_str!("../../../fixture/more-pens/phalarope.quillet"));
    let (by, hold) = held(&fingers);
    near(hold, 3.0, 0.05);
    let [HeldBy::Snap(snap)] = by[..] else {
        panic!("{by:?}")
    };
    near(snap.strain.unwrap(), 0.0044, 5e-5);
}

/// Oak of 0.9 over a bush of brass that is glued in before it is turned is one wall with it.
#[test]
fn oak_over_brass_is_one_wall() {
    let design = worked(include_str!("../../../fixture/more-pens/lapwing.quillet"));
    let found = rules(&design);
    for silent in [
        "thin-wall",
        "loose-part",
        "not-reckoned",
        "stops-early",
        "proud-joint",
    ] {
        assert!(!found.iter().any(|it| it == silent), "{found:?}");
    }
    assert_eq!(examine(&design).errors(), 0, "{found:?}");
}
