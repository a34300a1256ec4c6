//! A few inputs through each target, so that a target that cannot run is seen at once.

use quillet_fuzz::{Dice, TARGETS, mutated};

#[test]
fn every_target_takes_what_it_is_made_from_and_a_little_more() {
    for target in TARGETS {
        let corpus = (target.corpus)();
        assert!(!corpus.whole.is_empty());
        for text in corpus.whole.iter().take(12) {
            (target.run)(text.as_bytes());
        }
        for seed in 0..40 {
            (target.run)(mutated(&corpus, &mut Dice::new(seed)).as_bytes());
        }
    }
}

#[test]
fn inputs_follow_from_their_seed_and_differ() {
    let corpus = quillet_fuzz::texts();
    let all: Vec<String> = (0..50)
        .map(|seed| mutated(&corpus, &mut Dice::new(seed)))
        .collect();
    let again: Vec<String> = (0..50)
        .map(|seed| mutated(&corpus, &mut Dice::new(seed)))
        .collect();
    assert_eq!(all, again);
    let distinct: std::collections::BTreeSet<&String> = all.iter().collect();
    assert!(distinct.len() > 40);
}
