//! What is measured, and what goes in a measure's parentheses.

use super::{Choice, CompletionContext, names, words};
use quillet_syntax::grammar;

/// The measures; within the parentheses of one, what it takes there.
pub(super) fn measured(at: CompletionContext<'_>) -> Vec<Choice> {
    let Some((measure, index)) = call(at) else {
        let mut choices = words::measures();
        choices.extend(names::quantities(at));
        return choices;
    };
    match (measure, index) {
        ("length" | "mass" | "balance", 0) | ("clearance" | "distance", 2) => {
            words::configurations()
        }
        ("wall" | "diameter" | "across", 0) | ("clearance", 0 | 1) => names::parts(at),
        ("turns" | "travel" | "overlap" | "hold" | "distance", 0 | 1) => names::faces(at),
        ("diameter" | "across", 1) => names::quantities(at),
        ("min" | "max", _) => {
            let mut choices = words::measures();
            choices.extend(names::quantities(at));
            choices
        }
        _ => Vec::new(),
    }
}

/// The measure or function in whose parentheses the cursor is, and which of its values it is at.
fn call(at: CompletionContext<'_>) -> Option<(&str, usize)> {
    let mut before = at.before();
    let (mut depth, mut commas) = (0_usize, 0);
    while let Some(word) = before.next() {
        match word {
            ")" => depth += 1,
            "(" if depth > 0 => depth -= 1,
            "(" => {
                let name = before.next()?;
                let is_measure = grammar::at(grammar::Place::Measure).any(|word| word.text == name);
                // Plain parentheses only hold a sum together.
                if is_measure {
                    return Some((name, commas));
                }
                commas = 0;
            }
            "," if depth == 0 => commas += 1,
            _ => {}
        }
    }
    None
}
