//! A statement as it is written, with what stands in its block.

use super::diff::line;
use super::word::Word;
use quillet_model::SourceFile;
use quillet_syntax::visit::walk;
use quillet_syntax::{Span, TokenKind};

/// A statement and what stands in its block.
#[derive(Clone, Debug)]
pub(crate) struct Statement {
    /// Its own line, as far as its block.
    pub(crate) tokens: Vec<Word>,
    /// What stands in its block, in the text's order.
    pub(crate) inside: Vec<Statement>,
    pub(crate) has_block: bool,
    pub(crate) span: Span,
}

/// The items of a file.
pub(crate) fn items(file: &SourceFile) -> Vec<Statement> {
    let mut spans: Vec<Span> = Vec::new();
    walk(&file.parsed.tree, &mut |node| {
        if node.is_statement() {
            spans.push(node.span());
        }
    });
    // Each before what it holds.
    spans.sort_by_key(|it| (it.start, std::cmp::Reverse(it.end)));
    spans.dedup();
    let mut left = spans.as_slice();
    let mut all = Vec::new();
    while let Some(first) = left.first() {
        all.push(of(file, *first, &mut left));
    }
    all
}

fn of(file: &SourceFile, span: Span, left: &mut &[Span]) -> Statement {
    *left = &left[1..];
    let mut inside = Vec::new();
    while let Some(next) = left.first().filter(|it| span.contains(**it)) {
        inside.push(of(file, *next, left));
    }
    let (tokens, has_block) = own_tokens(file, span);
    Statement {
        tokens,
        inside,
        has_block,
        span,
    }
}

/// Its words, as far as its block, and whether it has one.
fn own_tokens(file: &SourceFile, span: Span) -> (Vec<Word>, bool) {
    let tokens = &file.parsed.tokens;
    let first = tokens.partition_point(|it| it.span.end <= span.start);
    let (mut words, mut apart) = (Vec::new(), false);
    let inside = tokens[first..].iter();
    for token in inside.take_while(|it| it.span.start < span.end) {
        match token.kind {
            TokenKind::Open => return (words, true),
            TokenKind::Blank | TokenKind::Newline | TokenKind::Comment | TokenKind::Semicolon => {
                apart = true;
            }
            kind => {
                words.push(Word {
                    text: file.text[token.span.range()].to_owned(),
                    kind,
                    apart: apart && !words.is_empty(),
                    span: token.span,
                });
                apart = false;
            }
        }
    }
    (words, false)
}

impl Statement {
    /// The word that begins it.
    pub(crate) fn verb(&self) -> &str {
        self.tokens.first().map_or("", |it| &it.text)
    }

    /// Of an item, what it is and its name: `part cap`; of another its whole line.
    pub(crate) fn name(&self) -> String {
        let words = self.tokens.iter().take(2).map(|it| it.text.as_str());
        words.collect::<Vec<_>>().join(" ")
    }

    /// Its own line with single blanks.
    pub(crate) fn text(&self) -> String {
        line(&self.tokens)
    }

    /// Whether its own line says the same.
    pub(crate) fn alike(&self, other: &Statement) -> bool {
        let (own, others) = (self.tokens.iter(), other.tokens.iter());
        own.map(|it| &it.text).eq(others.map(|it| &it.text))
    }

    /// Its own line and those inside, in order, a name masked.
    pub(crate) fn multiset(&self, masked: Option<&str>) -> Vec<String> {
        let mut all = Vec::new();
        self.collect(masked, &mut all);
        all.sort();
        all
    }

    fn collect(&self, masked: Option<&str>, all: &mut Vec<String>) {
        let word = |it: &Word| match masked == Some(it.text.as_str()) {
            true => "_".to_owned(),
            false => it.text.clone(),
        };
        all.push(self.tokens.iter().map(word).collect::<Vec<_>>().join(" "));
        for each in &self.inside {
            each.collect(masked, all);
        }
    }

    /// Every name in it and in its block.
    pub(crate) fn names<'s>(&'s self, visit: &mut dyn FnMut(&'s str)) {
        for word in self.tokens.iter().filter(|it| it.kind == TokenKind::Name) {
            visit(&word.text);
        }
        for each in &self.inside {
            each.names(visit);
        }
    }
}
