//! What is said of the statements is what the parser reads, and what is made of it is fresh.

#![allow(
    clippy::unwrap_used,
    reason = "tests stop where a file cannot be written"
)]

mod ebnf;
mod list;
mod queries;
mod rules;
mod tree_sitter;
mod written;

use quillet_syntax::grammar::{self, Piece, Place, Statement, slots, statements};
use quillet_syntax::{FileId, Thing, expected, format, parse};
use std::collections::BTreeSet;

/// A statement's text where it may stand; what is open there stays open.
pub(crate) fn within(place: Place, text: &str) -> String {
    let before = match place {
        Place::Item => "",
        Place::Material => "material reed {\n",
        Place::Part => "part sleeve from mouth to crown {\n",
        Place::Station => "part sleeve from mouth to crown {\noutside {\n",
        Place::Cut => "part sleeve from mouth to crown {\nfrom mouth {\n",
        Place::Side => "part sleeve from mouth to crown {\nside {\n",
        Place::Pen => "pen dunlin {\n",
        Place::JointLine => "pen dunlin {\nclose cap.mouth onto barrel.mouth {\n",
        Place::Bench => "bench saltings {\n",
        Place::Shelf => "shelf saltings {\n",
        Place::Made => "made ida-1 of heron {\n",
        other => panic!("no statement stands at {other:?}"),
    };
    format!("{before}{text}")
}

/// The same with all blocks closed.
pub(crate) fn whole(place: Place, text: &str) -> String {
    let open = within(place, text);
    let count = |c| open.matches(c).count();
    let closing = "\n}".repeat(count('{') - count('}'));
    format!("{open}{closing}\n")
}

#[test]
fn every_example_is_read_and_keeps_its_words_when_formatted() {
    for it in statements() {
        let file = whole(it.place, it.example);
        let findings = parse(FileId(0), &file).findings;
        assert!(findings.is_empty(), "{file}\n{findings:#?}");
        assert_eq!(it.example.split(' ').next(), Some(it.word()), "{it:?}");
        let formatted = format(&file);
        assert_eq!(format(&formatted), formatted, "{it:?}");
        let words = |text: &str| text.split_whitespace().collect::<String>();
        let joined = words(&formatted).replace("};", "}");
        assert_eq!(joined, words(&file).replace(';', ""), "{it:?}");
    }
}

#[test]
fn the_rule_says_what_the_parser_expects_at_every_step() {
    let (mut steps, mut wrong) = (0, Vec::new());
    for it in statements() {
        let mut walk = Walk {
            statement: it,
            seen: BTreeSet::new(),
            wrong: Vec::new(),
        };
        walk.from(it.word().to_owned(), "", &it.pieces()[1..]);
        wrong.append(&mut walk.wrong);
        steps += walk.seen.len();
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(steps > 300, "{steps}");
}

#[test]
fn every_slot_has_its_use_and_every_use_its_slot() {
    let mut used = BTreeSet::new();
    for it in statements() {
        for_each(&it.pieces(), &mut |piece| match piece {
            Piece::Slot(slot) => {
                used.insert((slot.name, slot.after));
            }
            Piece::Word(word) => {
                let known = grammar::meanings(word).next().is_some();
                assert!(
                    known || !word.contains(char::is_alphabetic),
                    "{word} of {it:?}"
                );
            }
            _ => {}
        });
    }
    let all: BTreeSet<_> = slots().iter().map(|it| (it.name, it.after)).collect();
    assert_eq!(used, all);
}

fn for_each(pieces: &[Piece], visit: &mut impl FnMut(&Piece)) {
    for piece in pieces {
        visit(piece);
        match piece {
            Piece::Optional(inner) => for_each(inner, visit),
            Piece::Choice(choices) | Piece::Any(choices) => {
                choices.iter().for_each(|inner| for_each(inner, visit));
            }
            _ => {}
        }
    }
}

/// Every way through a statement's rule, with what the parser expects on it.
struct Walk {
    statement: &'static Statement,
    seen: BTreeSet<String>,
    wrong: Vec<String>,
}

impl Walk {
    /// Compares what may come after `text` by the rule and by the parser, then goes on with each.
    fn from(&mut self, text: String, last: &str, rest: &[Piece]) {
        if !self.seen.insert(format!("{last} {rest:?}")) {
            return;
        }
        let mut ways = Vec::new();
        let ends = ways_on(rest, &mut ways);
        let (mut words, mut things) = (BTreeSet::new(), BTreeSet::new());
        if ends {
            things.insert(Thing::LineEnd.phrase());
        }
        for (first, _) in &ways {
            match first {
                Piece::Word("=") if self.statement.word() != "want" => {
                    things.insert(Thing::Equals.phrase());
                }
                Piece::Word("+-") => {
                    things.insert(Thing::PlusMinus.phrase());
                }
                Piece::Word(":") => {
                    things.insert(Thing::Colon.phrase());
                }
                Piece::Word("..") => {
                    things.insert(Thing::Range.phrase());
                }
                Piece::Word("=" | "<" | "<=" | ">" | ">=") => {
                    things.insert(Thing::Comparison.phrase());
                }
                Piece::Word(word) => {
                    words.insert(*word);
                }
                Piece::Slot(slot) => {
                    things.insert(slot.thing.phrase());
                    if slot.takes == "lead" {
                        things.insert(Thing::Capital.phrase());
                    }
                }
                _ => {
                    things.insert(Thing::Open.phrase());
                }
            }
        }
        things.extend(more_of(last).iter().map(|it| it.phrase()));
        let file = within(self.statement.place, &format!("{text} "));
        let heard = expected(FileId(0), &file, file.len()).unwrap();
        let heard_words: BTreeSet<_> = heard.words.iter().map(|it| it.text).collect();
        let heard_things: BTreeSet<_> = heard.things.iter().map(|it| it.phrase()).collect();
        if (&heard_words, &heard_things) != (&words, &things) {
            self.wrong.push(format!(
                "{text}\n  rule   {words:?} {things:?}\n  parser {heard_words:?} {heard_things:?}"
            ));
        }
        for (first, rest) in ways {
            let (written, last) = match &first {
                Piece::Word(word) => (*word, ""),
                Piece::Slot(slot) => (slot.sample, slot.takes),
                _ => continue,
            };
            self.from(format!("{text} {written}"), last, &rest);
        }
    }
}

/// What goes on with a list that has begun.
fn more_of(takes: &str) -> &'static [Thing] {
    match takes {
        "names" | "spans" | "sums" | "threads" => &[Thing::Comma],
        "sizes" => &[Thing::Comma, Thing::Range],
        _ => &[],
    }
}

/// What may come first of some pieces, each with what may follow it, and whether nothing need come.
fn ways_on(pieces: &[Piece], ways: &mut Vec<(Piece, Vec<Piece>)>) -> bool {
    let Some((first, rest)) = pieces.split_first() else {
        return true;
    };
    let with = |inner: &[Piece], rest: &[Piece]| [inner, rest].concat();
    match first {
        Piece::Optional(inner) => {
            ways_on(&with(inner, rest), ways);
            ways_on(rest, ways)
        }
        Piece::Choice(choices) => {
            let mut ends = false;
            for inner in choices {
                ends |= ways_on(&with(inner, rest), ways);
            }
            ends
        }
        Piece::Any(choices) => {
            for inner in choices {
                ways_on(&with(inner, pieces), ways);
            }
            ways_on(rest, ways)
        }
        Piece::Word(_) | Piece::Slot(_) | Piece::Block => {
            ways.push((first.clone(), rest.to_vec()));
            false
        }
    }
}
