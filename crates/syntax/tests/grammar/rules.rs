//! The statements as the rules of a grammar, whatever notation that is written in.

use quillet_syntax::grammar::{Piece, Place, Slot, Statement, statements};

/// The rule of a statement, with the places where it may stand.
pub(crate) struct Rule {
    pub(crate) name: String,
    pub(crate) body: String,
    pub(crate) places: Vec<Place>,
}

/// How the pieces of a rule are written.
pub(crate) trait Notation {
    fn word(&self, word: &str) -> String;
    fn slot(&self, slot: &Slot) -> String;
    fn block(&self, name: &str) -> String;
    fn optional(&self, inner: String) -> String;
    fn choice(&self, choices: &[String]) -> String;
    /// Any of several, each as often as may be.
    fn any(&self, choices: &[String]) -> String;
    fn sequence(&self, each: &[String]) -> String;
}

/// Every statement's rule, those of the same form once.
pub(crate) fn rules(notation: &impl Notation) -> Vec<Rule> {
    let mut rules: Vec<Rule> = Vec::new();
    for statement in statements() {
        let body = sequence(notation, &statement.pieces(), statement.block);
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

fn sequence(notation: &impl Notation, pieces: &[Piece], block: Option<Place>) -> String {
    let each: Vec<_> = pieces
        .iter()
        .filter_map(|it| piece(notation, it, block))
        .collect();
    notation.sequence(&each)
}

fn piece(notation: &impl Notation, piece: &Piece, block: Option<Place>) -> Option<String> {
    let each = |choices: &[Vec<Piece>]| -> Vec<String> {
        let each = choices.iter().map(|it| sequence(notation, it, block));
        each.collect()
    };
    Some(match piece {
        Piece::Word(word) => notation.word(word),
        Piece::Slot(slot) => notation.slot(slot),
        Piece::Block => notation.block(&format!("{}_block", rule_of(block?))),
        Piece::Optional(inner) => notation.optional(sequence(notation, inner, block)),
        Piece::Choice(choices) => notation.choice(&each(choices)),
        Piece::Any(choices) => notation.any(&each(choices)),
    })
}

/// The places of statements, in the manual's order.
pub(crate) fn places() -> impl Iterator<Item = Place> {
    let mut last = None;
    statements()
        .map(|it| it.place)
        .filter(move |place| last.replace(*place) != Some(*place))
}

/// The rule that any statement of a place follows.
pub(crate) fn rule_of(place: Place) -> String {
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
