//! Faults in a maker's words.

mod guess;

use crate::grammar::expect::{ExpectSet, Thing};
use crate::grammar::input::{FaultKind, SyntaxFault};
use crate::grammar::{self, Lexeme, Place, WordId};

use crate::finding_log::error;
use crate::number::{MOST_DIGITS, NumberFault};
use crate::suggest::nearest;
use crate::token::TokenKind;
use crate::{Finding, Span};

/// A statement in which something is amiss.
pub(super) struct Statement<'s> {
    pub(super) text: &'s str,
    pub(super) place: Place,
    /// Its lexemes; never empty.
    pub(super) lexemes: &'s [Lexeme],
}

/// A word that stands where a near one was expected.
pub(super) struct NearWord<'s> {
    pub(super) lexeme: &'s Lexeme,
    pub(super) meant: WordId,
}

impl<'s> Statement<'s> {
    /// The word at the fault, if a slip of the pen explains it.
    pub(super) fn slip(&self, fault: &SyntaxFault) -> Option<NearWord<'s>> {
        let FaultKind::Expected(set) = fault.kind else {
            return None;
        };
        let lexeme = self.found(fault)?;
        if !matches!(lexeme.kind, TokenKind::Name | TokenKind::BadName) {
            return None;
        }
        let meant = nearest(self.written(lexeme.span), set.words().map(WordId::text))?;
        Some(NearWord {
            lexeme,
            meant: WordId::of(meant),
        })
    }

    /// The finding for a slip.
    pub(super) fn slip_finding(&self, slip: &NearWord) -> Finding {
        let (found, meant) = (self.written(slip.lexeme.span), slip.meant.text());
        let first = slip.lexeme.span == self.lexemes[0].span;
        let message = match self.place.noun().filter(|_| first) {
            Some(noun) => format!("{found} begins no {noun}"),
            None => format!("{found} is no word that may stand here"),
        };
        let finding = error(slip.lexeme.span, message);
        let runs_on = found
            .strip_prefix(meant)
            .is_some_and(|rest| !rest.is_empty() && rest.bytes().all(|it| it.is_ascii_digit()));
        if runs_on {
            return self.run_on(finding, slip.lexeme, meant);
        }
        finding
            .hint(format!("write {meant}"))
            .fix(format!("write {meant}"), slip.lexeme.span, meant)
            .mending()
    }

    /// The finding for a fault.
    pub(super) fn finding(&self, fault: &SyntaxFault) -> Finding {
        match fault.kind {
            FaultKind::Number(kind) => self.number(fault.span, kind),
            FaultKind::Expected(set) => self.expected(fault, set),
        }
    }

    fn number(&self, span: Span, fault: NumberFault) -> Finding {
        let number = self.written(span);
        match fault {
            NumberFault::TooManyDigits => error(span, "a number has too many digits").hint(
                format!("at most {MOST_DIGITS} digits stand before the point and as many after it"),
            ),
            NumberFault::OverZero => error(span, format!("{number} is a fraction over nothing"))
                .hint("write a denominator other than 0"),
            NumberFault::PartedUnit => {
                let parted = number.split_once(char::is_whitespace);
                let (digits, unit) = parted.unwrap_or((number, ""));
                let unit = unit.trim_start();
                let together = format!("{digits}{unit}");
                error(span, format!("{unit} stands apart from its number"))
                    .hint(format!("write {together}"))
                    .fix(format!("write {together}"), span, together)
                    .mending()
            }
        }
    }

    fn expected(&self, fault: &SyntaxFault, set: ExpectSet) -> Finding {
        let index = self.index(fault.span);
        let found = self.lexemes.get(index);
        let Some(before) = index
            .checked_sub(1)
            .and_then(|index| self.lexemes.get(index))
        else {
            return self.no_such_line(set);
        };
        let after = self.shown(before.span);
        let Some(found) = found else {
            // Something visible is pointed at rather than the end of the line.
            let message = format!("{} is expected after {after}", phrases(set));
            let finding = self.with_example(error(before.span, message));
            return match set.things().any(|it| it == Thing::Open) {
                true => finding.fix("open its block", before.span.after(), " {"),
                false => finding,
            };
        };
        let not = self.shown(found.span);
        if only_line_end(set) && !self.is_decimal_comma(index) {
            let finding = error(found.span, format!("{not} has no place after {after}"));
            return match found.kind {
                TokenKind::Open => finding.hint("this statement has no block of its own"),
                _ => finding.hint("begin a new line for a new statement"),
            };
        }
        if self.is_decimal_comma(index) {
            return error(found.span, "a comma stands before the decimals")
                .hint("write the decimals after a point")
                .fix("write a point", found.span, ".")
                .mending();
        }
        let message = format!("{} is expected after {after}, not {not}", phrases(set));
        if found.kind == TokenKind::Capital && set.things().any(|it| it == Thing::Size) {
            let letter = format!("letter {}", self.written(found.span));
            return error(found.span, message)
                .hint(format!("a letter drill is written {letter}"))
                .fix(format!("write {letter}"), found.span, letter)
                .mending();
        }
        let finding = self.with_example(error(found.span, message));
        self.guesses(finding, index, set)
    }

    /// Shows how a statement with this first word is written.
    fn with_example(&self, finding: Finding) -> Finding {
        let first = self.lexemes[0].word.get().text();
        match grammar::at(self.place).find(|word| word.text == first) {
            Some(word) => finding.hint(format!("for example: {}", word.example)),
            None => finding,
        }
    }

    /// The first word of the statement is none that may stand there.
    fn no_such_line(&self, set: ExpectSet) -> Finding {
        let first = &self.lexemes[0];
        if let Some(next) = self.lexemes.get(1)
            && matches!(
                (first.kind, next.kind),
                (TokenKind::Slash, TokenKind::Slash | TokenKind::Star)
            )
        {
            let both = first.span.to(next.span);
            return error(both, format!("{} begins no comment", self.written(both)))
                .hint("a comment begins with -- and ends with its line")
                .fix("write --", both, "--")
                .mending();
        }
        let found = &*self.shown(first.span);
        let noun = self.place.noun().unwrap_or("line");
        let elsewhere = grammar::meanings(found).find_map(|word| word.place.noun());
        let message = match elsewhere {
            Some(own) => format!("{found} begins {} and this is no place for one", a(own)),
            None => format!("{found} begins no {noun}"),
        };
        let words: Vec<_> = grammar::at(self.place)
            .map(|word| word.text)
            .filter(|text| set.words().any(|word| word.text() == *text))
            .collect();
        let list = match words.is_empty() {
            true => phrases(set),
            false => either(&words),
        };
        let finding = error(first.span, message);
        let finding = finding.hint(format!("{} begins with {list}", a(noun)));
        self.parted(finding, first, set)
    }

    /// What stands at a fault; none where the statement ends there.
    pub(super) fn found(&self, fault: &SyntaxFault) -> Option<&'s Lexeme> {
        self.lexemes.get(self.index(fault.span))
    }

    /// Which lexeme a span begins at; past the last one at the end.
    fn index(&self, span: Span) -> usize {
        match span.is_empty() {
            true => self
                .lexemes
                .partition_point(|lexeme| lexeme.span.end <= span.start),
            false => self
                .lexemes
                .partition_point(|lexeme| lexeme.span.start < span.start),
        }
    }

    /// Whether the lexeme at `index` is a comma that touches a number, or a thread, on either side.
    fn is_decimal_comma(&self, index: usize) -> bool {
        let touching = |a: usize, b: usize| match (self.lexemes.get(a), self.lexemes.get(b)) {
            (Some(a), Some(b)) => a.span.end == b.span.start,
            _ => false,
        };
        let number = |index: usize| {
            let kind = self.lexemes.get(index).map(|lexeme| lexeme.kind);
            matches!(kind, Some(TokenKind::Quantity | TokenKind::Thread))
        };
        index > 0
            && self
                .lexemes
                .get(index)
                .is_some_and(|lexeme| lexeme.kind == TokenKind::Comma)
            && number(index - 1)
            && number(index + 1)
            && touching(index - 1, index)
            && touching(index, index + 1)
    }

    /// The text at a span; signs in quotes, so that they stand out from the sentence's own.
    fn shown(&self, span: Span) -> String {
        let text = self.written(span);
        match text.chars().all(|c| c.is_ascii_punctuation()) {
            true => format!("'{text}'"),
            false => text.to_owned(),
        }
    }

    fn written(&self, span: Span) -> &'s str {
        let text = self.text.get(span.range()).unwrap_or("");
        // A string may be a page long.
        match text.char_indices().nth(40) {
            Some((end, _)) => &text[..end],
            None => text,
        }
    }
}

fn only_line_end(set: ExpectSet) -> bool {
    set.words().next().is_none() && set.things().all(|thing| thing == Thing::LineEnd)
}

/// A noun with its article.
fn a(noun: &str) -> String {
    match noun.starts_with(['a', 'e', 'i', 'o', 'u']) {
        true => format!("an {noun}"),
        false => format!("a {noun}"),
    }
}

/// The things and words of a set as one phrase.
fn phrases(set: ExpectSet) -> String {
    let things = set.things().filter(|thing| *thing != Thing::LineEnd);
    let end = set.things().find(|thing| *thing == Thing::LineEnd);
    let all: Vec<_> = things
        .map(Thing::phrase)
        .chain(set.words().map(WordId::text))
        .chain(end.map(Thing::phrase))
        .collect();
    either(&all)
}

/// `a, b or c`
fn either(all: &[&str]) -> String {
    match all {
        [] => "something else".to_owned(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}
