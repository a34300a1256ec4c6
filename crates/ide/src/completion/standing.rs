//! What stands already in the block at the cursor: what it cannot do without and lacks comes first, what
//! it has once is not offered again, what judges the whole comes last.

use super::CompletionContext;
use quillet_syntax::TokenKind;
use quillet_syntax::ast::ItemKind;
use quillet_syntax::grammar::Place;

/// The lines of the block at the cursor, that at the cursor left out, and whose block it is.
pub(super) struct Standing<'a> {
    place: Place,
    owner: Owner,
    /// The first two words of each.
    lines: Vec<(&'a str, &'a str)>,
}

/// Whose block it is, as far as it tells what may stand there.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Owner {
    Cut,
    Bought,
    /// What is like another has its lines, and says what is otherwise.
    Like,
    Other,
}

/// How likely a line is the next one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Likelihood {
    /// The block cannot do without it, and lacks it.
    Lacking,
    Usual,
    /// It judges the whole, or says what the whole rests on.
    Late,
}

/// Of a row: the block, its owner where that matters, the words.
type Row = (Place, Option<Owner>, &'static [&'static str]);

/// What a block cannot do without, in the order in which it is written.
const NEEDED: &[Row] = &[
    (
        Place::Part,
        Some(Owner::Cut),
        &["blank", "length", "outside", "from"],
    ),
    (Place::Part, Some(Owner::Bought), &["length", "outside"]),
    (Place::Material, None, &["kind"]),
    (Place::JointLine, None, &["seat"]),
    (Place::Pen, Some(Owner::Like), &["let"]),
];

/// What a block has once; what is said a second time is an error, or the first is not taken.
const ONCE: &[Row] = &[
    (
        Place::Part,
        None,
        &[
            "length", "outside", "side", "finish", "mass", "holds", "ring", "arm", "pulls",
            "grips", "bench",
        ],
    ),
    (
        Place::Material,
        None,
        &[
            "kind", "density", "wall", "speed", "modulus", "strain", "mix", "pigment", "colour",
        ],
    ),
    (Place::JointLine, None, &["seat", "flush"]),
    (Place::Pen, None, &["bench", "fill"]),
    (Place::Bench, None, &["saw", "lathe", "caliper"]),
    (Place::Shelf, None, &["rate"]),
];

/// What is an error in the block of such an item.
const NEVER: &[Row] = &[
    (
        Place::Part,
        Some(Owner::Cut),
        &["mass", "holds", "ring", "arm", "throw", "pulls", "grips"],
    ),
    (
        Place::Part,
        Some(Owner::Bought),
        &["blank", "side", "finish"],
    ),
];

const LATE: [&str; 4] = ["want", "accept", "limit", "let"];

impl<'a> Standing<'a> {
    /// What stands in the block in which the cursor begins a line.
    pub(super) fn of(at: CompletionContext<'a>) -> Self {
        let owner = match at.item().map(|item| &item.kind) {
            Some(ItemKind::Part(part) | ItemKind::Bought(part)) if part.like.is_some() => {
                Owner::Like
            }
            Some(ItemKind::Pen(pen)) if pen.like.is_some() => Owner::Like,
            Some(ItemKind::Part(_)) => Owner::Cut,
            Some(ItemKind::Bought(_)) => Owner::Bought,
            _ => Owner::Other,
        };
        Self {
            place: at.expected.place,
            owner,
            lines: lines(at),
        }
    }

    /// How likely a line that begins with a word is the next; none where it cannot be.
    pub(super) fn likelihood(&self, word: &str) -> Option<Likelihood> {
        let stands = self.lines.iter().any(|(first, _)| *first == word);
        if self.says(NEVER, word) || (stands && self.says(ONCE, word)) {
            return None;
        }
        Some(match self.place {
            _ if !stands && self.says(NEEDED, word) => Likelihood::Lacking,
            // At the top a file's quantities are as usual as its parts.
            Place::Item if word != "limit" => Likelihood::Usual,
            _ if LATE.contains(&word) => Likelihood::Late,
            _ => Likelihood::Usual,
        })
    }

    /// Whether a block of this kind has a line such as `from mouth`.
    pub(super) fn has(&self, first: &str, second: &str) -> bool {
        self.lines.contains(&(first, second))
    }

    fn says(&self, rows: &[Row], word: &str) -> bool {
        let here = |(place, owner, _): &&Row| {
            *place == self.place && owner.is_none_or(|it| it == self.owner)
        };
        rows.iter()
            .filter(here)
            .any(|(.., words)| words.contains(&word))
    }
}

/// The first two words of each line of the block at the cursor, by the braces alone: the text around it
/// is half written.
fn lines(at: CompletionContext<'_>) -> Vec<(&str, &str)> {
    let tokens = &at.cursor.file.parsed.tokens;
    let here = at.expected.word;
    let before = tokens.partition_point(|token| token.span.end <= here.start);
    let mut depth = 0_usize;
    let open = tokens[..before].iter().rposition(|token| {
        match token.kind {
            TokenKind::Close => depth += 1,
            TokenKind::Open if depth == 0 => return true,
            TokenKind::Open => depth -= 1,
            _ => {}
        }
        false
    });
    let mut lines: Vec<(&str, &str)> = Vec::new();
    let (mut depth, mut words, mut own) = (0_usize, 0, false);
    for token in &tokens[open.map_or(0, |at| at + 1)..] {
        match token.kind {
            TokenKind::Open => depth += 1,
            TokenKind::Close if depth == 0 => break,
            TokenKind::Close => {
                depth -= 1;
                words = 0;
            }
            kind if depth > 0 || kind.is_trivia() => {}
            kind if kind.is_separator() => words = 0,
            _ => {
                let word = at.cursor.text(token.span);
                match (words, lines.last_mut()) {
                    (0, _) => {
                        own = token.span.touches(here.end as usize);
                        if !own {
                            lines.push((word, ""));
                        }
                    }
                    (1, Some(line)) if !own => line.1 = word,
                    _ => {}
                }
                words += 1;
            }
        }
    }
    lines
}
