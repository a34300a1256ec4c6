//! The whole grammar in the notation of ISO/IEC 14977, for readers and for other programs.

use quillet_syntax::grammar::{Piece, Place, RESERVED, Statement, statements};
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
    let all = rules();
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

/// The rule of a statement, with the places where it may stand.
struct Rule {
    name: String,
    body: String,
    places: Vec<Place>,
}

fn rules() -> Vec<Rule> {
    let mut rules: Vec<Rule> = Vec::new();
    for statement in statements() {
        let body = sequence(&statement.pieces(), statement.block);
        if let Some(same) = rules.iter_mut().find(|it| it.body == body) {
            same.places.push(statement.place);
            continue;
        }
        let of_word = |it: &&Statement| it.word() == statement.word();
        let alone = statements()
            .filter(of_word)
            .all(|it| it.rule == statement.rule);
        let name = match alone {
            true => statement.word().to_owned(),
            false => format!("{}_{}", rule_of(statement.place), statement.word()),
        };
        rules.push(Rule {
            name,
            body,
            places: vec![statement.place],
        });
    }
    rules
}

fn sequence(pieces: &[Piece], block: Option<Place>) -> String {
    let each: Vec<_> = pieces.iter().map(|it| piece(it, block)).collect();
    each.join(", ")
}

fn piece(piece: &Piece, block: Option<Place>) -> String {
    let choice = |choices: &[Vec<Piece>]| {
        let each: Vec<_> = choices.iter().map(|it| sequence(it, block)).collect();
        each.join(" | ")
    };
    match piece {
        Piece::Word(word) => format!("\"{word}\""),
        Piece::Slot(slot) => slot.takes.to_owned(),
        Piece::Block => block.map_or(String::new(), |place| format!("{}_block", rule_of(place))),
        Piece::Optional(inner) => format!("[ {} ]", sequence(inner, block)),
        Piece::Choice(choices) => format!("( {} )", choice(choices)),
        Piece::Any(choices) => format!("{{ {} }}", choice(choices)),
    }
}

/// The places of statements, in the manual's order.
pub(crate) fn places() -> impl Iterator<Item = Place> {
    let mut last = None;
    statements()
        .map(|it| it.place)
        .filter(move |place| last.replace(*place) != Some(*place))
}

/// The rule that any statement of a place follows.
fn rule_of(place: Place) -> String {
    match place {
        Place::Item | Place::Station | Place::Cut => format!("{place:?}").to_lowercase(),
        Place::JointLine => "joint_line".to_owned(),
        _ => format!("{place:?}_line").to_lowercase(),
    }
}

/// What stands at a place, to head its statements with.
pub(crate) fn title(place: Place) -> String {
    let noun = place.noun().unwrap_or_default();
    let (first, rest) = noun.split_at(1);
    format!("{}{rest}", first.to_uppercase())
}
