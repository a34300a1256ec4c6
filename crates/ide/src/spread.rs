//! How many pens of the maker's own hand pass, asked for a pen at a time.

use crate::Analysis;
use quillet_export::report::Spreads;
use quillet_room::spread::{Hands, USUAL_CASES, USUAL_SEED};
use quillet_syntax::Severity;

/// What comes of a pen that is made many times by the hand of its bench, as text; a sentence, where it has
/// errors as it is drawn. None where there is no such pen, or `called_off` said so between two of them.
pub fn spread(analysis: &Analysis, pen: &str, called_off: &dyn Fn() -> bool) -> Option<String> {
    let design = &analysis.design;
    let pen = design.pen(pen)?;
    let hands = match Hands::of(design, pen, (USUAL_CASES, USUAL_SEED), Severity::Warning) {
        Ok(hands) => hands,
        Err(why) => return Some(format!("{}: {why}\n", pen.name.text)),
    };
    let mut workplace = hands.workplace();
    let made = hands.cases().map(|nth| match called_off() {
        true => None,
        false => Some(hands.case(&mut workplace, nth)),
    });
    let cases: Vec<_> = made.collect::<Option<_>>()?;
    Some(Spreads::of(design, Severity::Warning, &[(pen, &hands, cases)]).text())
}
