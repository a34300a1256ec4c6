//! Shelves.

use super::Resolver;
use super::clash::out_of_range;
use super::frame::Frame;
use super::lines::{incomplete, stated_twice};
use crate::{DefinitionKind, OnShelf, Priced, Quantity, Shelf, Ware};
use quillet_syntax::ast::{self, ItemKind, ShelfLineKind};
use quillet_syntax::{Finding, RuleId, Severity, Span, text};
use std::sync::Arc;

/// Nobody has more of one thing.
const MOST_KEPT: f64 = 10_000.0;

impl<'a> Resolver<'a> {
    /// All shelves; what is on them and in their prices is resolved before.
    pub(super) fn shelves(&mut self, frame: &mut Frame<'a>) {
        for item in self.scope.items.clone() {
            if let ItemKind::Shelf(shelf) = &item.kind {
                self.shelf_item(shelf, item.span, frame);
            }
        }
    }

    fn shelf_item(&mut self, item: &'a ast::Shelf, span: Span, frame: &mut Frame<'a>) {
        if let Some(first) = self.shelf_named(&item.name.text) {
            self.emit(stated_twice(item.name.span, first));
            return;
        }
        let shelf = Shelf {
            name: item.name.clone(),
            span,
            have: Vec::new(),
            prices: Vec::new(),
            hours: Vec::new(),
            rate: None,
        };
        let said = Vec::new();
        let mut filling = Filling { shelf, said };
        for line in &item.lines {
            self.shelf_line(line, &mut filling, frame);
        }
        self.design.shelves.push(Arc::new(filling.shelf));
    }

    fn shelf_line(
        &mut self,
        line: &'a ast::ShelfLine,
        filling: &mut Filling,
        frame: &mut Frame<'a>,
    ) {
        match &line.kind {
            ShelfLineKind::Have { ware, count } => {
                let wares = self.wares(ware, frame);
                let count = match count {
                    Some(count) => self.kept(count, frame),
                    None => Some(1),
                };
                let Some(count) = count else { return };
                let all = wares.into_iter().map(|ware| OnShelf { ware, count });
                filling.shelf.have.extend(all);
            }
            ShelfLineKind::Price { ware, price } => {
                let wares = self.wares(ware, frame);
                let Some(price) = self.money(price, "a price", frame) else {
                    return;
                };
                for ware in wares {
                    if self.once(line.span, Once::Price(ware.clone()), filling) {
                        filling.shelf.prices.push(Priced { ware, price });
                    }
                }
            }
            ShelfLineKind::Hours { pen, hours } => {
                let known = self.refer_to(pen, &[DefinitionKind::Pen], frame);
                let hours = self.money(hours, "a number of hours", frame);
                if let Some(hours) = hours.filter(|_| known)
                    && self.once(line.span, Once::Hours(pen.text.clone()), filling)
                {
                    filling.shelf.hours.push((pen.text.clone(), hours));
                }
            }
            ShelfLineKind::Rate(rate) => {
                if let Some(rate) = self.money(rate, "a rate", frame)
                    && self.once(line.span, Once::Rate, filling)
                {
                    filling.shelf.rate = Some(rate);
                }
            }
            ShelfLineKind::Bad => {}
        }
    }

    /// Whether something is said for the first time; where not, that is told.
    fn once(&mut self, line: Span, what: Once, filling: &mut Filling) -> bool {
        let first = filling.said.iter().find(|(_, it)| it.is(&what));
        let first = first.map(|it| it.0);
        match first {
            Some(first) => self.emit(stated_twice(line, first)),
            None => filling.said.push((line, what)),
        }
        first.is_none()
    }

    fn shelf_named(&self, name: &str) -> Option<Span> {
        let shelves = &mut self.design.shelves.iter();
        let same = shelves.find(|it| &*it.name.text == name && !name.is_empty());
        same.map(|it| it.name.span)
    }

    /// The wares of a line: a length of stock each, or a bought part.
    fn wares(&mut self, ware: &'a ast::Ware, frame: &mut Frame<'a>) -> Vec<Ware> {
        let known = self.scope.get(&ware.name.text).map(|it| it.definition);
        let kind = known.map(|it| self.design.names.definitions[it].kind);
        if kind == Some(DefinitionKind::Bought) && ware.stock.is_some() {
            let name = &ware.name.text;
            let message = format!("{name} is a bought part; a size belongs to a material");
            let finding = Finding::new(
                RuleId::UNKNOWN_NAME,
                Severity::Error,
                ware.name.span,
                message,
            );
            self.emit(finding.hint(format!("write how many: {name} 3")));
            return Vec::new();
        }
        let Some(stock) = &ware.stock else {
            if kind == Some(DefinitionKind::Material) {
                let name = &ware.name.text;
                let message = format!("{name} is a material; what stock of it is not said");
                let hint = format!("write its size and length, as: {name} rod 18 by 150");
                self.emit(incomplete(ware.name.span, message, &hint));
                return Vec::new();
            }
            let known = self.refer_to(&ware.name, &[DefinitionKind::Bought], frame);
            let bought = known.then(|| Ware::Bought(ware.name.text.clone()));
            return bought.into_iter().collect();
        };
        let material = self.material(&ware.name, frame);
        let size = self.positive(&stock.size, "stock", frame);
        let lengths = stock.lengths.iter();
        let lengths: Vec<_> = lengths
            .filter_map(|sum| self.positive(sum, "a length of stock", frame))
            .collect();
        let (Some(material), Some(size)) = (material, size) else {
            return Vec::new();
        };
        let ware = |length| Ware::Stock {
            material: material.clone(),
            section: stock.section,
            size,
            length,
        };
        lengths.into_iter().map(ware).collect()
    }

    /// A bare number from 0 on.
    fn money(&mut self, sum: &ast::Expr, what: &str, frame: &mut Frame<'a>) -> Option<f64> {
        self.amount(sum, what, Quantity::as_number, frame)
    }

    fn kept(&mut self, sum: &ast::Expr, frame: &mut Frame<'a>) -> Option<u32> {
        let count = self.amount(sum, "a number", Quantity::as_number, frame)?;
        if count.fract() == 0.0 && count <= MOST_KEPT {
            return Some(count as u32);
        }
        let message = text!(
            "{} is no count; a whole number from 0 to {} is expected",
            quillet_geometry::number(count, 3),
            quillet_geometry::number(MOST_KEPT, 0)
        );
        let hint = "write how many there are; a length of stock stands after by";
        self.emit(out_of_range(sum.span, message).hint(hint));
        None
    }
}

/// A shelf as far as it is read, with where each thing that is said once was said.
struct Filling {
    shelf: Shelf,
    said: Vec<(Span, Once)>,
}

/// What a shelf says once.
enum Once {
    Price(Ware),
    Hours(Arc<str>),
    Rate,
}

impl Once {
    fn is(&self, other: &Once) -> bool {
        match (self, other) {
            (Once::Price(one), Once::Price(other)) => one.is(other),
            (Once::Hours(one), Once::Hours(other)) => one == other,
            (Once::Rate, Once::Rate) => true,
            _ => false,
        }
    }
}
