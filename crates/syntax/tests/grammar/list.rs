//! Every statement at a glance, as a page of the manual.

use crate::rules::{places, title};
use quillet_syntax::grammar::{Statement, statements};

const ABOVE: &str = "\
<!-- Written from crates/syntax/src/grammar by crates/syntax/tests/grammar; do not edit. -->
# All statements

By the place where they stand, with what each is for and a line of it. Lower-case words are written
as they stand here, capitals are filled in; brackets hold what may be left out, parentheses what there
is a choice of, `{…}` is a block. Each statement's own section is in [the language](language.md), the
whole grammar for other programs in [grammar.ebnf](../../syntax/grammar.ebnf).
";

/// The page.
pub(crate) fn list() -> String {
    let each = places().map(|place| {
        let here = statements().filter(|it| it.place == place).map(entry);
        format!("\n## {}\n\n{}", title(place), here.collect::<String>())
    });
    ABOVE.to_owned() + &each.collect::<String>()
}

fn entry(statement: &Statement) -> String {
    let Statement {
        form,
        help,
        example,
        ..
    } = statement;
    format!("* `{form}`  \n  {help}: `{example}`\n")
}
