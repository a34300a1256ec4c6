//! An input like another, but for a few strokes.

use crate::{Corpus, Dice};

/// Numbers that are awkward, and what stands where a number is expected.
const NUMBERS: &[&str] = &[
    "0",
    "-0",
    "0.0",
    "1",
    "-1",
    "0.000001",
    "0.0000001",
    "1e9",
    "999999999999",
    "2147483647",
    "9223372036854775807",
    "9223372036854775808",
    "-9223372036854775808",
    "1/0",
    "0/0",
    "1/3",
    "0.1in",
    "1/64in",
    "99999in",
    "1000000",
    "360deg",
    "180deg",
    "0deg",
    "-45deg",
    "max(1, 2)",
    "min()",
    "(((((((1)))))))",
    "1mm*1mm",
    "3g",
    "0.5ml",
    "length",
    "12.345678",
    "M0x0",
    "M1x5",
    "M13x0.8",
    "7/16-14",
    "#7",
    "letter",
    "10 H7/g6",
    "1 .. 0",
    "5 +- 9",
];

/// Signs, and letters that take one to four bytes.
const SIGNS: &[&str] = &[
    "{",
    "}",
    "(",
    ")",
    "\"",
    "--",
    ";",
    "=",
    ",",
    ".",
    "..",
    "+-",
    "<",
    ">",
    "<=",
    "*",
    "/",
    "-",
    "+",
    " ",
    "\t",
    "\n",
    "\r",
    "\r\n",
    "\n\n",
    "\u{0}",
    "\u{1b}[2J",
    "\u{7f}",
    "\u{9b}",
    "é",
    "⌀",
    "🖊",
    "\u{feff}",
    "\u{202e}",
    "\u{2028}",
    "µ",
    "½",
    "“",
    "”",
    "„",
    "±",
    "×",
    "°",
    "|",
    "\\",
    "`",
    "<b>",
    "&",
    "]]>",
    "%",
    "#",
    "@",
    "<<<<<<< ours\n",
    "=======\n",
    ">>>>>>> theirs\n",
];

/// An input made of one or two of the corpus.
pub fn mutated(corpus: &Corpus, dice: &mut Dice) -> String {
    let mut text = match dice.throw(24) {
        0 => soup(corpus, dice),
        _ => corpus
            .whole
            .get(dice.throw(corpus.whole.len()))
            .cloned()
            .unwrap_or_default(),
    };
    // A piece of a long text is read sooner, and as much goes wrong in it.
    if dice.throw(3) > 0 {
        text = piece(&text, dice);
    }
    for _ in 0..=dice.throw(1 + dice.clone().throw(9)) {
        stroke(&mut text, corpus, dice);
    }
    text
}

/// Words in no order.
fn soup(corpus: &Corpus, dice: &mut Dice) -> String {
    let count = dice.throw(60);
    let words = (0..count).map(|_| match dice.throw(8) {
        0 => SIGNS[dice.throw(SIGNS.len())],
        1 => NUMBERS[dice.throw(NUMBERS.len())],
        2 => "\n",
        _ => dice.pick(&corpus.words).map_or("", String::as_str),
    });
    words.collect::<Vec<_>>().join(" ")
}

/// Some lines on end of a text.
fn piece(text: &str, dice: &mut Dice) -> String {
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let from = dice.throw(lines.len());
    let count = 1 + dice.throw(40);
    lines.iter().skip(from).take(count).copied().collect()
}

/// One change.
fn stroke(text: &mut String, corpus: &Corpus, dice: &mut Dice) {
    let at = place(text, dice.throw(text.len() + 1));
    match dice.throw(12) {
        0 => text.insert_str(at, SIGNS[dice.throw(SIGNS.len())]),
        1 => text.insert_str(at, NUMBERS[dice.throw(NUMBERS.len())]),
        2 | 3 => {
            let end = place(text, at + dice.throw(12));
            text.replace_range(at..end, "");
        }
        4 => text.truncate(at),
        5 | 6 => exchange(text, at, dice, |dice| {
            NUMBERS[dice.throw(NUMBERS.len())].to_owned()
        }),
        7 => exchange(text, at, dice, |dice| {
            dice.pick(&corpus.words).cloned().unwrap_or_default()
        }),
        8 => {
            let line = dice.pick(&corpus.lines).cloned().unwrap_or_default();
            let at = text[..at].rfind('\n').map_or(0, |at| at + 1);
            text.insert_str(at, &(line + "\n"));
        }
        9 => twice(text, at, dice),
        10 => {
            let from = text[..at].rfind('\n').map_or(0, |at| at + 1);
            let end = text[at..].find('\n').map_or(text.len(), |end| at + end + 1);
            text.replace_range(from..end, "");
        }
        _ => many(text, at, dice),
    }
}

/// Puts something in the place of the word at a place.
fn exchange(text: &mut String, at: usize, dice: &mut Dice, new: impl FnOnce(&mut Dice) -> String) {
    let is_blank = |letter: char| letter.is_whitespace();
    let from = text[..at]
        .rfind(is_blank)
        .map_or(0, |before| place(text, before + 1));
    let end = text[at..].find(is_blank).map_or(text.len(), |end| at + end);
    let new = new(dice);
    text.replace_range(from.min(end)..end, &new);
}

/// Says a piece again.
fn twice(text: &mut String, at: usize, dice: &mut Dice) {
    let end = place(text, at + dice.throw(200));
    let piece = text[at..end].to_owned();
    let to = place(text, dice.throw(text.len() + 1));
    text.insert_str(to, &piece);
}

/// Says a short piece very often; rarely, since it takes long to read.
fn many(text: &mut String, at: usize, dice: &mut Dice) {
    let count = match dice.throw(40) {
        0 => 1 + dice.throw(400),
        _ => 1 + dice.throw(4),
    };
    let end = place(text, at + dice.throw(16));
    let piece = text[at..end].repeat(count);
    text.insert_str(at, &piece);
}

/// The start of the letter at or before an offset.
pub(crate) fn place(text: &str, offset: usize) -> usize {
    let offset = offset.min(text.len());
    let mut back = (0..=offset).rev();
    back.find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}
