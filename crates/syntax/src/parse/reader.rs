//! Walks the layout and has each statement read by the rule of its place.

mod listen;
mod made;
mod rules;
mod statement;

use crate::ast::*;
use crate::finding_log::{FindingLog, error};
use crate::grammar::{self, Lexeme, Place};
use crate::layout::{Layout, StatementLine};
use crate::token::{Token, TokenKind};
use crate::{FileId, Span};
use listen::ExpectationProbe;
pub(super) use listen::{Expectations, listen};
use rules::Rules;
use std::ops::Range as Indices;

/// Reads all statements of a layout.
pub(super) fn read(
    file: FileId,
    text: &str,
    tokens: &[Token],
    layout: &Layout,
) -> (File, FindingLog) {
    let mut reader = Reader::of(file, text, tokens, layout);
    let tree = reader.file(&layout.lines);
    (tree, reader.log)
}

struct Reader<'s> {
    file: FileId,
    text: &'s str,
    tokens: &'s [Token],
    lexemes: &'s [Lexeme],
    rules: Rules<'s>,
    log: FindingLog,
    listening: Option<ExpectationProbe>,
}

impl<'s> Reader<'s> {
    /// One that has read nothing yet and listens for nothing.
    fn of(file: FileId, text: &'s str, tokens: &'s [Token], layout: &'s Layout) -> Self {
        Reader {
            file,
            text,
            tokens,
            lexemes: &layout.lexemes,
            rules: Rules::new(),
            log: FindingLog::default(),
            listening: None,
        }
    }

    fn file(&mut self, lines: &[StatementLine]) -> File {
        let mut file = File {
            items: Vec::with_capacity(lines.len()),
            ..File::default()
        };
        let mut stray = false;
        for (index, line) in lines.iter().enumerate() {
            if self.word(line) == "dimensions" {
                let inches = self.statement(Rules::inches, Place::File, line);
                match (index, inches) {
                    (0, Some(span)) => file.inches = Some(span),
                    (0, None) => {}
                    _ => self.late_dimensions(line),
                }
                continue;
            }
            // Lines that have lost their block are told once.
            let strayed = stray && self.belongs_in_a_block(line);
            let kind = match strayed {
                true => None,
                false => self.statement(Rules::item, Place::Item, line),
            };
            stray = kind.is_none();
            let span = self.span(line);
            match file.items.last_mut() {
                Some(last) if strayed => last.span = last.span.to(span),
                _ => {
                    let kind = kind.map_or(ItemKind::Bad, |kind| self.with_block(kind, line));
                    let note = line.note().map(|note| Box::new(self.note(note)));
                    file.items.push(Item { span, note, kind });
                }
            }
        }
        file
    }

    fn late_dimensions(&mut self, line: &StatementLine) {
        let span = self.head(line);
        self.log.push(|| {
            error(
                span,
                "dimensions in inches stands at the top of a file, before every item",
            )
            .hint("move it up")
        });
    }

    fn belongs_in_a_block(&self, line: &StatementLine) -> bool {
        let places: Vec<_> = grammar::meanings(self.word(line))
            .map(|word| word.place)
            .collect();
        let in_block = |place: &Place| place.noun().is_some();
        places.iter().any(in_block) && !places.contains(&Place::Item)
    }

    fn with_block(&mut self, mut kind: ItemKind, line: &StatementLine) -> ItemKind {
        let span = self.block(line);
        let lines = line.block.as_ref().map_or(&[][..], |block| &block.lines);
        match &mut kind {
            ItemKind::Material(material) => {
                material.lines = lines.iter().map(|line| self.material_line(line)).collect();
            }
            ItemKind::Part(part) | ItemKind::Bought(part) => {
                part.block = span;
                part.lines = lines.iter().map(|line| self.part_line(line)).collect();
            }
            ItemKind::Bench(bench) => {
                bench.block = span;
                bench.tools = lines.iter().map(|line| self.tool_line(line)).collect();
            }
            ItemKind::Shelf(shelf) => {
                shelf.block = span;
                shelf.lines = lines.iter().map(|line| self.shelf_line(line)).collect();
            }
            ItemKind::Pen(pen) => {
                pen.block = span;
                pen.lines = lines.iter().map(|line| self.pen_line(line)).collect();
            }
            ItemKind::Made(made) => {
                made.block = span;
                made.lines = lines.iter().map(|line| self.made_line(line)).collect();
            }
            ItemKind::Use(_)
            | ItemKind::Let(_)
            | ItemKind::Limit(_)
            | ItemKind::Thread(_)
            | ItemKind::Blank(_)
            | ItemKind::Bad => {}
        }
        kind
    }

    fn material_line(&mut self, line: &StatementLine) -> MaterialLine {
        let kind = self.statement(Rules::material, Place::Material, line);
        MaterialLine {
            span: self.span(line),
            kind: kind.unwrap_or(MaterialLineKind::Bad),
        }
    }

    fn tool_line(&mut self, line: &StatementLine) -> ToolLine {
        let kind = self.statement(Rules::bench, Place::Bench, line);
        ToolLine {
            span: self.span(line),
            kind: kind.unwrap_or(ToolLineKind::Bad),
        }
    }

    fn shelf_line(&mut self, line: &StatementLine) -> ShelfLine {
        let kind = self.statement(Rules::shelf, Place::Shelf, line);
        ShelfLine {
            span: self.span(line),
            kind: kind.unwrap_or(ShelfLineKind::Bad),
        }
    }

    fn part_line(&mut self, line: &StatementLine) -> Line {
        let kind = self.statement(Rules::part, Place::Part, line);
        let mut kind = kind.unwrap_or(LineKind::Bad);
        let lines = line.block.as_ref().map_or(&[][..], |block| &block.lines);
        match &mut kind {
            LineKind::Outside(stations) => {
                *stations = lines.iter().map(|line| self.station(line)).collect();
            }
            LineKind::From { features, .. } => {
                *features = lines.iter().map(|line| self.feature(line)).collect();
            }
            LineKind::Side(cuts) => {
                *cuts = lines.iter().map(|line| self.side_line(line)).collect();
            }
            _ => {}
        }
        Line {
            span: self.span(line),
            kind,
        }
    }

    fn station(&mut self, line: &StatementLine) -> Station {
        Station {
            content: self.statement(Rules::station, Place::Station, line),
            span: self.span(line),
        }
    }

    fn feature(&mut self, line: &StatementLine) -> Feature {
        let read = self.statement(Rules::feature, Place::Cut, line);
        let (kind, face) = read.unwrap_or((FeatureKind::Bad, None));
        Feature {
            span: self.span(line),
            kind,
            face,
        }
    }

    fn side_line(&mut self, line: &StatementLine) -> SideLine {
        let kind = self.statement(Rules::side, Place::Side, line);
        SideLine {
            span: self.span(line),
            kind: kind.unwrap_or(SideLineKind::Bad),
        }
    }

    fn pen_line(&mut self, line: &StatementLine) -> PenLine {
        let kind = self.statement(Rules::pen, Place::Pen, line);
        let mut kind = kind.unwrap_or(PenLineKind::Bad);
        if let PenLineKind::Joint(joint) = &mut kind {
            joint.block = self.block(line);
            let lines = line.block.as_ref().map_or(&[][..], |block| &block.lines);
            joint.lines = lines.iter().map(|line| self.joint_line(line)).collect();
        }
        PenLine {
            span: self.span(line),
            kind,
        }
    }

    fn joint_line(&mut self, line: &StatementLine) -> JointLine {
        let kind = self.statement(Rules::joint, Place::JointLine, line);
        JointLine {
            span: self.span(line),
            kind: kind.unwrap_or(JointLineKind::Bad),
        }
    }

    /// The comment lines at `tokens`, without `--`.
    fn note(&self, tokens: Indices<usize>) -> Text {
        let comments: Vec<_> = self.tokens[tokens]
            .iter()
            .filter(|token| token.kind == TokenKind::Comment)
            .collect();
        let lines = comments.iter().map(|token| {
            let text = &self.text[token.span.range()];
            text.trim_start_matches('-').trim()
        });
        let (first, last) = (comments.first(), comments.last());
        let span = match (first, last) {
            (Some(first), Some(last)) => first.span.to(last.span),
            _ => Span::new(self.file, 0, 0),
        };
        Text {
            text: lines.collect::<Vec<_>>().join("\n").into(),
            span,
        }
    }

    /// The statement's first word; empty where it has none.
    fn word(&self, line: &StatementLine) -> &'s str {
        let lexemes = &self.lexemes[line.lexemes()];
        lexemes
            .first()
            .map_or("", |first| &self.text[first.span.range()])
    }

    /// From the first token to the last before the block's lines.
    fn head(&self, line: &StatementLine) -> Span {
        let tokens = &self.tokens[line.tokens()];
        tokens[0].span.to(tokens[tokens.len() - 1].span)
    }

    /// From the first token to the block's end.
    fn span(&self, line: &StatementLine) -> Span {
        let head = self.head(line);
        self.block(line).map_or(head, |block| head.to(block))
    }

    /// The block, braces included.
    fn block(&self, line: &StatementLine) -> Option<Span> {
        let block = line.block.as_ref()?;
        let open = self.tokens[line.tokens().end - 1].span;
        let end = match (block.close, block.lines.last()) {
            (Some(close), _) => self.tokens[close].span,
            (None, Some(last)) => self.span(last),
            (None, None) => open,
        };
        Some(open.to(end))
    }
}
