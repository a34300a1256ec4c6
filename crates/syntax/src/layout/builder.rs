//! Takes tokens one by one and keeps the blocks that are open.

mod blocks;

use super::braces::{begins_item, begins_made_part, may_begin_item};
use super::{Layout, StatementLine};
use crate::Span;
use crate::finding_log::{FindingLog, error};
use crate::grammar::{Lexeme, WordCell, WordId};
use crate::token::{Token, TokenKind};
use blocks::Open;
use std::ops::Range;

pub(super) struct Builder<'t> {
    text: &'t str,
    tokens: &'t [Token],
    balanced: bool,
    lexemes: Vec<Lexeme>,
    /// The lines of the file; the last of `open` takes the next line, where there is one.
    lines: Vec<StatementLine>,
    open: Vec<Open>,
    /// Braces opened past the deepest.
    ignored: usize,
    /// The statement being read.
    line: StatementLine,
    place: TokenContext,
    log: FindingLog,
}

/// What came just before the next token.
#[derive(Default)]
struct TokenContext {
    /// Whether only trivia stand between the line's start and here.
    line_start: bool,
    /// Blanks at the line's start, in bytes.
    indent: usize,
    /// Line ends since the last token that is neither blank nor separator.
    newlines: usize,
    /// A closing brace on this line with nothing after it yet.
    closed: Option<Span>,
    /// Comment lines with no blank line after them.
    note: Option<Range<usize>>,
    /// The indent of the line on which the statement being read began.
    statement_indent: usize,
}

impl<'t> Builder<'t> {
    pub(super) fn new(text: &'t str, tokens: &'t [Token], balanced: bool) -> Self {
        Self {
            text,
            tokens,
            balanced,
            lexemes: Vec::with_capacity(tokens.len() / 2),
            // No more than that; what is never filled is no memory.
            lines: Vec::with_capacity(statements(tokens)),
            open: Vec::new(),
            ignored: 0,
            line: StatementLine::default(),
            place: TokenContext {
                line_start: true,
                ..TokenContext::default()
            },
            log: FindingLog::default(),
        }
    }

    /// Takes the token at `index`.
    pub(super) fn take(&mut self, index: usize) {
        let token = self.tokens[index];
        match token.kind {
            TokenKind::Bom | TokenKind::Conflict => {}
            TokenKind::Blank => {
                if self.place.line_start {
                    self.place.indent = token.span.len();
                }
            }
            TokenKind::Newline => self.newline(),
            TokenKind::Semicolon => {
                self.end_line();
                self.place.closed = None;
            }
            TokenKind::Comment => self.comment(index),
            kind => {
                self.significant(index, kind, token.span);
                self.place.line_start = false;
                self.place.newlines = 0;
                self.place.note = None;
            }
        }
    }

    /// Ends what is open and hands the layout over.
    /// The layout, what is amiss with its braces, and which are open at its end.
    pub(super) fn finish(mut self) -> (Layout, FindingLog, FindingLog) {
        let amiss = std::mem::take(&mut self.log);
        self.close_down_to(0);
        let layout = Layout {
            lexemes: self.lexemes,
            lines: self.lines,
            balanced: self.balanced,
        };
        (layout, amiss, self.log)
    }

    fn newline(&mut self) {
        self.end_line();
        let place = &mut self.place;
        if place.line_start && place.newlines > 0 {
            place.note = None;
        }
        place.newlines += 1;
        place.closed = None;
        place.line_start = true;
        place.indent = 0;
    }

    fn comment(&mut self, index: usize) {
        let place = &mut self.place;
        if place.line_start {
            let first = place.note.take().map_or(index, |note| note.start);
            place.note = Some(first..index + 1);
        }
        // A brace below a comment is not meant for the statement above it.
        place.newlines = 2;
        place.line_start = false;
    }

    fn significant(&mut self, index: usize, kind: TokenKind, span: Span) {
        if self.line.tokens().is_empty() && !self.balanced && !self.open.is_empty() {
            self.resume(index, kind);
        }
        match kind {
            TokenKind::Close => self.close(index, span),
            TokenKind::Open => self.open(index, span),
            _ if self.ignored > 0 => {}
            _ => {
                self.begin_line(index, span);
                self.push(index, kind, span);
            }
        }
    }

    /// Closes what a line cannot lie in: every block where it begins an item.
    fn resume(&mut self, index: usize, kind: TokenKind) {
        let at_edge = self.place.line_start && self.place.indent == 0;
        let item = kind == TokenKind::Name
            && !(self.is_in_made() && begins_made_part(self.text, self.tokens, index))
            && (begins_item(self.text, self.tokens, index)
                || at_edge && may_begin_item(self.text, self.tokens, index));
        if item {
            self.close_down_to(0);
        }
        if self.place.line_start && kind != TokenKind::Close {
            self.outdent();
        }
    }

    /// Whether the outermost block is that of what was made, in which parts stand.
    fn is_in_made(&self) -> bool {
        let outermost = self.open.first();
        let word = outermost.map(|it| &self.text[self.tokens[it.head.tokens().start].span.range()]);
        word == Some("made")
    }

    /// Closes the blocks that a line stands to the left of, where their own lines are indented.
    fn outdent(&mut self) {
        let indent = self.place.indent;
        let is_left = |open: &Open| open.within > Some(open.indent) && indent <= open.indent;
        while self.open.last().is_some_and(is_left) {
            self.close_down_to(self.open.len() - 1);
        }
    }

    fn begin_line(&mut self, index: usize, span: Span) {
        if !self.line.tokens().is_empty() {
            return;
        }
        if !self.balanced && self.place.line_start {
            self.open_line_above();
        }
        if let Some(brace) = self.place.closed.take() {
            self.log.push(|| {
                error(brace, "a new line is expected after }").fix(
                    "begin a new line",
                    gap(brace, span),
                    "\n",
                )
            });
        }
        let note = self.place.note.take_if(|_| self.place.line_start);
        self.line = StatementLine::begun(self.lexemes.len(), index, note);
        if self.place.line_start {
            let indent = self.place.indent;
            self.place.statement_indent = indent;
            if let Some(open) = self.open.last_mut() {
                open.within.get_or_insert(indent);
            }
        }
    }

    fn push(&mut self, index: usize, kind: TokenKind, span: Span) {
        self.line.reach(self.lexemes.len(), index + 1);
        if kind == TokenKind::Unknown {
            // Found as damaged already; the rest of the line can still be read.
            return;
        }
        let text = &self.text[span.range()];
        let word = match kind {
            TokenKind::Name => WordId::of(text),
            // `Drill` is told as what it is and read as what it means.
            TokenKind::BadName => WordId::of(&text.to_ascii_lowercase()),
            _ => WordId::NONE,
        };
        self.lexemes.push(Lexeme {
            kind,
            word: WordCell::new(word),
            span,
        });
        self.line.reach(self.lexemes.len(), index + 1);
    }

    fn end_line(&mut self) {
        if !self.line.tokens().is_empty() {
            let line = std::mem::take(&mut self.line);
            self.lines_here().push(line);
        }
    }

    fn lines_here(&mut self) -> &mut Vec<StatementLine> {
        match self.open.last_mut() {
            Some(open) => &mut open.lines,
            None => &mut self.lines,
        }
    }
}

/// How many statements there can be at most.
fn statements(tokens: &[Token]) -> usize {
    1 + tokens.iter().filter(|it| it.kind.is_separator()).count()
}

/// What stands between two tokens.
fn gap(before: Span, after: Span) -> Span {
    Span {
        end: after.start,
        ..before.after()
    }
}

/// The last token of a line and all in its block.
fn last_token(line: &StatementLine) -> usize {
    let own = line.tokens().end - 1;
    let Some(block) = &line.block else { return own };
    let within = block.lines.last().map_or(own, last_token);
    block.close.unwrap_or(within)
}
