//! What a name in a sum stands for: a `let`, nearest first, or a material.

use super::Resolver;
use super::clash::mismatch;
use super::scope::Entry;
use crate::{DefinitionId, DefinitionKind, Material, Value};
use quillet_syntax::ast::{self, ItemKind};
use quillet_syntax::{Finding, Severity, Span};
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

impl<'a> Resolver<'a> {
    /// The value of a `let`, or a material's name; records the reference.
    pub(super) fn named_value(
        &mut self,
        name: &Arc<str>,
        at: Span,
        frame: &mut Frame<'a>,
    ) -> Option<Value> {
        let local = frame.local.iter().find(|it| it.0.name.text == *name);
        if let Some((_, definition)) = local {
            self.refer(at, *definition);
        } else if let Some(entry) = self.scope.get(name) {
            self.refer(at, entry.definition);
        }
        match frame.known.get(name) {
            Some(PartState::Done(value)) => return value.clone(),
            Some(PartState::Underway) => {
                self.emit(
                    Finding::new(
                        "unknown-name",
                        Severity::Error,
                        at,
                        format!("{name} is worked out from itself"),
                    )
                    .hint("give one of the sums a number"),
                );
                return None;
            }
            None => {}
        }
        if self.depth >= DEEPEST {
            let message = format!("{name} is worked out through more than {DEEPEST} others");
            self.emit(
                Finding::new("out-of-range", Severity::Error, at, message)
                    .hint("give one of them a number"),
            );
            return None;
        }
        frame.known.insert(name.clone(), PartState::Underway);
        self.depth += 1;
        let value = self.find_value(name, at, frame);
        self.depth -= 1;
        frame
            .known
            .insert(name.clone(), PartState::Done(value.clone()));
        value
    }

    fn find_value(&mut self, name: &Arc<str>, at: Span, frame: &mut Frame<'a>) -> Option<Value> {
        let local = frame
            .local
            .iter()
            .rev()
            .find(|it| it.0.name.text == *name)
            .copied();
        if let Some((it, _)) = local {
            return self.eval_value(&it.value, frame);
        }
        let entry = self.scope.get(name);
        if let Some(Entry { item, .. }) = entry
            && let ItemKind::Let(file_let) = &item.kind
        {
            let over = frame
                .pen
                .iter()
                .rev()
                .find(|it| it.name.text == *name)
                .copied();
            return self.eval_value(&over.unwrap_or(file_let).value, frame);
        }
        if let Some(material) = self.material_called(name) {
            return Some(Value::Material(material));
        }
        // A material that could not be made out is told of where it is defined.
        if entry.is_some_and(|entry| matches!(entry.item.kind, ItemKind::Material(_))) {
            return None;
        }
        self.unknown(
            name,
            at,
            &[DefinitionKind::Let, DefinitionKind::Material],
            frame,
        );
        None
    }

    fn material_called(&self, name: &str) -> Option<Arc<Material>> {
        let defined = self.known.materials.get(name);
        defined
            .cloned()
            .or_else(|| Material::built_in(name).map(Arc::new))
    }

    /// The material a name stands for, through a `let` where there is one.
    pub(super) fn material(
        &mut self,
        name: &ast::Name,
        frame: &mut Frame<'a>,
    ) -> Option<Arc<Material>> {
        match self.named_value(&name.text, name.span, frame)? {
            Value::Material(material) => Some(material),
            Value::Quantity(quantity) => {
                self.emit(mismatch(
                    name.span,
                    format!(
                        "{} is {}; a material is expected here",
                        name.text,
                        quantity.dimension.called()
                    ),
                ));
                None
            }
        }
    }
}

/// So many sums may be worked out one through another, as far as the stack bears.
const DEEPEST: usize = 200;

/// The `let`s in sight of a block, nearest first, and what they came to.
#[derive(Default)]
pub(super) struct Frame<'a> {
    /// Local `let`s: a part's own, each with its definition.
    pub(super) local: Vec<(&'a ast::Let, DefinitionId)>,
    /// A pen's `let`s, over the file's.
    pub(super) pen: Vec<&'a ast::Let>,
    /// Looked up by name only, never walked.
    known: HashMap<Arc<str>, PartState>,
}

enum PartState {
    Underway,
    Done(Option<Value>),
}

impl<'a> Frame<'a> {
    /// The names that were looked up in it, one through another.
    pub(super) fn into_names(self) -> HashSet<Arc<str>> {
        self.known.into_keys().collect()
    }

    /// A frame in which a pen's `let`s stand over the file's.
    pub(super) fn of_pen(lets: Vec<&'a ast::Let>) -> Self {
        Frame {
            pen: lets,
            ..Frame::default()
        }
    }

    /// A frame within this one, with a part's own `let`s.
    pub(super) fn within(&self, local: Vec<(&'a ast::Let, DefinitionId)>) -> Self {
        Frame {
            pen: self.pen.clone(),
            local,
            ..Frame::default()
        }
    }
}
