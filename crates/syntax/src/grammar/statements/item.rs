//! Items: what stands in a file.

use super::made::made;
use super::phrase::{form, stock};
use super::shared::{let_, limit, maybe_open, open};
use super::{
    Holds, NameKind, Statement, Visit, all, defines, goes_on, one, refers, some, statement,
};
use crate::Span;
use crate::ast::*;
use crate::grammar::expect::Thing;
use crate::grammar::expr::ExprParsers;
use crate::grammar::input::*;
use crate::grammar::{Place, Word};
use crate::token::TokenKind as T;
use chumsky::prelude::*;
use quillet_standards::Units;

/// How each is written.
// A row a line: it is read and changed as a table.
#[rustfmt::skip]
pub(crate) const STATEMENTS: &[Statement] = &[
    statement(Place::Item, "use \"PATH\"", "Another file's items come in, each file once", "use \"saltings.quillet\""),
    statement(Place::Item, "let NAME = SUM", "Names a quantity or a material", "let grip = 11.4"),
    statement(Place::Item, "limit RULE = SUM", "Sets the threshold of a rule from here inward; the nearest wins", "limit thin-wall = 0.9"),
    statement(Place::Item, "material NAME [\"TITLE\"] {…}", "A material of your own; its kind gives what is not said", "material tide \"Tide resin\" { kind acrylic }")
        .block(Place::Material),
    statement(Place::Item, "thread NAME = DESIGNATION [starts COUNT]", "Names a thread, so that both parts of a joint say the same", "thread closing = M13x0.8 starts 3"),
    statement(Place::Item, "blank NAME of MATERIAL (rod DIAMETER | square SIDE | tube DIAMETER wall THICKNESS) [by LENGTH] [matched]", "Stock that several parts are cut from, for the cut list", "blank stick of reed rod 18 by 150"),
    statement(Place::Item, "part NAME (from FIRST to SECOND | like PART) {…}", "A part you cut; stations run from its first end (0) to its second", "part cap from mouth to crown { length 64 }")
        .rule("part NAME (from FIRST to SECOND {…} | like PART [{…}])")
        .block(Place::Part),
    statement(Place::Item, "bought NAME [\"TITLE\"] (from FIRST to SECOND | like PART) {…}", "A part bought and measured: nib unit, converter, clip, spring, ring", "bought converter from mouth to knob { length 73 }")
        .rule("bought NAME [\"TITLE\"] ([from FIRST to SECOND] {…} | like PART [{…}])")
        .block(Place::Part),
    statement(Place::Item, "bench NAME [\"TITLE\"] {…}", "What tools and machines there are", "bench saltings { drills 1..13 step 0.1 }")
        .block(Place::Bench),
    statement(Place::Item, "shelf NAME {…}", "What stock and parts you have, what they cost, and your hours", "shelf saltings { have reed rod 18 by 150, 96.5 }")
        .block(Place::Shelf),
    statement(Place::Item, "pen NAME [\"TITLE\"] [like PEN] {…}", "How parts meet, and what is wanted of the whole", "pen heron \"Heron\" { close cap.mouth onto barrel.mouth }")
        .block(Place::Pen),
    statement(Place::Item, "made NAME [on \"DATE\"] of PEN {…}", "What came out of one pen, as the caliper read it", "made ida-1 of heron { part cap { from mouth { drill 12.25 to 53.7 } } }")
        .block(Place::Made),
];

/// The words that go on in them.
#[rustfmt::skip]
pub(crate) const WORDS: &[Word] = &[
    goes_on(Place::File, "dimensions", "Bare lengths in this file are inches", "dimensions in inches"),
    goes_on(Place::File, "inches", "Bare lengths in this file are inches", "dimensions in inches"),

    goes_on(Place::Header, "from", "Names the end at station 0", "part cap from mouth to crown { length 64 }"),
    goes_on(Place::Header, "to", "Names the end at the far station", "part cap from mouth to crown { length 64 }"),
    goes_on(Place::Header, "like", "The same as another, with the changes in its block", "pen heron-ida \"Heron for Ida\" like heron { let grip = 11.0 }"),

    goes_on(Place::Form, "starts", "How many starts the thread has; the lead is pitch times starts", "thread closing = M13x0.8 starts 3"),

    goes_on(Place::Stock, "of", "Names the material", "blank of reed rod 18"),
    goes_on(Place::Stock, "rod", "Round stock of a diameter", "blank of reed rod 18"),
    goes_on(Place::Stock, "square", "Square stock of a side", "blank of reed square 20"),
    goes_on(Place::Stock, "tube", "Tube stock of an outside diameter; it brings its own bore", "blank of brass tube 9.5 wall 0.45"),
    goes_on(Place::Stock, "wall", "How thick the tube's wall is", "blank of brass tube 9.5 wall 0.45"),
    goes_on(Place::Stock, "by", "The stock's length", "blank stick of reed rod 18 by 150"),
    goes_on(Place::Stock, "matched", "Its parts follow each other as in the pen, so that grain or pattern runs on", "blank stick of reed rod 18 by 300 matched"),
];

/// A whole file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct File {
    /// `dimensions in inches`, where the file begins so.
    pub inches: Option<Span>,
    /// The items in the order written.
    pub items: Vec<Item>,
}

impl File {
    /// What its bare lengths are counted in.
    pub fn units(&self) -> Units {
        match self.inches {
            Some(_) => Units::Inches,
            None => Units::Millimetres,
        }
    }
}

/// One item.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// The whole item, from its keyword to its last token.
    pub span: Span,
    /// The comment lines directly above it, without `--`, joined by newlines.
    pub note: Option<Box<Text>>,
    /// What it is.
    pub kind: ItemKind,
}

/// The kinds of item. What is large is boxed: a file may hold a million of the small ones.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs, reason = "each variant is documented at its type")]
pub enum ItemKind {
    Use(Text),
    Let(Let),
    Limit(Limit),
    Material(Box<Material>),
    Thread(Box<ThreadItem>),
    Blank(Box<BlankItem>),
    Part(Box<Part>),
    Bought(Box<Part>),
    Bench(Box<Bench>),
    Shelf(Box<Shelf>),
    Pen(Box<Pen>),
    Made(Box<Made>),
    /// Text that is no item.
    Bad,
}

/// `thread name = form`
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadItem {
    /// The name it defines.
    pub name: Name,
    /// The thread.
    pub form: Form,
}

/// `blank name of material rod D by L [matched]`
#[derive(Clone, Debug, PartialEq)]
pub struct BlankItem {
    /// The name it defines.
    pub name: Name,
    /// The stock.
    pub stock: Stock,
    /// `matched`: its parts follow each other in the order of the pen, so that grain or
    /// pattern runs on.
    pub matched: Option<Span>,
}

/// An item without what its block holds.
pub(crate) fn item<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, ItemKind> + use<'s> {
    let use_ = word("use").ignore_then(needed_string(Thing::Path));
    choice((
        use_.map(ItemKind::Use),
        let_(sums).map(ItemKind::Let),
        limit(sums).map(ItemKind::Limit),
        material().map(|it| ItemKind::Material(Box::new(it))),
        thread(sums).map(|it| ItemKind::Thread(Box::new(it))),
        blank(sums).map(|it| ItemKind::Blank(Box::new(it))),
        part().map(|it| ItemKind::Part(Box::new(it))),
        bought().map(|it| ItemKind::Bought(Box::new(it))),
        bench().map(|it| ItemKind::Bench(Box::new(it))),
        shelf().map(|it| ItemKind::Shelf(Box::new(it))),
        pen().map(|it| ItemKind::Pen(Box::new(it))),
        made().map(|it| ItemKind::Made(Box::new(it))),
    ))
    .then_ignore(line_end())
}

/// `dimensions in inches`
pub(crate) fn inches<'s>() -> impl TokenParser<'s, crate::Span> {
    // `in` is a unit, not a word, wherever it does not touch a number.
    word("dimensions")
        .ignore_then(needed_word("in"))
        .ignore_then(needed_word("inches"))
        .map_with(|(), extra| extra.span())
        .then_ignore(line_end())
}

fn thread<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, ThreadItem> + use<'s> {
    let missing = empty().map_with(|(), extra| {
        let span = nothing(extra.span());
        let designation = Text {
            text: "".into(),
            span,
        };
        Form {
            span,
            designation,
            starts: None,
        }
    });
    word("thread")
        .ignore_then(needed_name(Thing::Name))
        .then_ignore(needed(T::Equals, Thing::Equals))
        .then(form(sums).recover_with(via_parser(missing)))
        .map(|(name, form)| ThreadItem { name, form })
}

fn blank<'s>(sums: &ExprParsers<'s>) -> impl TokenParser<'s, BlankItem> + use<'s> {
    word("blank")
        .ignore_then(needed_name(Thing::Name))
        .then(stock(sums))
        .then(word("matched").or_not())
        .map(|((name, stock), matched)| BlankItem {
            name,
            stock,
            matched,
        })
}

/// What follows the name of a part: its ends, or the part it is like.
type Header = (Option<[Name; 2]>, Option<Name>);

fn part<'s>() -> impl TokenParser<'s, Part> {
    word("part")
        .ignore_then(needed_name(Thing::Name))
        .then(ends().or(like()).recover_with(via_parser(lost_header())))
        .map(|(name, (ends, like))| Part {
            name,
            title: None,
            ends,
            like,
            block: None,
            lines: Vec::new(),
        })
}

fn bought<'s>() -> impl TokenParser<'s, Part> {
    let no_ends = token(T::Open, Thing::Open).map(|_| (None, None));
    word("bought")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then(choice((ends(), like(), no_ends)).recover_with(via_parser(lost_header())))
        .map(|((name, title), (ends, like))| Part {
            name,
            title,
            ends,
            like,
            block: None,
            lines: Vec::new(),
        })
}

fn ends<'s>() -> impl TokenParser<'s, Header> {
    word("from")
        .ignore_then(needed_name(Thing::End))
        .then_ignore(needed_word("to"))
        .then(needed_name(Thing::End))
        .then_ignore(open())
        .map(|(first, second)| (Some([first, second]), None))
}

fn like<'s>() -> impl TokenParser<'s, Header> {
    word("like")
        .ignore_then(needed_name(Thing::Part))
        .then_ignore(maybe_open())
        .map(|like| (None, Some(like)))
}

/// A header that cannot be read, so that the block after it still can.
fn lost_header<'s>() -> impl TokenParser<'s, Header> {
    any().repeated().map(|()| (None, None))
}

fn material<'s>() -> impl TokenParser<'s, Material> {
    word("material")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then_ignore(open())
        .map(|(name, title)| Material {
            name,
            title,
            lines: Vec::new(),
        })
}

fn bench<'s>() -> impl TokenParser<'s, Bench> {
    word("bench")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then_ignore(open())
        .map(|(name, title)| Bench {
            name,
            title,
            block: None,
            tools: Vec::new(),
        })
}

fn shelf<'s>() -> impl TokenParser<'s, Shelf> {
    word("shelf")
        .ignore_then(needed_name(Thing::Name))
        .then_ignore(open())
        .map(|name| Shelf {
            name,
            block: None,
            lines: Vec::new(),
        })
}

fn pen<'s>() -> impl TokenParser<'s, Pen> {
    let like = word("like").ignore_then(needed_name(Thing::Name));
    word("pen")
        .ignore_then(needed_name(Thing::Name))
        .then(string(Thing::Title).or_not())
        .then(like.or_not())
        .then_ignore(open())
        .map(|((name, title), like)| Pen {
            name,
            title,
            like,
            block: None,
            lines: Vec::new(),
        })
}

impl Holds for Item {
    fn each<'t>(&'t self, visit: Visit<'_, 't>) {
        match &self.kind {
            ItemKind::Use(path) => one(path, visit),
            ItemKind::Let(node) => one(node, visit),
            ItemKind::Limit(node) => one(node, visit),
            ItemKind::Material(material) => {
                defines(NameKind::Material, &material.name, visit);
                some(&material.title, visit);
                all(&material.lines, visit);
            }
            ItemKind::Thread(thread) => {
                defines(NameKind::Thread, &thread.name, visit);
                one(&thread.form, visit);
            }
            ItemKind::Blank(blank) => {
                defines(NameKind::Blank, &blank.name, visit);
                one(&blank.stock, visit);
            }
            ItemKind::Part(part) | ItemKind::Bought(part) => {
                defines(NameKind::Part, &part.name, visit);
                some(&part.title, visit);
                for end in part.ends.iter().flatten() {
                    defines(NameKind::End, end, visit);
                }
                if let Some(like) = &part.like {
                    refers(NameKind::Part, like, visit);
                }
                all(&part.lines, visit);
            }
            ItemKind::Bench(bench) => {
                defines(NameKind::Bench, &bench.name, visit);
                some(&bench.title, visit);
                all(&bench.tools, visit);
            }
            ItemKind::Shelf(shelf) => {
                defines(NameKind::Shelf, &shelf.name, visit);
                all(&shelf.lines, visit);
            }
            ItemKind::Pen(pen) => {
                defines(NameKind::Pen, &pen.name, visit);
                some(&pen.title, visit);
                if let Some(like) = &pen.like {
                    refers(NameKind::Pen, like, visit);
                }
                all(&pen.lines, visit);
            }
            ItemKind::Made(made) => {
                defines(NameKind::Made, &made.name, visit);
                some(&made.on, visit);
                refers(NameKind::Pen, &made.of, visit);
                all(&made.lines, visit);
            }
            ItemKind::Bad => {}
        }
    }
}
