//! How a statement is written, piece by piece.

use super::slots::{Slot, slot};
use super::statements::Statement;

/// A piece of a statement's rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// A word or a sign, as it is written.
    Word(&'static str),
    /// What is filled in.
    Slot(&'static Slot),
    /// The statement's block.
    Block,
    /// What may be left out.
    Optional(Vec<Piece>),
    /// One of several.
    Choice(Vec<Vec<Piece>>),
    /// Any of several, each as often as may be, in any order.
    Any(Vec<Vec<Piece>>),
}

impl Statement {
    /// Its rule, piece by piece; the first is its word.
    pub fn pieces(&self) -> Vec<Piece> {
        let mut reader = Reader {
            rest: self.rule,
            first: self.word(),
            last: "",
        };
        reader.choices().into_iter().next().unwrap_or_default()
    }

    /// What must come right after its word, where that is filled in.
    pub(crate) fn first_slot(&self) -> Option<&'static Slot> {
        match self.pieces().get(1) {
            Some(Piece::Slot(slot)) => Some(slot),
            _ => None,
        }
    }
}

struct Reader {
    rest: &'static str,
    /// The statement's word and the last one read: what a slot takes follows from them.
    first: &'static str,
    last: &'static str,
}

impl Reader {
    /// Up to a closing bracket or the end: what stands between bars.
    fn choices(&mut self) -> Vec<Vec<Piece>> {
        let mut choices = vec![Vec::new()];
        loop {
            self.rest = self.rest.trim_start();
            let Some(next) = self.rest.chars().next() else {
                return choices;
            };
            if self.takes("{…}") {
                push(&mut choices, Piece::Block);
            } else if self.takes("|") {
                choices.push(Vec::new());
            } else if self.takes("]") || self.takes(")") {
                return choices;
            } else if self.takes("[") {
                let mut inner = self.choices();
                let inner = match inner.len() {
                    1 => inner.remove(0),
                    _ => vec![Piece::Choice(inner)],
                };
                push(&mut choices, Piece::Optional(inner));
            } else if self.takes("(") {
                let inner = self.choices();
                let piece = match self.takes("*") {
                    true => Piece::Any(inner),
                    false => Piece::Choice(inner),
                };
                push(&mut choices, piece);
            } else {
                let quoted = next == '"';
                let end = self.rest.find([' ', ']', ')', '|']);
                let (text, rest) = self.rest.split_at(end.unwrap_or(self.rest.len()));
                self.rest = rest;
                let piece = match quoted || next.is_ascii_uppercase() {
                    true => slot(text.trim_matches('"'), self.first, self.last).map(Piece::Slot),
                    false => {
                        self.last = text;
                        Some(Piece::Word(text))
                    }
                };
                // A slot of no meaning stays as it is written: the tests find it.
                push(&mut choices, piece.unwrap_or(Piece::Word(text)));
            }
        }
    }

    fn takes(&mut self, text: &str) -> bool {
        let rest = self.rest.strip_prefix(text);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }
}

fn push(choices: &mut [Vec<Piece>], piece: Piece) {
    if let Some(last) = choices.last_mut() {
        last.push(piece);
    }
}
