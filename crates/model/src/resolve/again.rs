//! A design drawn again with some of its numbers changed: what none of them reaches is taken over.

use super::{Resolver, resolved};
use crate::{Design, Loaded, Names, Part, Pen};
use quillet_syntax::Span;
use quillet_syntax::ast::{self, ItemKind, Number};
use quillet_syntax::visit::{Node, path_at};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::sync::Arc;

/// A design that is drawn again and again, each time with some of its numbers changed.
///
/// What is drawn again stands at the places of the text as it is: nothing is read anew. Items that no
/// changed number reaches, through whatever names, are the very same [`Arc`]s as before.
#[derive(Debug)]
pub struct Redraw<'a> {
    loaded: &'a Loaded,
    drawn: Design,
    names: HashMap<Arc<str>, HashSet<Arc<str>>>,
    /// Each item, and all that are drawn otherwise where it is.
    reached: BTreeMap<Span, BTreeSet<Span>>,
}

/// What is known of a design while it is drawn again.
pub(super) struct Again<'a> {
    drawn: &'a Design,
    names: &'a HashMap<Arc<str>, HashSet<Arc<str>>>,
    numbers: &'a [(Span, Number)],
    /// The pen that is drawn again, and the one that it was made of; all, where none is named.
    pens: Option<Vec<&'a str>>,
    /// The items that a number reaches; none where everything is drawn anew.
    touched: Option<BTreeSet<Span>>,
    /// Whether the numbers lie in parts alone, so that no `let` comes to anything else.
    of_parts: bool,
}

impl<'a> Redraw<'a> {
    /// Of files as they were loaded.
    pub fn of(loaded: &'a Loaded) -> Self {
        let (drawn, names) = resolved(loaded, None);
        let reached = reached(&drawn);
        Redraw {
            loaded,
            drawn,
            names,
            reached,
        }
    }

    /// The design as it is drawn in the text.
    pub fn drawn(&self) -> &Design {
        &self.drawn
    }

    /// Whether a part or pen rests on what is written at a place.
    pub fn moves(&self, at: Span) -> bool {
        let shaped = self.drawn.parts.iter().map(|it| it.span);
        let mut shaped = shaped.chain(self.drawn.pens.iter().map(|it| it.span));
        let here = self.reached.iter().filter(|(item, _)| item.contains(at));
        let by: BTreeSet<Span> = here.flat_map(|(_, by)| by.iter().copied()).collect();
        shaped.any(|it| it.contains(at) || by.contains(&it))
    }

    /// The same with the numbers at these places written otherwise, each in the unit that it has; none
    /// where there is no number at one of the places.
    pub fn with(&self, numbers: &[(Span, Number)]) -> Option<Design> {
        self.of_pen(numbers, None)
    }

    /// The same where one pen alone is asked for: the others stay as they are drawn.
    pub fn of_pen(&self, numbers: &[(Span, Number)], pen: Option<&str>) -> Option<Design> {
        let mut touched = BTreeSet::new();
        let mut of_parts = true;
        for (span, _) in numbers {
            let file = self.drawn.file(span.file)?;
            let path = path_at(&file.parsed.tree, span.range().start);
            let literal = path.iter().any(|node| match node {
                Node::Expr(it) => {
                    it.span == *span && matches!(it.kind, ast::ExprKind::Quantity { .. })
                }
                _ => false,
            });
            let items = &file.parsed.tree.items;
            let item = items.iter().find(|it| it.span.contains(*span));
            let item = item.filter(|_| literal)?;
            of_parts &= matches!(item.kind, ItemKind::Part(_));
            touched.extend(self.reached.get(&item.span).into_iter().flatten());
            touched.insert(item.span);
        }
        // Of a design that could not all be resolved, what is told of one item may rest on another.
        let sound = self.drawn.findings.is_empty();
        // What is made is held against its drawing.
        let made_of = |pen: &str| Some(&*self.drawn.pen(pen)?.made.as_ref()?.of.text);
        let again = Again {
            drawn: &self.drawn,
            names: &self.names,
            numbers,
            pens: pen.map(|pen| [pen].into_iter().chain(made_of(pen)).collect()),
            touched: sound.then_some(touched),
            of_parts,
        };
        Some(resolved(self.loaded, Some(again)).0)
    }
}

impl<'a> Again<'a> {
    /// Whether a pen is asked for.
    fn asks_for(&self, pen: &str) -> bool {
        self.pens.as_ref().is_none_or(|pens| pens.contains(&pen))
    }

    /// All names, where what is as it was is taken over.
    pub(super) fn names(&self) -> Option<&'a Names> {
        self.touched.is_some().then_some(&self.drawn.names)
    }
}

impl<'a> Resolver<'a> {
    /// Whether an item is as it was drawn before.
    pub(super) fn keeps(&self, item: &ast::Item) -> Option<&'a Design> {
        let again = self.again.as_ref()?;
        let touched = again.touched.as_ref()?;
        (!touched.contains(&item.span)).then_some(again.drawn)
    }

    /// Whether an item that its name stands for is to be worked out; one that is as it was is taken over.
    pub(super) fn is_anew(&mut self, item: &ast::Item, name: &ast::Name) -> bool {
        if !self.scope.is_first(item, name) {
            return false;
        }
        let Some(drawn) = self.keeps(item) else {
            return true;
        };
        let named = name.text.clone();
        match &item.kind {
            ItemKind::Material(_) => {
                let kept = drawn.materials.iter().find(|it| it.name == named);
                let (all, known) = (&mut self.design.materials, &mut self.known.materials);
                take_over(kept, named, all, known);
            }
            ItemKind::Thread(_) => {
                let kept = drawn.threads.iter().find(|it| it.span == item.span);
                let (all, known) = (&mut self.design.threads, &mut self.known.threads);
                take_over(kept, named, all, known);
            }
            ItemKind::Blank(_) => {
                let kept = drawn.blanks.iter().find(|it| it.span == item.span);
                let (all, known) = (&mut self.design.blanks, &mut self.known.blanks);
                take_over(kept, named, all, known);
            }
            ItemKind::Bench(_) => {
                let kept = drawn.benches.iter().find(|it| it.span == item.span);
                self.design.benches.extend(kept.into_iter().cloned());
            }
            _ => {}
        }
        false
    }

    /// A part that is as it was, and the names that its sums look up.
    pub(super) fn kept_part(&self, item: &ast::Item) -> Option<(Arc<Part>, HashSet<Arc<str>>)> {
        let part = self
            .keeps(item)?
            .parts
            .iter()
            .find(|it| it.span == item.span)?;
        let names = self.again.as_ref()?.names.get(&part.name.text)?;
        Some((part.clone(), names.clone()))
    }

    /// A pen as it was drawn before.
    pub(super) fn drawn_pen(&self, item: &ast::Item) -> Option<&'a Pen> {
        let mut pens = self.again.as_ref()?.drawn.pens.iter();
        pens.find(|it| it.span == item.span)
    }

    /// A pen that is as it was.
    pub(super) fn kept_pen(&self, item: &ast::Item) -> Option<Pen> {
        let again = self.again.as_ref()?;
        let drawn = self.drawn_pen(item)?;
        let kept = !again.asks_for(&drawn.name.text) && again.touched.is_some()
            || self.keeps(item).is_some();
        kept.then(|| drawn.clone())
    }

    /// A pen that was made and is as it was: one that is not asked for.
    pub(super) fn kept_made(&self, item: &ast::Item, name: &str) -> Option<Pen> {
        let again = self.again.as_ref()?;
        let drawn = self.drawn_pen(item)?;
        (!again.asks_for(name) && again.touched.is_some()).then(|| drawn.clone())
    }

    /// A part that is as it was in a pen whose `let`s are as they were.
    pub(super) fn kept_in(&self, pen: &Pen, item: &ast::Item) -> Option<Arc<Part>> {
        let again = self.again.as_ref().filter(|it| it.of_parts)?;
        let pens = &again.drawn.pens;
        let drawn = self
            .keeps(item)
            .and_then(|_| pens.iter().find(|it| it.span == pen.span))?;
        drawn.parts.iter().find(|it| it.span == item.span).cloned()
    }

    /// What a literal comes to where it is changed.
    pub(super) fn changed(&self, at: Span) -> Option<Number> {
        let numbers = self.again.as_ref()?.numbers;
        numbers.iter().find(|it| it.0 == at).map(|it| it.1)
    }
}

/// Adds what is as it was to all of its kind, and to what is known by name.
fn take_over<T>(
    kept: Option<&Arc<T>>,
    named: Arc<str>,
    all: &mut Vec<Arc<T>>,
    known: &mut HashMap<Arc<str>, Arc<T>>,
) {
    if let Some(kept) = kept {
        all.push(kept.clone());
        known.insert(named, kept.clone());
    }
}

/// Each item of a design that others rest on, with all of those, however many names are between.
fn reached(design: &Design) -> BTreeMap<Span, BTreeSet<Span>> {
    let trees = design.files.iter().map(|it| &it.parsed.tree);
    let items: BTreeSet<Span> = trees
        .flat_map(|it| it.items.iter().map(|it| it.span))
        .collect();
    let holds = |place: Span| {
        let before = items.range(
            ..=Span {
                end: u32::MAX,
                ..place
            },
        );
        before.last().copied().filter(|it| it.contains(place))
    };
    let mut next: BTreeMap<Span, BTreeSet<Span>> = BTreeMap::new();
    for reference in &design.names.references {
        let of = design.names.definitions[reference.definition].span;
        if let Some((of, by)) = holds(of).zip(holds(reference.span)) {
            next.entry(of).or_default().insert(by);
        }
    }
    let all = next.keys().map(|item| {
        let mut found = BTreeSet::new();
        let mut open = vec![*item];
        while let Some(item) = open.pop() {
            for by in next.get(&item).into_iter().flatten() {
                if found.insert(*by) {
                    open.push(*by);
                }
            }
        }
        (*item, found)
    });
    all.collect()
}
