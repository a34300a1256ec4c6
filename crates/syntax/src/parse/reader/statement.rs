//! Reads one statement, and reads it again as it was meant where it is not as it should be.

use super::{ExpectationProbe, Expectations, Reader, Rules};
use crate::finding_log::error;
use crate::grammar::expect::{Expect, ExpectSet, Thing};
use crate::grammar::input::{FaultKind, ParserState, Rule, SyntaxFault, input};
use crate::grammar::{Lexeme, Place};
use crate::layout::StatementLine;
use crate::parse::message::Statement;
use crate::token::TokenKind;
use crate::{Finding, Span};
use chumsky::inspector::SimpleState;
use chumsky::prelude::*;

/// Sums nest no deeper than this, and hold no more operators and parentheses in all.
const DEEPEST_SUM: usize = 32;
const LONGEST_SUM: usize = 200;

/// A statement is put right in at most so many places before it is given up.
const MOST_SLIPS: usize = 3;

/// What lacks of a statement that reads well without a block, and has one all the same: its opening
/// brace.
fn missing_brace(line: &StatementLine, lexemes: &[Lexeme]) -> Option<SyntaxFault> {
    line.block.as_ref()?;
    let last = lexemes.last().filter(|it| it.kind != TokenKind::Open)?;
    Some(SyntaxFault {
        span: last.span.after(),
        kind: FaultKind::Expected(ExpectSet::of(Expect::Thing(Thing::Open))),
    })
}

impl<'s> Reader<'s> {
    /// Reads one statement without its block; what is amiss in it becomes findings.
    pub(super) fn statement<T>(
        &mut self,
        rule: impl for<'r> Fn(&'r Rules<'s>) -> &'r Rule<'s, T>,
        place: Place,
        line: &StatementLine,
    ) -> Option<T> {
        let lexemes = &self.lexemes[line.lexemes()];
        if lexemes.is_empty() {
            return None;
        }
        if let Some(finding) = too_deep(lexemes) {
            self.log.push(|| finding);
            return None;
        }
        let statement = Statement {
            text: self.text,
            place,
            lexemes,
        };
        let tokens = &self.tokens[line.tokens()];
        let miswritten = tokens.iter().any(|token| token.kind.is_damaged());
        self.listen(rule(&self.rules).clone(), place, lexemes);
        for slips in 0..MOST_SLIPS {
            let (value, faults) = self.attempt(rule(&self.rules), lexemes);
            let numbers = faults
                .iter()
                .filter(|fault| matches!(fault.kind, FaultKind::Number(_)));
            let unexpected = faults
                .iter()
                .find(|fault| matches!(fault.kind, FaultKind::Expected(_)));
            if slips == 0 && faults.is_empty() && !miswritten {
                line.set_whole();
                if let Some(fault) = missing_brace(line, lexemes) {
                    self.log.push(|| statement.finding(&fault));
                }
            }
            let slip = unexpected.filter(|_| !self.log.is_full());
            match slip.and_then(|fault| statement.slip(fault)) {
                Some(slip) => {
                    self.log.push(|| statement.slip_finding(&slip));
                    slip.lexeme.word.set(slip.meant);
                }
                None => {
                    // What the lexer has found explains the rest; and where a slip is told already,
                    // what a statement that ends too soon still lacks is not.
                    let explained = |fault: &SyntaxFault| {
                        miswritten || (slips > 0 && statement.found(fault).is_none())
                    };
                    let reported = unexpected
                        .filter(|fault| !explained(fault))
                        .into_iter()
                        .chain(numbers);
                    for fault in reported {
                        self.log.push(|| statement.finding(fault));
                    }
                    return value;
                }
            }
        }
        self.attempt(rule(&self.rules), lexemes).0
    }

    /// Notes what was expected where it is listened for, if that is in this statement.
    fn listen<T>(&mut self, rule: Rule<'s, T>, place: Place, lexemes: &'s [Lexeme]) {
        let Some(at) = self.listening.as_ref().map(|listening| listening.at) else {
            return;
        };
        let Some(index) = lexemes.iter().position(|lexeme| lexeme.span.start == at) else {
            return;
        };
        let mut set = ExpectSet::default();
        for strict in [false, true] {
            // Faults after the first come of reading on as if what is missing were there.
            let faults = self.attempt_with(&rule, lexemes, strict).1;
            let first = faults.iter().find(|fault| fault.span.start == at);
            if let Some(FaultKind::Expected(expected)) = first.map(|fault| fault.kind) {
                set = set.join(expected);
            }
        }
        let heard = Expectations { place, index, set };
        self.listening = Some(ExpectationProbe {
            at,
            heard: Some(heard),
        });
    }

    /// Reads a statement, and if that fails reads it again with fewer words allowed as names,
    /// which often says better what is missing.
    fn attempt<T>(
        &self,
        rule: &Rule<'s, T>,
        lexemes: &'s [Lexeme],
    ) -> (Option<T>, Vec<SyntaxFault>) {
        let lenient = self.attempt_with(rule, lexemes, false);
        let first = |faults: &[SyntaxFault]| faults.iter().map(|fault| fault.span).min();
        if lenient.1.is_empty() || self.log.is_full() {
            return lenient;
        }
        let strict = self.attempt_with(rule, lexemes, true);
        match first(&strict.1) < first(&lenient.1) {
            true => strict,
            false => lenient,
        }
    }

    fn attempt_with<T>(
        &self,
        rule: &Rule<'s, T>,
        lexemes: &'s [Lexeme],
        strict: bool,
    ) -> (Option<T>, Vec<SyntaxFault>) {
        let end = lexemes.last().map(|last| last.span.after());
        let end = end.unwrap_or(Span::new(self.file, 0, 0));
        let reading = ParserState {
            text: self.text,
            strict,
        };
        let mut state = SimpleState(reading);
        rule.parse_with_state(input(lexemes, end), &mut state)
            .into_output_errors()
    }
}

/// A statement whose sums nest or run on past all use is not read: reading it would cost more
/// stack than there may be.
fn too_deep(lexemes: &[Lexeme]) -> Option<Finding> {
    let mut depth = 0_usize;
    let mut length = 0_usize;
    for lexeme in lexemes {
        match lexeme.kind {
            TokenKind::OpenParen => depth += 1,
            TokenKind::CloseParen => depth = depth.saturating_sub(1),
            TokenKind::Plus | TokenKind::Minus | TokenKind::Star | TokenKind::Slash => {}
            _ => continue,
        }
        length += 1;
        if depth > DEEPEST_SUM || length > LONGEST_SUM {
            let message = format!(
                "this sum is too deep or too long to read; parentheses nest {DEEPEST_SUM} deep at \
                 most, with {LONGEST_SUM} signs on a line"
            );
            return Some(error(lexeme.span, message).hint("name a part of it with let"));
        }
    }
    None
}
