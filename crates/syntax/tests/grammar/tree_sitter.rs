//! The grammar that tree-sitter compiles, for the editors that colour and fold by it.

use crate::rules::{Notation, places, rule_of, rules, title};
use quillet_syntax::grammar::{Place, RESERVED, Slot};
use std::cell::RefCell;
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
    let notation = JavaScript::default();
    let all = rules(&notation);
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
    out += "    // Phrases\n";
    for (name, body) in notation.phrases.into_inner() {
        let _ = writeln!(out, "    {name}: $ => {body},");
    }
    out + "\n" + below
}

/// tree-sitter's functions. What is named or points at a name is a field, called as in the manual.
#[derive(Default)]
struct JavaScript {
    /// What may be left out or chosen, under a name of its own: the same in many statements, it is
    /// compiled once.
    phrases: RefCell<Vec<(String, String)>>,
}

impl JavaScript {
    /// A name for a phrase that begins with a word; any other stays as it is.
    fn phrase(&self, body: &str) -> String {
        let word = body
            .strip_prefix("seq('")
            .and_then(|it| it.split('\'').next());
        let Some(word) = word.filter(|it| it.starts_with(char::is_alphabetic)) else {
            return body.to_owned();
        };
        let mut phrases = self.phrases.borrow_mut();
        let known = phrases.iter().find(|(_, it)| it == body);
        let name = known.map_or_else(
            || {
                let stem = format!("_{word}_");
                let same = phrases.iter().filter(|(it, _)| it.starts_with(&stem));
                format!("{stem}{}", same.count() + 1)
            },
            |(name, _)| name.clone(),
        );
        if known.is_none() {
            phrases.push((name.clone(), body.to_owned()));
        }
        format!("$.{name}")
    }

    fn each(&self, bodies: &[String]) -> String {
        let each: Vec<_> = bodies.iter().map(|it| self.phrase(it)).collect();
        each.join(", ")
    }
}

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
            "sum" | "size" | "lead" | "sizes" | "span" | "spans" | "sums" | "range" | "threads"
            | "thread_said" => format!("$._{}", slot.takes),
            _ => format!("$.{}", slot.takes),
        }
    }

    fn block(&self, name: &str) -> String {
        format!("$.{name}")
    }

    fn optional(&self, inner: String) -> String {
        format!("optional({})", self.phrase(&inner))
    }

    fn choice(&self, choices: &[String]) -> String {
        format!("choice({})", self.each(choices))
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
