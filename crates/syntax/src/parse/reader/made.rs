//! Lines of what was made, each with the lines of a part in it.

use super::{Reader, Rules};
use crate::ast::*;
use crate::grammar::Place;
use crate::layout::StatementLine;

impl Reader<'_> {
    pub(super) fn made_line(&mut self, line: &StatementLine) -> MadeLine {
        let kind = self.statement(Rules::made, Place::Made, line);
        let mut kind = kind.unwrap_or(MadeLineKind::Bad);
        if let MadeLineKind::Part(part) = &mut kind {
            part.block = self.block(line);
            let lines = line.block.as_ref().map_or(&[][..], |block| &block.lines);
            part.lines = lines.iter().map(|line| self.part_line(line)).collect();
        }
        MadeLine {
            span: self.span(line),
            kind,
        }
    }
}
