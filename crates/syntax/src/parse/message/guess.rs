//! What may have been meant where something else stands.

use super::Statement;
use crate::grammar::Lexeme;
use crate::grammar::expect::{ExpectSet, Thing};
use crate::token::TokenKind;
use crate::{Edit, Finding, Span};

/// Of more words that may have been left out, none is guessed.
const MOST_GUESSED: usize = 3;

impl Statement<'_> {
    /// A finding with what may have been meant by the lexeme at `index`, which is not the first: a
    /// word left out, a sign too many, left out or turned round, two things that belong together.
    pub(super) fn guesses(&self, finding: Finding, index: usize, set: ExpectSet) -> Finding {
        let (Some(before), Some(found)) = (self.lexemes.get(index - 1), self.lexemes.get(index))
        else {
            return finding;
        };
        let finding = self.words_left_out(finding, found, set);
        let finding = self.parted(finding, found, set);
        let finding = self.equals(finding, found, set);
        let finding = self.in_pieces(finding, index, before, found);
        self.signs(finding, before.span, found.span)
    }

    fn words_left_out(&self, finding: Finding, found: &Lexeme, set: ExpectSet) -> Finding {
        let missing: Vec<&str> = set.words().map(|word| word.text()).collect();
        if missing.len() > MOST_GUESSED {
            return finding;
        }
        missing.into_iter().fold(finding, |finding, word| {
            finding.fix(format!("write {word}"), found.span, word).fix(
                format!("write {word} before it"),
                found.span.before(),
                format!("{word} "),
            )
        })
    }

    /// A word that runs into its number: `rod18`.
    pub(super) fn parted(&self, finding: Finding, found: &Lexeme, set: ExpectSet) -> Finding {
        let written = self.written(found.span);
        let word = written.trim_end_matches(|letter: char| letter.is_ascii_digit());
        let runs_on = !word.is_empty() && word.len() < written.len();
        if !runs_on || !set.words().any(|it| it.text() == word) {
            return finding;
        }
        self.run_on(finding, found, word)
    }

    /// Parts a word from the number that it runs into.
    pub(super) fn run_on(&self, finding: Finding, found: &Lexeme, word: &str) -> Finding {
        let number = &self.written(found.span)[word.len()..];
        let at = found.span.range().start + word.len();
        let gap = Span::new(found.span.file, at, at);
        let title = format!("write {word} {number}");
        finding.hint(title.clone()).fix(title, gap, " ").mending()
    }

    fn equals(&self, finding: Finding, found: &Lexeme, set: ExpectSet) -> Finding {
        let wanted = set.things().any(|it| it == Thing::Equals);
        match (wanted, found.kind == TokenKind::Equals) {
            (true, false) => finding.fix("write = before it", found.span.before(), "= "),
            (false, true) => finding.fix("take = out", found.span, "").mending(),
            _ => finding,
        }
    }

    /// One thing that was written in pieces: `M10 x 0.75`, `.452`, `1 3/10`, `#2O`.
    fn in_pieces(
        &self,
        finding: Finding,
        index: usize,
        before: &Lexeme,
        found: &Lexeme,
    ) -> Finding {
        let next = self.lexemes.get(index + 1);
        let (one, other) = (self.written(before.span), self.written(found.span));
        let touches = before.span.end == found.span.start;
        let whole = match (before.kind, found.kind, next) {
            (TokenKind::Thread, TokenKind::Name, Some(pitch)) if other == "x" => {
                let whole = format!("{one}x{}", self.written(pitch.span));
                (before.span.to(pitch.span), whole)
            }
            (_, TokenKind::Dot, Some(next)) if next.kind == TokenKind::Quantity => {
                let whole = format!("0.{}", self.written(next.span));
                (found.span.to(next.span), whole)
            }
            (TokenKind::Quantity, TokenKind::Quantity, _) if other.contains('/') => {
                (before.span.to(found.span), format!("{one}-{other}"))
            }
            (TokenKind::Gauge, TokenKind::Capital, _) if touches && other == "O" => {
                (before.span.to(found.span), format!("{one}0"))
            }
            _ => return finding,
        };
        let (span, text) = whole;
        let title = format!("write {text}");
        finding
            .fix_all(title, vec![Edit::new(span, text)])
            .mending()
    }

    /// Two signs parted or turned round, or one sign too many.
    fn signs(&self, finding: Finding, before: Span, found: Span) -> Finding {
        let (one, other) = (self.written(before), self.written(found));
        let is_sign = |text: &str| text.chars().all(|c| c.is_ascii_punctuation());
        if !is_sign(one) || !is_sign(other) {
            return finding;
        }
        let both = match (one, other) {
            ("=", "<" | ">") => format!("{other}{one}"),
            _ => format!("{one}{other}"),
        };
        finding
            .fix(format!("write {both}"), before.to(found), both)
            .fix(format!("take {other} out"), found, "")
    }
}
