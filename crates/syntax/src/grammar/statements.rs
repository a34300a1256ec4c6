//! The statements, one file a block: how each is written, what it holds, how it is read.

pub(crate) mod bench;
pub(crate) mod cut;
pub(crate) mod item;
pub(crate) mod joint;
pub(crate) mod material;
pub(crate) mod part;
pub(crate) mod pen;
pub(crate) mod shared;
pub(crate) mod station;
pub(crate) mod sum;

use super::{Place, Word};

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

    const fn rule(self, rule: &'static str) -> Self {
        Self { rule, ..self }
    }

    const fn block(self, place: Place) -> Self {
        let block = Some(place);
        Self { block, ..self }
    }
}

/// Every statement, by place, in the manual's order.
pub fn statements() -> impl Iterator<Item = &'static Statement> {
    [
        item::STATEMENTS,
        material::STATEMENTS,
        part::STATEMENTS,
        station::STATEMENTS,
        cut::STATEMENTS,
        pen::STATEMENTS,
        joint::STATEMENTS,
        bench::STATEMENTS,
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
const fn word(place: Place, text: &'static str, help: &'static str, example: &'static str) -> Word {
    Word {
        place,
        text,
        help,
        example,
    }
}
