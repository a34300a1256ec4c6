//! Lines of a shelf.

use super::{Holds, NameKind, Statement, Visit, all, goes_on, one, refers, some, statement};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use crate::token::TokenKind as T;
use chumsky::prelude::*;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Shelf, "have WARE [(rod DIAMETER | square SIDE) by LENGTHS] [COUNT]", "Stock by its lengths, or a bought part and how many of it", "have reed rod 18 by 150, 150, 96.5"),
    statement(Place::Shelf, "price WARE [(rod DIAMETER | square SIDE) by LENGTHS] = AMOUNT", "What a length of stock or a bought part costs, in money of your own", "price reed rod 18 by 150 = 9.50"),
    statement(Place::Shelf, "hours PEN HOURS", "How many hours a pen takes", "hours heron 6.5"),
    statement(Place::Shelf, "rate AMOUNT", "What an hour costs", "rate 30"),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::ShelfTail, "rod", "Round stock of a diameter", "have reed rod 18 by 150"),
    goes_on(Place::ShelfTail, "square", "Square stock of a side", "have reed square 20 by 150"),
    goes_on(Place::ShelfTail, "by", "The length of each piece", "have reed rod 18 by 150, 96.5"),
];

/// `shelf name { … }`
#[derive(Clone, Debug, PartialEq)]
pub struct Shelf {
    /// Its name.
    pub name: Name,
    /// The block, from brace to brace.
    pub block: Option<Span>,
    /// The lines.
    pub lines: Vec<ShelfLine>,
}

/// A line of a shelf, with its span.
#[derive(Clone, Debug, PartialEq)]
pub struct ShelfLine {
    /// Where it stands.
    pub span: Span,
    /// What it says.
    pub kind: ShelfLineKind,
}

/// What a line of a shelf says.
#[derive(Clone, Debug, PartialEq)]
pub enum ShelfLineKind {
    /// `have ware [count]`
    Have {
        /// What is there.
        ware: Ware,
        /// How many; one where it is not said.
        count: Option<Expr>,
    },
    /// `price ware = sum`
    Price {
        /// What it is the price of.
        ware: Ware,
        /// How much.
        price: Expr,
    },
    /// `hours pen sum`
    Hours {
        /// The pen.
        pen: Name,
        /// How many.
        hours: Expr,
    },
    /// `rate sum`
    Rate(Expr),
    /// Text that is no such line.
    Bad,
}

/// What is kept on a shelf: stock of a material, or a bought part.
#[derive(Clone, Debug, PartialEq)]
pub struct Ware {
    /// A material where it is stock, else a bought part.
    pub name: Name,
    /// Its section, size and lengths, where it is stock.
    pub stock: Option<WareStock>,
}

/// `(rod size | square size) by length { , length }`
#[derive(Clone, Debug, PartialEq)]
pub struct WareStock {
    /// Round or square.
    pub section: StockSection,
    /// Diameter or side.
    pub size: Expr,
    /// The length of each piece.
    pub lengths: Vec<Expr>,
}

/// A line of a shelf.
pub(crate) fn shelf_line<'s>(
    sums: &ExprParsers<'s>,
) -> impl TokenParser<'s, ShelfLineKind> + use<'s> {
    use ShelfLineKind as Kind;
    let have = word("have")
        .ignore_then(ware(sums))
        .then(sums.maybe(Thing::Count))
        .map(|(ware, count)| Kind::Have { ware, count });
    let price = word("price")
        .ignore_then(ware(sums))
        .then_ignore(needed(T::Equals, Thing::Equals))
        .then(sums.needed(Thing::Quantity))
        .map(|(ware, price)| Kind::Price { ware, price });
    let hours = word("hours")
        .ignore_then(needed_name(Thing::Name))
        .then(sums.needed(Thing::Quantity))
        .map(|(pen, hours)| Kind::Hours { pen, hours });
    let rate = sums.after("rate", Thing::Quantity).map(Kind::Rate);
    choice((have, price, hours, rate)).then_ignore(line_end())
}

/// `name [(rod size | square size) by lengths]`
fn ware<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, Ware> + use<'s> {
    let section = choice((
        word("rod").to(StockSection::Rod),
        word("square").to(StockSection::Square),
    ));
    let lengths = sums
        .needed(Thing::Length)
        .separated_by(token(T::Comma, Thing::Comma))
        .at_least(1)
        .collect();
    let stock = section
        .then(sums.needed(Thing::Diameter))
        .then_ignore(needed_word("by"))
        .then(lengths)
        .map(|((section, size), lengths)| WareStock {
            section,
            size,
            lengths,
        });
    needed_name(Thing::Ware)
        .then(stock.or_not())
        .map(|(name, stock)| Ware { name, stock })
}

impl Holds for ShelfLine {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            ShelfLineKind::Have { ware, count } => {
                ware.each(visit);
                some(count, visit);
            }
            ShelfLineKind::Price { ware, price } => {
                ware.each(visit);
                one(price, visit);
            }
            ShelfLineKind::Hours { pen, hours } => {
                refers(NameKind::Pen, pen, visit);
                one(hours, visit);
            }
            ShelfLineKind::Rate(rate) => one(rate, visit),
            ShelfLineKind::Bad => {}
        }
    }
}

/// No node of its own.
impl Holds for Ware {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        let kind = match self.stock {
            Some(_) => NameKind::Material,
            None => NameKind::Part,
        };
        refers(kind, &self.name, visit);
        if let Some(stock) = &self.stock {
            one(&stock.size, visit);
            all(&stock.lengths, visit);
        }
    }
}
