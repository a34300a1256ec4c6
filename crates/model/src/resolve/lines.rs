//! The lines of a part, over those of the part it is like.

use super::Resolver;
use super::frame::Frame;
use crate::DefinitionKind;
use quillet_syntax::ast::{self, LineKind};
use quillet_syntax::{Finding, Severity, Span};

/// A `from END { … }` block.
#[derive(Clone, Copy)]
pub(super) struct Block<'a> {
    /// The whole block.
    pub(super) span: Span,
    /// The end.
    pub(super) end: &'a ast::Name,
    /// The cuts.
    pub(super) features: &'a [ast::Feature],
}

impl<'a> Resolver<'a> {
    /// A part's lines with those of the parts it is like.
    pub(super) fn flattened(
        &mut self,
        ast: &'a ast::Part,
        bought: bool,
        frame: &Frame<'a>,
    ) -> Option<Lines<'a>> {
        let kind = match bought {
            true => DefinitionKind::Bought,
            false => DefinitionKind::Part,
        };
        let chain = self.like_chain(ast, kind, frame)?;
        let block = |part: &&ast::Part| part.block.unwrap_or(part.name.span);
        let mut lines = Lines {
            sound: chain.iter().all(|part| self.is_sound(block(part))),
            ..Lines::default()
        };
        for part in chain.into_iter().rev() {
            lines.lay_over(part, &mut self.design.findings);
        }
        Some(lines)
    }
}

/// The lines of a part, those of the part it is like overlaid by its own.
#[derive(Default)]
pub(super) struct Lines<'a> {
    /// Whether the text of them all could be read.
    pub(super) sound: bool,
    pub(super) title: Option<ast::Text>,
    pub(super) ends: Option<[ast::Name; 2]>,
    pub(super) lets: Vec<&'a ast::Let>,
    pub(super) limits: Vec<&'a ast::Limit>,
    pub(super) accepts: Vec<(&'a ast::Accept, Span)>,
    pub(super) wants: Vec<&'a ast::Want>,
    pub(super) bench: Option<&'a ast::Name>,
    /// Lines of which a part has one of each kind.
    pub(super) single: Vec<&'a ast::Line>,
    pub(super) blanks: Vec<&'a ast::Line>,
    /// What a mechanism throws, one from an end.
    pub(super) throws: Vec<&'a ast::Line>,
    /// The `from END` blocks.
    pub(super) cuts: Vec<Block<'a>>,
}

impl<'a> Lines<'a> {
    fn lay_over(&mut self, part: &'a ast::Part, findings: &mut Vec<Finding>) {
        if part.title.is_some() {
            self.title.clone_from(&part.title);
        }
        if part.ends.is_some() {
            self.ends.clone_from(&part.ends);
        }
        if part.lines.iter().any(is_blank) {
            self.blanks.clear();
        }
        let throws = |line: &ast::Line| matches!(line.kind, LineKind::Throw { .. });
        if part.lines.iter().any(throws) {
            self.throws.clear();
        }
        let renewed: Vec<&str> = part.lines.iter().filter_map(cut_end).collect();
        self.cuts
            .retain(|block| !renewed.contains(&&*block.end.text));
        let mut own: Vec<&ast::Line> = Vec::new();
        for line in &part.lines {
            match &line.kind {
                LineKind::Let(it) => {
                    self.lets.retain(|old| old.name.text != it.name.text);
                    self.lets.push(it);
                }
                LineKind::Limit(it) => self.limits.push(it),
                LineKind::Want(it) => self.wants.push(it),
                LineKind::Accept(it) => {
                    self.accepts
                        .push((it, part.block.unwrap_or(part.name.span)));
                }
                LineKind::Bench(name) => self.bench = Some(name),
                LineKind::BlankNamed(_) | LineKind::Blank(_) => self.blanks.push(line),
                LineKind::From { end, features } => {
                    self.cuts.push(Block {
                        span: line.span,
                        end,
                        features,
                    });
                    for feature in features {
                        if let ast::FeatureKind::Accept(it) = &feature.kind {
                            self.accepts.push((it, line.span));
                        }
                    }
                }
                LineKind::Throw { .. } => self.throws.push(line),
                LineKind::Bad => {}
                _ => {
                    if let Some(first) = own.iter().find(|old| same_line(old, line)) {
                        findings.push(stated_twice(line.span, first.span));
                        continue;
                    }
                    own.push(line);
                    self.side_accepts(line);
                    self.single.retain(|old| !same_line(old, line));
                    self.single.push(line);
                }
            }
        }
    }
}

impl<'a> Lines<'a> {
    /// What is accepted in a `side` block; that of the block it stands over goes.
    fn side_accepts(&mut self, line: &'a ast::Line) {
        let LineKind::Side(cuts) = &line.kind else {
            return;
        };
        let is_side = |line: &ast::Line| matches!(line.kind, LineKind::Side(_));
        if let Some(old) = self.single.iter().find(|old| is_side(old)) {
            let old = old.span;
            self.accepts.retain(|(_, scope)| *scope != old);
        }
        for cut in cuts {
            if let ast::SideLineKind::Accept(it) = &cut.kind {
                self.accepts.push((it, line.span));
            }
        }
    }
}

fn is_blank(line: &ast::Line) -> bool {
    matches!(line.kind, LineKind::BlankNamed(_) | LineKind::Blank(_))
}

fn cut_end(line: &ast::Line) -> Option<&str> {
    match &line.kind {
        LineKind::From { end, .. } => Some(&end.text),
        _ => None,
    }
}

/// Whether two lines say the same kind of thing; the two ways to say the outside are one.
fn same_line(a: &ast::Line, b: &ast::Line) -> bool {
    let outside =
        |line: &ast::Line| matches!(line.kind, LineKind::Outside(_) | LineKind::OutsideDia(_));
    (outside(a) && outside(b)) || std::mem::discriminant(&a.kind) == std::mem::discriminant(&b.kind)
}

/// A finding for a line that says what one before it said.
pub(super) fn stated_twice(line: Span, first: Span) -> Finding {
    Finding::new(
        "said-twice",
        Severity::Error,
        line,
        "this is said a second time; the first is taken",
    )
    .label(first, "said first here")
    .hint("keep one of the two")
    .fix("take this line out", line, "")
}

/// A finding for something a part cannot do without.
pub(super) fn incomplete(at: Span, message: String, hint: &str) -> Finding {
    Finding::new("incomplete", Severity::Error, at, message).hint(hint)
}
