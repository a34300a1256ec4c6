//! What the language is made of: its statements, how each is written, and its own words.
//!
//! Each block's statements stand in one file below `grammar/statements/`. What is expected, "did
//! you mean", completion, help while typing, the editors' grammars, the manual's summary and
//! `grammar.ebnf` are all made from what stands there.

pub(crate) mod expect;
pub(crate) mod expr;
mod form;
pub(crate) mod input;
mod slots;
pub(crate) mod statements;

pub use expect::Thing;
pub use form::Piece;
pub use slots::{Slot, slots};
pub use statements::{Statement, statement_of, statements};

use crate::Span;
use crate::token::TokenKind;
use statements::*;
use std::sync::LazyLock;
use std::sync::atomic::{AtomicU8, Ordering};

/// Every word of the language, by place, in the manual's order: those that begin a statement, and
/// those that go on in one.
pub static WORDS: LazyLock<Vec<Word>> = LazyLock::new(|| {
    let beginning = statements().map(|it| Word {
        place: it.place,
        text: it.word(),
        help: it.help,
        example: it.example,
    });
    let going_on = [
        item::WORDS,
        material::WORDS,
        part::WORDS,
        station::WORDS,
        cut::WORDS,
        side::WORDS,
        pen::WORDS,
        joint::WORDS,
        shared::WORDS,
        bench::WORDS,
        shelf::WORDS,
        made::WORDS,
        sum::WORDS,
    ];
    let going_on = going_on.into_iter().flatten().copied();
    let mut words: Vec<Word> = beginning.chain(going_on).collect();
    words.sort_by_key(|word| word.place);
    words
});

/// One word at one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Word {
    /// Where it is read.
    pub place: Place,
    /// The word as written.
    pub text: &'static str,
    /// One sentence that says what it means there, without a full stop.
    pub help: &'static str,
    /// One line that uses it.
    pub example: &'static str,
}

/// The places at which words are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// The first line of a file.
    File,
    /// The first word of an item.
    Item,
    /// The header of an item, after its name.
    Header,
    /// A line of a material.
    Material,
    /// What else a material's line says.
    MaterialTail,
    /// After a thread's designation.
    Form,
    /// A piece of stock.
    Stock,
    /// A line of a part.
    Part,
    /// After the first words of a part's line.
    PartTail,
    /// The first word of a station, or of an outside without stations.
    Station,
    /// After a station's diameter, and before it.
    StationTail,
    /// The first word of a cut.
    Cut,
    /// How far a cut goes.
    Reach,
    /// What else a cut says.
    CutTail,
    /// A size of drill that is a letter.
    Size,
    /// The first word of a cut from the side.
    Side,
    /// What else a cut from the side says.
    SideTail,
    /// A line of a pen.
    Pen,
    /// After a joint's first face.
    Joint,
    /// An option of a joint.
    JointTail,
    /// A line of a joint's block.
    JointLine,
    /// After `seat`'s first face.
    SeatTail,
    /// After what is wanted.
    Want,
    /// After an accepted rule.
    Accept,
    /// A line of a bench.
    Bench,
    /// What else a bench's line says.
    BenchTail,
    /// A line of a shelf.
    Shelf,
    /// What else a shelf's line says.
    ShelfTail,
    /// A line of what was made.
    Made,
    /// What the header of what was made says.
    MadeTail,
    /// Touching a number.
    Unit,
    /// A measure or a function in a sum.
    Measure,
    /// The state of a pen, in a measure.
    Configuration,
}

impl Place {
    /// What a line is that begins with none of this place's words: "this line is no cut".
    pub fn noun(self) -> Option<&'static str> {
        Some(match self {
            Place::Item => "item",
            Place::Material => "line of a material",
            Place::Part => "line of a part",
            Place::Station => "station",
            Place::Cut => "cut",
            Place::Side => "cut from the side",
            Place::Pen => "line of a pen",
            Place::JointLine => "line of a joint",
            Place::Bench => "line of a bench",
            Place::Shelf => "line of a shelf",
            Place::Made => "line of what was made",
            _ => return None,
        })
    }
}

/// The words read at a place, in the manual's order.
pub fn at(place: Place) -> impl Iterator<Item = &'static Word> {
    WORDS.iter().filter(move |word| word.place == place)
}

/// What a word means, at each place where it is read.
pub fn meanings(text: &str) -> impl Iterator<Item = &'static Word> {
    WORDS.iter().filter(move |word| word.text == text)
}

/// Whether a word joins the phrases of a statement, as `to` or `smooth`, so that it is seldom a name.
pub fn joins(text: &str) -> bool {
    WordId::of(text).joins()
}

/// The words that are never names, wherever they stand.
pub const RESERVED: [&str; 3] = ["of", "for", "letter"];

/// A word of the language by number, so that the parser compares numbers and not text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) struct WordId(u8);

/// A token the parser reads, with its number if it is a word of the language.
#[derive(Clone, Debug)]
pub(crate) struct Lexeme {
    pub(crate) kind: TokenKind,
    /// Changed where a misspelt word is read as the one that was meant.
    pub(crate) word: WordCell,
    pub(crate) span: Span,
}

/// A word that may still be changed, by one reader at a time: a tree is shared between threads.
#[derive(Debug)]
pub(crate) struct WordCell(AtomicU8);

impl WordCell {
    pub(crate) fn new(word: WordId) -> Self {
        WordCell(AtomicU8::new(word.0))
    }

    pub(crate) fn get(&self) -> WordId {
        WordId(self.0.load(Ordering::Relaxed))
    }

    pub(crate) fn set(&self, word: WordId) {
        self.0.store(word.0, Ordering::Relaxed);
    }
}

impl Clone for WordCell {
    fn clone(&self) -> Self {
        WordCell::new(self.get())
    }
}

impl WordId {
    /// No word of the language.
    pub(crate) const NONE: WordId = WordId(u8::MAX);

    /// The number of a text, or `NONE`.
    pub(crate) fn of(text: &str) -> WordId {
        let first = text.bytes().next().map(|it| it.to_ascii_lowercase());
        let Some(letter @ b'a'..=b'z') = first else {
            return WordId::NONE;
        };
        let words = BY_LETTER[usize::from(letter - b'a')].iter();
        let mut same = words.filter(|(word, _)| *word == text);
        same.next().map_or(WordId::NONE, |(_, id)| *id)
    }

    /// Its text; empty for `NONE`.
    pub(crate) fn text(self) -> &'static str {
        TEXTS.get(usize::from(self.0)).copied().unwrap_or("")
    }

    /// Its number among the words.
    pub(crate) fn index(self) -> u32 {
        u32::from(self.0)
    }

    /// The word of a number that `index` gave.
    pub(crate) fn from_index(index: u32) -> WordId {
        u8::try_from(index).map_or(WordId::NONE, WordId)
    }

    /// Whether it joins the phrases of a statement, as `to`, so that it is seldom a name.
    pub(crate) fn joins(self) -> bool {
        use Place::*;
        const JOINING: [Place; 16] = [
            Header,
            MaterialTail,
            Form,
            Stock,
            PartTail,
            StationTail,
            Reach,
            CutTail,
            SideTail,
            Joint,
            JointTail,
            SeatTail,
            Want,
            Accept,
            ShelfTail,
            MadeTail,
        ];
        meanings(self.text()).any(|word| JOINING.contains(&word.place))
    }

    /// Whether it may never be a name.
    pub(crate) fn is_reserved(self) -> bool {
        self != WordId::NONE && RESERVED.contains(&self.text())
    }
}

/// Every text once, in the order of the table.
static TEXTS: LazyLock<Vec<&'static str>> = LazyLock::new(|| {
    let mut texts = Vec::new();
    for word in WORDS.iter() {
        if !texts.contains(&word.text) {
            texts.push(word.text);
        }
    }
    texts
});

/// Every text once with its number, by its first letter: every name of a file is looked up.
static BY_LETTER: LazyLock<[Vec<(&'static str, WordId)>; 26]> = LazyLock::new(|| {
    let mut words = std::array::from_fn(|_| Vec::new());
    for (text, id) in TEXTS.iter().copied().zip((0..).map(WordId::from_index)) {
        words[usize::from(text.as_bytes()[0].to_ascii_lowercase() - b'a')].push((text, id));
    }
    words
});

#[cfg(test)]
mod tests;
