//! A text as rows: statements, closing braces and comments, in order.

use super::hints::{Break, Hints};
use crate::Parsed;
use crate::layout::StatementLine;
use crate::token::{Token, TokenKind};
use std::collections::BTreeMap;

/// A line to be.
#[derive(Debug)]
pub(super) struct Row<'t> {
    pub(super) depth: usize,
    /// What stands on it; empty where only a comment does.
    pub(super) cells: Vec<Cell>,
    /// The comment after it, or alone on its line.
    pub(super) comment: Option<&'t str>,
    /// Whether a blank line stands above it.
    pub(super) blank: bool,
}

/// What stands in a column.
#[derive(Debug)]
pub(super) struct Cell {
    /// Where the column begins, after the indent.
    pub(super) column: usize,
    pub(super) text: String,
}

impl Cell {
    fn first(text: String) -> Self {
        Self { column: 0, text }
    }
}

/// Where the rows of a text lie in its tokens.
struct RowPlace<'l> {
    /// The first token and the one after the last.
    tokens: std::ops::Range<usize>,
    depth: usize,
    /// The statement; none for a closing brace.
    line: Option<&'l StatementLine>,
}

/// The rows of a text whose braces match.
pub(super) fn rows<'t>(text: &'t str, parsed: &Parsed) -> Vec<Row<'t>> {
    let mut places = Vec::new();
    collect(&parsed.layout.lines, 0, &mut places);
    let mut writer = Writer {
        text,
        tokens: &parsed.tokens,
        hints: Hints::of(&parsed.tree),
        rows: Vec::with_capacity(places.len()),
        end: 0,
        opened: false,
    };
    for place in &places {
        let inside = place.depth + usize::from(place.line.is_none());
        writer.comments_until(place.tokens.start, inside);
        writer.row(place);
    }
    writer.comments_until(parsed.tokens.len(), 0);
    writer.rows
}

fn collect<'l>(lines: &'l [StatementLine], depth: usize, places: &mut Vec<RowPlace<'l>>) {
    for line in lines {
        places.push(RowPlace {
            tokens: line.tokens(),
            depth,
            line: Some(line),
        });
        let Some(block) = &line.block else { continue };
        collect(&block.lines, depth + 1, places);
        if let Some(close) = block.close {
            places.push(RowPlace {
                tokens: close..close + 1,
                depth,
                line: None,
            });
        }
    }
}

struct Writer<'t, 'p> {
    text: &'t str,
    tokens: &'p [Token],
    hints: Hints,
    rows: Vec<Row<'t>>,
    /// The token after the last that was written.
    end: usize,
    /// Whether the last row opened a block and nothing has been written in it.
    opened: bool,
}

impl<'t> Writer<'t, '_> {
    fn comments_until(&mut self, next: usize, depth: usize) {
        for index in self.end..next {
            if self.tokens[index].kind != TokenKind::Comment {
                continue;
            }
            let comment = self.text_of(index).trim_end();
            let newlines = self.newlines_until(index);
            self.end = index + 1;
            match self.rows.last_mut() {
                Some(row) if newlines == 0 => row.comment = Some(comment),
                last => {
                    let blank = newlines > 1 && last.is_some() && !self.opened;
                    self.rows.push(Row {
                        depth,
                        cells: Vec::new(),
                        comment: Some(comment),
                        blank,
                    });
                }
            }
            self.opened &= newlines == 0;
        }
    }

    fn row(&mut self, place: &RowPlace<'_>) {
        let blank = self.newlines_until(place.tokens.start) > 1 && !self.rows.is_empty();
        self.end = place.tokens.end;
        let Some(line) = place.line else {
            return self.close(place.depth);
        };
        let columns = self
            .hints
            .columns(self.tokens[line.tokens().start].span.start);
        let breaks = columns.map_or(&[][..], |columns| &columns.breaks);
        let cells = match line.is_whole() {
            true => self.cells(line, breaks),
            false => vec![Cell::first(self.as_written(line))],
        };
        self.rows.push(Row {
            depth: place.depth,
            cells,
            comment: None,
            blank: blank && !self.opened,
        });
        self.opened = line.block.is_some();
    }

    fn close(&mut self, depth: usize) {
        let opened = std::mem::take(&mut self.opened);
        let last = self.rows.last_mut().filter(|row| row.comment.is_none());
        let opener = last.and_then(|row| row.cells.last_mut());
        match opener.filter(|_| opened) {
            Some(opener) => opener.text.push('}'),
            None => self.rows.push(Row {
                depth,
                cells: vec![Cell::first("}".to_owned())],
                comment: None,
                blank: false,
            }),
        }
    }

    /// A damaged statement, but for its brace, which may have come from the next line.
    fn as_written(&self, line: &StatementLine) -> String {
        let mut tokens = line.tokens();
        let last = tokens.end - 1;
        let has_block = self.tokens[last].kind == TokenKind::Open && tokens.len() > 1;
        if has_block {
            tokens.end = self.tokens[..last]
                .iter()
                .rposition(|token| !is_blank(token.kind))
                .map_or(last, |end| end + 1);
        }
        let first = self.tokens[tokens.start].span;
        let span = first.to(self.tokens[tokens.end - 1].span);
        let brace = if has_block { " {" } else { "" };
        format!("{}{brace}", &self.text[span.range()])
    }

    fn cells(&self, line: &StatementLine, breaks: &[(Break, usize)]) -> Vec<Cell> {
        let indices: Vec<_> = line
            .tokens()
            .filter(|&index| !is_blank(self.tokens[index].kind))
            .collect();
        let start = |index: &usize| self.tokens[*index].span.start;
        let from = |byte: u32| indices.partition_point(|index| start(index) < byte);
        let columns = breaks.iter().map(|(at, column)| match *at {
            Break::From(byte) => (from(byte), *column),
            Break::Before(byte) => (from(byte).saturating_sub(1), *column),
        });
        let columns: BTreeMap<usize, usize> = columns.collect();
        let mut cells = vec![Cell::first(String::new())];
        for (at, &index) in indices.iter().enumerate() {
            let begun = columns.get(&at).filter(|_| at > 0);
            if let Some(&column) = begun {
                let text = String::new();
                cells.push(Cell { column, text });
            }
            let spaced = at > 0 && begun.is_none() && self.is_spaced(indices[at - 1], index);
            if let Some(cell) = cells.last_mut() {
                cell.text += if spaced { " " } else { "" };
                cell.text += self.text_of(index);
            }
        }
        cells
    }

    /// Whether the tokens are a fraction that was written in one: `3/4`.
    fn is_fraction(&self, slash: usize) -> bool {
        let whole = |index: usize| {
            let token = self
                .tokens
                .get(index)
                .filter(|it| it.kind == TokenKind::Quantity);
            token.is_some() && self.text_of(index).bytes().all(|it| it.is_ascii_digit())
        };
        let sides = slash.checked_sub(1).zip(slash.checked_add(1));
        self.tokens[slash].kind == TokenKind::Slash
            && sides.is_some_and(|(before, after)| whole(before) && whole(after))
    }

    /// Whether a blank stands between two neighbouring tokens.
    fn is_spaced(&self, before: usize, after: usize) -> bool {
        use TokenKind::*;
        if self.is_fraction(before)
            || self.is_fraction(after)
            || self.hints.is_in_form(self.tokens[before].span.end)
        {
            return false;
        }
        let (before, after) = (self.tokens[before], self.tokens[after]);
        let prefix = before.kind == Minus && self.hints.is_prefix(before.span.start);
        let call = after.kind == OpenParen && !self.hints.is_group(after.span.start);
        let tight = matches!(before.kind, OpenParen | Dot | DotDot | Colon)
            || matches!(after.kind, CloseParen | Comma | Dot | DotDot | Colon)
            // Two minuses would begin a comment.
            || prefix && after.kind != Minus
            || call && before.kind == Name;
        !tight
    }

    fn newlines_until(&self, next: usize) -> usize {
        self.tokens[self.end..next]
            .iter()
            .filter(|token| token.kind == TokenKind::Newline)
            .count()
    }

    fn text_of(&self, index: usize) -> &'t str {
        &self.text[self.tokens[index].span.range()]
    }
}

fn is_blank(kind: TokenKind) -> bool {
    kind.is_trivia() || kind.is_separator()
}
