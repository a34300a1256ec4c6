//! A place in a file, and what stands there.

use crate::Analysis;
use quillet_model::{Definition, DefinitionId, SourceFile};
use quillet_syntax::{Span, Token, TokenKind};
use std::path::Path;

/// A place in a file of an analysis: what most questions are about.
#[derive(Clone, Copy, Debug)]
pub struct Cursor<'a> {
    /// The file with all it uses.
    pub analysis: &'a Analysis,
    /// The file the place is in.
    pub file: &'a SourceFile,
    /// Byte offset in its text.
    pub offset: usize,
}

impl<'a> Cursor<'a> {
    /// A place in the file an analysis was asked for; past the end is the end.
    ///
    /// None where the analysis holds no file.
    pub fn at(analysis: &'a Analysis, offset: usize) -> Option<Self> {
        let file = analysis.design.root()?;
        let offset = offset.min(file.text.len());
        Some(Self {
            analysis,
            file,
            offset,
        })
    }

    /// The place as an empty span.
    pub fn place(self) -> Span {
        Span::new(self.file.id, self.offset, self.offset)
    }

    /// The word, number or sign at the place; of two that touch, a word or number first.
    pub(crate) fn token(self) -> Option<Token> {
        let tokens = &self.file.parsed.tokens;
        let next = tokens.partition_point(|token| (token.span.end as usize) < self.offset);
        let touching = tokens[next..]
            .iter()
            .take_while(|token| token.span.start as usize <= self.offset)
            .filter(|token| !token.kind.is_trivia() && !token.kind.is_separator());
        touching.copied().max_by_key(|token| weight(token.kind))
    }

    /// The text of a span of this file.
    pub(crate) fn text(self, span: Span) -> &'a str {
        self.file.text.get(span.range()).unwrap_or("")
    }

    /// What the name at the place refers to or defines.
    pub(crate) fn definition(self) -> Option<DefinitionId> {
        self.analysis.design.names.at(self.token()?.span)
    }

    /// The definition of that number.
    pub(crate) fn defined(self, index: DefinitionId) -> &'a Definition {
        &self.analysis.design.names.definitions[index]
    }
}

impl Analysis {
    /// The path of a file of this design.
    pub fn path(&self, span: Span) -> Option<&Path> {
        self.file(span.file).map(|file| file.path.as_path())
    }
}

fn weight(kind: TokenKind) -> u8 {
    use TokenKind::{BadName, BadNumber, Capital, Fit, Gauge, Name, Quantity, String, Thread};
    match kind {
        Name | BadName | Thread | Fit | Gauge | Capital | String => 2,
        Quantity | BadNumber => 1,
        _ => 0,
    }
}
