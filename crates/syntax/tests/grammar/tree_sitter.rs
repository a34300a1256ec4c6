//! The grammar that tree-sitter compiles, for the editors that colour and fold by it.

use crate::rules::{Notation, places, rule_of, rules, title};
use quillet_syntax::grammar::{Place, RESERVED, Slot};
use std::fmt::Write;

/// What is above the statements, and below them.
const AROUND: &str = include_str!("around.js");

/// `grammar.js`: a rule for each statement, for the statements of each place, and for what is
/// filled in.
pub(crate) fn grammar() -> String {
    let (above, below) = AROUND
        .split_once("    // statements\n")
        .unwrap_or((AROUND, ""));
    let reserved: Vec<_> = RESERVED.iter().map(|it| format!("'{it}'")).collect();
    let mut out = above.replace("RESERVED", &reserved.join(", "));
    let all = rules(&JavaScript);
    for place in places() {
        let here: Vec<_> = all.iter().filter(|it| it.places.contains(&place)).collect();
        let names: Vec<_> = here.iter().map(|it| format!("$.{}", it.name)).collect();
        let line = rule_of(place);
        let _ = write!(
            out,
            "    // {}\n    _{line}: $ => choice({}),\n",
            title(place),
            names.join(", ")
        );
        for rule in here.iter().filter(|it| it.places[0] == place) {
            let _ = writeln!(out, "    {}: $ => {},", rule.name, rule.body);
        }
        if place != Place::Item {
            let _ = writeln!(out, "    {line}_block: $ => block($, $._{line}),");
        }
        out.push('\n');
    }
    out + below
}

/// tree-sitter's functions. What is named or points at a name is a field, called as in the manual.
struct JavaScript;

impl Notation for JavaScript {
    fn word(&self, word: &str) -> String {
        format!("'{word}'")
    }

    fn slot(&self, slot: &Slot) -> String {
        let field = |rule| format!("field('{}', {rule})", slot.name.to_lowercase());
        match slot.takes {
            "name" | "text" => field(format!("$.{}", slot.takes)),
            // Several names each have the field.
            "names" => format!("commas({})", field("$.name".to_owned())),
            "sum" | "size" | "lead" | "sizes" | "span" | "spans" | "range" | "threads"
            | "thread_said" => format!("$._{}", slot.takes),
            _ => format!("$.{}", slot.takes),
        }
    }

    fn block(&self, name: &str) -> String {
        format!("$.{name}")
    }

    fn optional(&self, inner: String) -> String {
        format!("optional({inner})")
    }

    fn choice(&self, choices: &[String]) -> String {
        format!("choice({})", choices.join(", "))
    }

    fn any(&self, choices: &[String]) -> String {
        format!("repeat({})", self.choice(choices))
    }

    fn sequence(&self, each: &[String]) -> String {
        match each {
            [one] => one.clone(),
            _ => format!("seq({})", each.join(", ")),
        }
    }
}
