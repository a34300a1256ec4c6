//! Blocks as they open and close, and braces that stand where they are not looked for.

use super::super::braces::DEEPEST;
use super::super::{Block, StatementLine};
use super::{Builder, gap, last_token};
use crate::Span;
use crate::finding_log::error;
use crate::grammar::statements::wants_block;
use crate::token::TokenKind;

/// A block whose closing brace has not come yet, with the statement it belongs to.
pub(super) struct Open {
    pub(super) head: StatementLine,
    pub(super) lines: Vec<StatementLine>,
    pub(super) brace: Span,
    /// The indent of the line that the statement began on.
    pub(super) indent: usize,
    /// The indent of the first line within.
    pub(super) within: Option<usize>,
}

impl<'t> Builder<'t> {
    pub(super) fn open(&mut self, index: usize, span: Span) {
        if self.open.len() >= DEEPEST {
            if self.ignored == 0 {
                let text = "braces lie too deep in one another; a block in a block is the deepest \
                            there is";
                self.log.push(|| error(span, text));
            }
            self.ignored += 1;
            return;
        }
        if self.line.tokens().is_empty() {
            self.reopen_line_above(span);
        }
        self.begin_line(index, span);
        self.push(index, TokenKind::Open, span);
        let head = std::mem::take(&mut self.line);
        self.open.push(Open {
            head,
            lines: Vec::new(),
            brace: span,
            indent: self.place.statement_indent,
            within: None,
        });
    }

    /// Where braces do not match, a line that stands further in than the one above, and that one
    /// wants a block, is in its block, whose brace is missing.
    pub(super) fn open_line_above(&mut self) {
        let (text, tokens) = (self.text, self.tokens);
        let (indent, within) = (self.place.statement_indent, self.place.indent);
        let wants_block = |line: &mut StatementLine| {
            let first = &text[tokens[line.tokens().start].span.range()];
            line.block.is_none() && wants_block(first, line.lexemes().len() == 1)
        };
        if within <= indent || self.open.len() >= DEEPEST {
            return;
        }
        let Some(head) = self.lines_here().pop_if(wants_block) else {
            return;
        };
        let brace = self.tokens[head.tokens().end - 1].span;
        self.open.push(Open {
            head,
            lines: Vec::new(),
            brace,
            indent,
            within: None,
        });
    }

    /// A brace that stands alone below a statement is meant for it.
    fn reopen_line_above(&mut self, brace: Span) {
        if self.place.newlines > 1 {
            return;
        }
        let above = self.lines_here().pop_if(|line| line.block.is_none());
        let Some(above) = above else { return };
        let last = self.tokens[above.tokens().end - 1].span;
        self.line = above;
        self.log.push(|| {
            error(brace, "the { belongs at the end of the line above").fix(
                "move it up",
                gap(last, brace),
                " ",
            )
        });
    }

    pub(super) fn close(&mut self, index: usize, span: Span) {
        self.end_line();
        if self.ignored > 0 {
            self.ignored -= 1;
            return;
        }
        // A brace in the column of an outer statement closes that one.
        if !self.balanced && self.place.line_start {
            let indent = self.place.indent;
            if let Some(depth) = self.open.iter().rposition(|open| open.indent == indent) {
                self.close_down_to(depth + 1);
            }
        }
        match self.open.pop() {
            Some(open) => self.end_block(open, Some(index)),
            None => {
                self.log.push(|| {
                    error(span, "this } closes nothing")
                        .hint("take it away, or open its block")
                        .fix("take it away", span, "")
                });
            }
        }
        self.place.closed = Some(span);
    }

    pub(super) fn close_down_to(&mut self, depth: usize) {
        self.end_line();
        self.ignored = 0;
        let mut closing = String::new();
        while self.open.len() > depth {
            let Some(open) = self.open.pop() else { return };
            closing += &format!("\n{}}}", " ".repeat(open.indent));
            // Of blocks in one another that end together, the outer one is told.
            if self.open.len() == depth {
                let ends = open
                    .lines
                    .last()
                    .map_or(open.head.tokens().end - 1, last_token);
                let ends = self.tokens[ends].span;
                self.log.push(|| {
                    error(open.brace, "this { is never closed")
                        .hint("write } on a line of its own where the block ends")
                        .fix("close it", ends.after(), closing.as_str())
                });
            }
            self.end_block(open, None);
        }
    }

    fn end_block(&mut self, open: Open, close: Option<usize>) {
        let mut line = open.head;
        line.block = Some(Box::new(Block {
            lines: open.lines,
            close,
        }));
        self.lines_here().push(line);
    }
}
