//! What a pen is made of, by the names in it.

use super::statement::Statement;
use quillet_model::{Design, Pen};
use std::collections::BTreeSet;

/// The items that a pen is made of, by what they are and their names: itself, what it names, what
/// those name, and what holds for all: limits, its bench.
pub(crate) fn reached(items: &[&Statement], design: &Design, pen: &Pen) -> BTreeSet<String> {
    let bench = design.bench(pen.bench.as_ref());
    let mut reached = BTreeSet::from([format!("pen {}", pen.name.text)]);
    reached.extend(bench.map(|it| format!("bench {}", it.name.text)));
    let for_all = items
        .iter()
        .filter(|it| matches!(it.verb(), "limit" | "use"));
    reached.extend(for_all.map(|it| it.name()));
    let mut known: BTreeSet<&str> = BTreeSet::new();
    let mut next: Vec<&Statement> = items
        .iter()
        .copied()
        .filter(|it| reached.contains(&it.name()) && !matches!(it.verb(), "use" | "bench"))
        .collect();
    // A part may be inherited from the pen it is like.
    while let Some(item) = next.pop() {
        let mut names = Vec::new();
        item.names(&mut |name| names.push(name));
        for name in names.into_iter().filter(|it| known.insert(it)) {
            let called = |it: &&&Statement| it.tokens.get(1).is_some_and(|it| it.text == name);
            for item in items.iter().filter(called) {
                if !matches!(item.verb(), "bench" | "limit" | "use") && reached.insert(item.name())
                {
                    next.push(item);
                }
            }
        }
    }
    reached
}
