//! Tokens to statements and blocks, before any statement is read.
//!
//! A statement ends at its line's end or at `;`, and a brace only ever closes what a
//! statement opened. So where one line is damaged the next is not, and a missing
//! brace costs at most the item it is missing from.

mod braces;
mod builder;

use crate::finding_log::FindingLog;
use crate::grammar::Lexeme;
use crate::token::Token;
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};

/// A file's statements and blocks.
#[derive(Debug, Default)]
pub(crate) struct Layout {
    /// The tokens of all statements, without trivia, separators and closing braces.
    pub(crate) lexemes: Vec<Lexeme>,
    /// The statements outside any block.
    pub(crate) lines: Vec<StatementLine>,
    /// Whether every brace has its mate and no item begins within another.
    pub(crate) balanced: bool,
}

/// A statement. A text may hold a million, so what is large is boxed and indices are short: no text has
/// more tokens than its offsets tell apart.
#[derive(Debug, Default)]
pub(crate) struct StatementLine {
    lexemes: Range<u32>,
    tokens: Range<u32>,
    note: Option<Range<u32>>,
    /// Its block.
    pub(crate) block: Option<Box<Block>>,
    /// Whether the parser has read it in full.
    whole: AtomicBool,
}

impl StatementLine {
    /// One that begins at a lexeme and a token, neither of which it has yet.
    pub(crate) fn begun(lexeme: usize, token: usize, note: Option<Range<usize>>) -> Self {
        Self {
            lexemes: short(lexeme..lexeme),
            tokens: short(token..token),
            note: note.map(short),
            ..Self::default()
        }
    }

    /// Takes all up to a lexeme and a token.
    pub(crate) fn reach(&mut self, lexeme: usize, token: usize) {
        self.lexemes.end = short(0..lexeme).end;
        self.tokens.end = short(0..token).end;
    }

    /// What the parser reads of it, an opening brace included; nothing where every character of
    /// it is unknown.
    pub(crate) fn lexemes(&self) -> Range<usize> {
        long(&self.lexemes)
    }

    /// Its first token and the one after its last, an opening brace included; never empty.
    pub(crate) fn tokens(&self) -> Range<usize> {
        long(&self.tokens)
    }

    /// The first and last token of the comment lines directly above it.
    pub(crate) fn note(&self) -> Option<Range<usize>> {
        self.note.as_ref().map(long)
    }

    /// Says that it has been read in full.
    pub(crate) fn set_whole(&self) {
        self.whole.store(true, Ordering::Relaxed);
    }

    /// Whether it has been read in full, so that what it says is known.
    pub(crate) fn is_whole(&self) -> bool {
        self.whole.load(Ordering::Relaxed)
    }
}

fn short(long: Range<usize>) -> Range<u32> {
    let short = |index| u32::try_from(index).unwrap_or(u32::MAX);
    short(long.start)..short(long.end)
}

fn long(short: &Range<u32>) -> Range<usize> {
    short.start as usize..short.end as usize
}

impl Layout {
    /// Whether the text ends in a statement that has not been read in full.
    pub(crate) fn breaks_off(&self) -> bool {
        let mut line = self.lines.last();
        while let Some(inner) = line.and_then(|it| it.block.as_ref()?.lines.last()) {
            line = Some(inner);
        }
        line.is_some_and(|it| !it.is_whole())
    }
}

/// What stands between braces.
#[derive(Debug, Default)]
pub(crate) struct Block {
    /// The statements within.
    pub(crate) lines: Vec<StatementLine>,
    /// The token of the closing brace, where there is one.
    pub(crate) close: Option<usize>,
}

/// Splits `tokens` of `text` into statements and blocks, and says which braces are amiss, and apart
/// from them which are open where the text ends.
pub(crate) fn layout(text: &str, tokens: &[Token]) -> (Layout, FindingLog, FindingLog) {
    let balanced = braces::are_balanced(text, tokens);
    let mut builder = builder::Builder::new(text, tokens, balanced);
    for index in 0..tokens.len() {
        builder.take(index);
    }
    builder.finish()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{FileId, token::lex};

    /// The statements with their blocks, one a line, indented by depth; then the findings.
    fn laid_out(text: &str) -> String {
        let (layout, amiss, open) = layout(text, &lex(FileId(0), text));
        let mut out = String::new();
        show(text, &layout, &layout.lines, 0, &mut out);
        for finding in FindingLog::into_findings([amiss, open]) {
            out += &format!("! {} at {:?}\n", finding.message, finding.span);
        }
        out
    }

    fn show(text: &str, layout: &Layout, lines: &[StatementLine], depth: usize, out: &mut String) {
        for line in lines {
            let words: Vec<_> = layout.lexemes[line.lexemes()]
                .iter()
                .map(|lexeme| &text[lexeme.span.range()])
                .collect();
            *out += &format!("{}{}\n", "  ".repeat(depth), words.join(" "));
            if let Some(block) = &line.block {
                show(text, layout, &block.lines, depth + 1, out);
            }
        }
    }

    #[test]
    fn a_statement_ends_at_its_line_or_semicolon() {
        insta::assert_snapshot!(laid_out("let a = 1; let b = 2\n\npart c { length 3; from x { drill 8\n} }"), @r"
        let a = 1
        let b = 2
        part c {
          length 3
          from x {
            drill 8
        ");
    }

    #[test]
    fn lines_at_the_left_edge_are_not_items_where_braces_match() {
        insta::assert_snapshot!(laid_out("part c {\nlet a = 1\n}\nlet b = 2"), @r"
        part c {
          let a = 1
        let b = 2
        ");
    }

    #[test]
    fn a_missing_brace_costs_one_item() {
        insta::assert_snapshot!(laid_out("part c {\n  length 3\n\npart d {\n  length 4\n}\nlet b = 2"), @r"
        part c {
          length 3
        part d {
          length 4
        let b = 2
        ! this { is never closed at 0:7..8
        ");
    }

    #[test]
    fn a_missing_inner_brace_is_told_by_the_indent() {
        insta::assert_snapshot!(laid_out("part c {\n  outside {\n    at 0 dia 3\n  from x {\n    drill 8\n  }\n}\npen d {\n}"), @r"
        part c {
          outside {
            at 0 dia 3
          from x {
            drill 8
        pen d {
        ! this { is never closed at 0:19..20
        ");
    }

    #[test]
    fn a_brace_too_many_is_found() {
        insta::assert_snapshot!(laid_out("part c {\n}\n}\nlet b = 2\n"), @r"
        part c {
        let b = 2
        ! this } closes nothing at 0:11..12
        ");
    }

    #[test]
    fn braces_may_stand_anywhere_at_the_price_of_a_finding() {
        insta::assert_snapshot!(laid_out("part c\n{\n  length 3 } let b = 2\n\n{{{{{{ x"), @r"
        part c {
          length 3
        let b = 2
        {
          {
            {
        ! the { belongs at the end of the line above at 0:7..8
        ! a new line is expected after } at 0:20..21
        ! this { is never closed at 0:33..34
        ! braces lie too deep in one another; a block in a block is the deepest there is at 0:36..37
        ");
    }
}
