//! Items that are like others.

use super::Resolver;
use super::frame::Frame;
use crate::DefinitionKind;
use quillet_syntax::ast::{self, ItemKind};
use quillet_syntax::{Finding, Severity};

/// So many may be like one another in a row.
const LONGEST_CHAIN: usize = 50;

/// A part or a pen: what can be written as like another.
pub(super) trait Inheriting: Sized {
    fn name(&self) -> &ast::Name;
    fn like(&self) -> Option<&ast::Name>;
    fn of(item: &ItemKind) -> Option<&Self>;
}

impl Inheriting for ast::Part {
    fn name(&self) -> &ast::Name {
        &self.name
    }

    fn like(&self) -> Option<&ast::Name> {
        self.like.as_ref()
    }

    fn of(item: &ItemKind) -> Option<&Self> {
        match item {
            ItemKind::Part(part) | ItemKind::Bought(part) => Some(part),
            _ => None,
        }
    }
}

impl Inheriting for ast::Pen {
    fn name(&self) -> &ast::Name {
        &self.name
    }

    fn like(&self) -> Option<&ast::Name> {
        self.like.as_ref()
    }

    fn of(item: &ItemKind) -> Option<&Self> {
        match item {
            ItemKind::Pen(pen) => Some(pen),
            _ => None,
        }
    }
}

impl<'a> Resolver<'a> {
    /// An item and those it is like, itself first; none where one of them is not there or the
    /// chain comes back to itself, which is told of.
    pub(super) fn like_chain<T: Inheriting>(
        &mut self,
        first: &'a T,
        kind: DefinitionKind,
        frame: &Frame<'a>,
    ) -> Option<Vec<&'a T>> {
        let mut chain = vec![first];
        let mut at = first;
        while let Some(like) = at.like() {
            if !self.refer_to(like, &[kind], frame) {
                return None;
            }
            let base = T::of(&self.scope.get(&like.text)?.item.kind)?;
            let round = chain.iter().any(|seen| std::ptr::eq(*seen, base));
            if round || chain.len() >= LONGEST_CHAIN {
                let name = &first.name().text;
                let message = match round {
                    true => format!("{name} is like itself"),
                    false => format!("{name} is like another through more than {LONGEST_CHAIN}"),
                };
                self.emit(
                    Finding::new("unknown-name", Severity::Error, like.span, message)
                        .hint("let one of them be written out"),
                );
                return None;
            }
            chain.push(base);
            at = base;
        }
        Some(chain)
    }
}
