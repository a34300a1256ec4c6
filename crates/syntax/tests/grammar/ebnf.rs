//! The whole grammar in the notation of ISO/IEC 14977, for readers and for other programs.

use crate::rules::{Notation, places, rule_of, rules, title};
use quillet_syntax::grammar::{Place, RESERVED, Slot};
use std::fmt::Write;

/// What is above the statements, below them, and in none of them. A name in `? … ?` is a regular
/// expression.
const AROUND: &str = include_str!("around.ebnf");

/// `grammar.ebnf`: a rule for each statement, for the statements of each place, and for what is
/// filled in.
pub(crate) fn ebnf() -> String {
    let (above, below) = AROUND
        .split_once("(* statements *)\n")
        .unwrap_or((AROUND, ""));
    let mut out = above.to_owned();
    let all = rules(&Ebnf);
    for place in places() {
        let here: Vec<_> = all.iter().filter(|it| it.places.contains(&place)).collect();
        let names: Vec<_> = here.iter().map(|it| it.name.as_str()).collect();
        let _ = write!(
            out,
            "(* {} *)\n{} = {} ;\n",
            title(place),
            rule_of(place),
            names.join(" | ")
        );
        for rule in here.iter().filter(|it| it.places[0] == place) {
            let _ = writeln!(out, "{} = {} ;", rule.name, rule.body);
        }
        out.push('\n');
    }
    out += "(* Blocks *)\n";
    for place in places().filter(|it| *it != Place::Item) {
        let line = rule_of(place);
        let lines = format!("{line}, {{ separators, {line} }}, [ separators ]");
        let _ = writeln!(
            out,
            "{line}_block = \"{{\", [ separators ], [ {lines} ], \"}}\" ;"
        );
    }
    out + "\n" + &below.replace("RESERVED", &RESERVED.join("|"))
}

/// The notation of ISO/IEC 14977.
struct Ebnf;

impl Notation for Ebnf {
    fn word(&self, word: &str) -> String {
        format!("\"{word}\"")
    }

    fn slot(&self, slot: &Slot) -> String {
        slot.takes.to_owned()
    }

    fn block(&self, name: &str) -> String {
        name.to_owned()
    }

    fn optional(&self, inner: String) -> String {
        format!("[ {inner} ]")
    }

    fn choice(&self, choices: &[String]) -> String {
        format!("( {} )", choices.join(" | "))
    }

    fn any(&self, choices: &[String]) -> String {
        format!("{{ {} }}", choices.join(" | "))
    }

    fn sequence(&self, each: &[String]) -> String {
        each.join(", ")
    }
}
