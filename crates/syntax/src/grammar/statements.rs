//! The statements, one file a block: how each is written, what it holds, how it is read.

pub(crate) mod bench;
pub(crate) mod cut;
pub(crate) mod item;
pub(crate) mod joint;
pub(crate) mod made;
pub(crate) mod material;
pub(crate) mod part;
pub(crate) mod pen;
pub(crate) mod phrase;
pub(crate) mod shared;
pub(crate) mod shelf;
pub(crate) mod side;
pub(crate) mod station;
pub(crate) mod sum;

use super::{Place, Word};
use crate::Span;
use crate::ast::*;

/// One statement of the language.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Statement {
    /// Where it may stand.
    pub place: Place,
    /// How it is written, as a maker is shown it; `rule` may say more.
    ///
    /// Lower-case words stand as they are, capitals for what is filled in; brackets hold what may be
    /// left out, parentheses what there is a choice of, `{…}` is a block.
    pub form: &'static str,
    /// The same, whole: with what is written seldom, and nothing that is not the language's.
    pub rule: &'static str,
    /// What stands in its block.
    pub block: Option<Place>,
    /// One sentence that says what it means there, without a full stop.
    pub help: &'static str,
    /// One line of it.
    pub example: &'static str,
}

impl Statement {
    /// The word that begins it.
    pub fn word(&self) -> &'static str {
        self.form.split(' ').next().unwrap_or("")
    }

    /// Whether it cannot be without its block; `alone` where nothing follows its word.
    fn wants_block(&self, alone: bool) -> bool {
        self.form.ends_with(" {…}") || alone && self.form.contains("({…}")
    }

    const fn rule(self, rule: &'static str) -> Self {
        Self { rule, ..self }
    }

    const fn block(self, place: Place) -> Self {
        let block = Some(place);
        Self { block, ..self }
    }
}

/// Whether a word begins a statement that cannot be without its block; `alone` where nothing follows
/// the word.
pub(crate) fn wants_block(word: &str, alone: bool) -> bool {
    statements().any(|it| it.word() == word && it.wants_block(alone))
}

/// Every statement, by place, in the manual's order.
pub fn statements() -> impl Iterator<Item = &'static Statement> {
    [
        item::STATEMENTS,
        material::STATEMENTS,
        part::STATEMENTS,
        station::STATEMENTS,
        cut::STATEMENTS,
        side::STATEMENTS,
        pen::STATEMENTS,
        joint::STATEMENTS,
        bench::STATEMENTS,
        shelf::STATEMENTS,
        made::STATEMENTS,
    ]
    .into_iter()
    .flatten()
}

/// The statement of a place that begins with a word.
pub fn statement_of(place: Place, word: &str) -> Option<&'static Statement> {
    statements().find(|it| it.place == place && it.word() == word)
}

/// A row of a block's statements; its rule is its form, and it has no block, where nothing else is said.
const fn statement(
    place: Place,
    form: &'static str,
    help: &'static str,
    example: &'static str,
) -> Statement {
    Statement {
        place,
        form,
        rule: form,
        block: None,
        help,
        example,
    }
}

/// A row of the words that go on in a block's statements.
const fn goes_on(
    place: Place,
    text: &'static str,
    help: &'static str,
    example: &'static str,
) -> Word {
    Word {
        place,
        text,
        help,
        example,
    }
}

/// What lies in a node, told one by one, in the text's order.
pub(crate) type Visit<'v, 't> = &'v mut dyn FnMut(Node<'t>);

/// What may hold nodes of the tree.
pub(crate) trait Holds {
    /// Visits what it holds.
    fn each<'t>(&'t self, visit: Visit<'_, 't>);
}

macro_rules! nodes {
    ($($Kind:ident)*) => {
        /// A node of the tree.
        #[derive(Clone, Copy, Debug)]
        #[allow(missing_docs, reason = "each variant is documented at its type")]
        pub enum Node<'t> {
            $($Kind(&'t $Kind),)*
            Joint(&'t Joint),
            Name(NameUse<'t>),
        }

        impl<'t> Node<'t> {
            /// Where it stands.
            pub fn span(self) -> Span {
                match self {
                    $(Node::$Kind(node) => node.span,)*
                    Node::Joint(node) => node.span(),
                    Node::Name(name) => name.span,
                }
            }

            /// Visits what it holds.
            pub(crate) fn each(self, visit: Visit<'_, 't>) {
                match self {
                    $(Node::$Kind(node) => node.each(visit),)*
                    Node::Joint(node) => node.each(visit),
                    Node::Name(_) => {}
                }
            }
        }

        $(impl<'t> From<&'t $Kind> for Node<'t> {
            fn from(node: &'t $Kind) -> Self {
                Node::$Kind(node)
            }
        })*
    };
}

nodes! {
    Item Let Limit Accept Want MaterialLine Form Stock Line Spigot Station Shape Edge Feature Reach
    SideLine Stretch Size PenLine JointOption JointLine Face ToolLine ShelfLine MadeLine Run Range Expr Text
}

impl Node<'_> {
    /// Whether it is a statement: an item, or a line of a block.
    pub fn is_statement(self) -> bool {
        matches!(
            self,
            Node::Item(_)
                | Node::MaterialLine(_)
                | Node::Line(_)
                | Node::Station(_)
                | Node::Feature(_)
                | Node::SideLine(_)
                | Node::PenLine(_)
                | Node::JointLine(_)
                | Node::ToolLine(_)
                | Node::ShelfLine(_)
                | Node::MadeLine(_)
        )
    }
}

impl<'t> From<&'t Joint> for Node<'t> {
    fn from(node: &'t Joint) -> Self {
        Node::Joint(node)
    }
}

/// A name with what it stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NameUse<'t> {
    /// The name.
    pub text: &'t str,
    /// Where it stands.
    pub span: Span,
    /// Whether it is defined or used here.
    pub role: Role,
    /// What it names, as far as the grammar tells.
    pub sort: NameKind,
}

/// Whether a name is defined or used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// It gets its meaning here.
    Defines,
    /// It stands for what is defined elsewhere.
    Refers,
}

/// What a name names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NameKind {
    /// A quantity, or whatever else may stand in a sum: a material, an end, a part, a state.
    Quantity,
    /// A rule of the checker.
    Rule,
    /// A material.
    Material,
    /// A built-in kind of material.
    Kind,
    /// A thread.
    Thread,
    /// A piece of stock.
    Blank,
    /// A part, cut or bought.
    Part,
    /// A bench.
    Bench,
    /// A pen.
    Pen,
    /// A shelf.
    Shelf,
    /// What was made of a pen.
    Made,
    /// An end of a part.
    End,
    /// An end or another face of a part.
    Face,
    /// A function or a measure.
    Function,
}

fn one<'t, T>(node: &'t T, visit: Visit<'_, 't>)
where
    Node<'t>: From<&'t T>,
{
    visit(node.into());
}

fn some<'t, T>(node: &'t Option<T>, visit: Visit<'_, 't>)
where
    Node<'t>: From<&'t T>,
{
    all(node.as_slice(), visit);
}

fn all<'t, T>(nodes: &'t [T], visit: Visit<'_, 't>)
where
    Node<'t>: From<&'t T>,
{
    for node in nodes {
        visit(node.into());
    }
}

fn defines<'t>(sort: NameKind, name: &'t Name, visit: Visit<'_, 't>) {
    named(Role::Defines, sort, name, visit);
}

fn refers<'t>(sort: NameKind, name: &'t Name, visit: Visit<'_, 't>) {
    named(Role::Refers, sort, name, visit);
}

fn named<'t>(role: Role, sort: NameKind, name: &'t Name, visit: Visit<'_, 't>) {
    visit(Node::Name(NameUse {
        text: &name.text,
        span: name.span,
        role,
        sort,
    }));
}
