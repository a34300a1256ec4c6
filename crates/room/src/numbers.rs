//! The numbers of a file that a maker may move, in the order of the text.

mod within;

use crate::Number;
use quillet_model::{Design, SourceFile};
use quillet_syntax::ast::ItemKind;
use quillet_syntax::visit::names;
use quillet_syntax::{Encoding, FileId, LineIndex, Position, Span, nearest};
use std::collections::{BTreeMap, BTreeSet};
use within::Within;

/// Every number of a file that a maker may move.
#[derive(Debug, Default)]
pub struct Numbers {
    all: Vec<Number>,
}

/// No number is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotFound {
    /// What was asked for.
    pub asked: String,
    /// The name that is nearest to it.
    pub nearest: Option<String>,
}

impl std::fmt::Display for NotFound {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "there is no number {} here", self.asked)?;
        match &self.nearest {
            Some(nearest) => write!(f, "; the nearest is {nearest}"),
            None => write!(f, "; `quillet room FILE` lists them"),
        }
    }
}

impl Numbers {
    /// Those of the file asked for: its own `let`s, and what its cut parts and pens say of lengths,
    /// outsides, cuts and joints. Of a file that says what was made those of the drawings that this is of,
    /// but for what is made.
    pub fn of(design: &Design) -> Self {
        let mut numbers = Self::default();
        let root = design.root().into_iter();
        for file in root.clone().chain(drawings(design)) {
            numbers.within(design, file);
        }
        let made = design.pens.iter().filter_map(|it| it.made.as_deref());
        let made = made.flat_map(|it| &it.statements);
        let made: Vec<Span> = made.filter_map(|it| it.drawn).collect();
        let own = root.map(|it| it.id).next();
        numbers.all.retain(|it| {
            let is_made = || made.iter().any(|made| made.contains(it.span));
            Some(it.span.file) == own || !is_made()
        });
        numbers.tell_apart();
        numbers
    }

    fn within(&mut self, design: &Design, file: &SourceFile) {
        let names: BTreeSet<Span> = names(&file.parsed.tree).iter().map(|it| it.span).collect();
        for item in &file.parsed.tree.items {
            let mut within = Within {
                design,
                root: file,
                names: &names,
                all: &mut self.all,
            };
            match &item.kind {
                ItemKind::Let(it) => within.a_let(it, ""),
                ItemKind::Part(part) => within.a_part(part),
                ItemKind::Pen(pen) => within.a_pen(pen),
                _ => {}
            }
        }
    }

    /// All of them, in the order of the text.
    pub fn all(&self) -> &[Number] {
        &self.all
    }

    /// The number of a name; `FILE:LINE:COLUMN` and `LINE:COLUMN` name the one that stands there.
    ///
    /// # Errors
    ///
    /// Where there is none, with the nearest name.
    pub fn find(&self, design: &Design, asked: &str) -> Result<&Number, NotFound> {
        let named = self.all.iter().find(|it| it.name == asked);
        named
            .or_else(|| self.at(design, asked))
            .ok_or_else(|| NotFound {
                asked: asked.to_owned(),
                nearest: nearest(asked, self.all.iter().map(|it| it.name.as_str()))
                    .map(str::to_owned),
            })
    }

    /// The numbers of these names; all, where none is given.
    ///
    /// # Errors
    ///
    /// Where one of them is not there, with the nearest name.
    pub fn named(&self, design: &Design, asked: &[String]) -> Result<Vec<&Number>, NotFound> {
        if asked.is_empty() {
            return Ok(self.all.iter().collect());
        }
        asked.iter().map(|it| self.find(design, it)).collect()
    }

    /// Those alone that stand in a file.
    pub fn in_file(mut self, file: FileId) -> Self {
        self.all.retain(|it| it.span.file == file);
        self
    }

    /// The number at a byte of a file.
    pub fn touching(&self, file: FileId, offset: usize) -> Option<&Number> {
        let mut own = self.all.iter().filter(|it| it.span.file == file);
        own.find(|it| it.span.touches(offset))
    }

    fn at(&self, design: &Design, asked: &str) -> Option<&Number> {
        let mut parts = asked.rsplit(':');
        let mut counted = || parts.next()?.parse::<u32>().ok()?.checked_sub(1);
        let (column, line) = (counted()?, counted()?);
        let lines = LineIndex::new(design.root()?.text.clone());
        let place = Position { line, column };
        self.touching(design.root()?.id, lines.offset(place, Encoding::Utf32)?)
    }

    /// Where several bear one name, each has its place in the row behind it.
    fn tell_apart(&mut self) {
        let mut counts: BTreeMap<String, usize> = BTreeMap::new();
        for number in &self.all {
            *counts.entry(number.name.clone()).or_default() += 1;
        }
        let mut met: BTreeMap<String, usize> = BTreeMap::new();
        for number in &mut self.all {
            if counts[&number.name] > 1 {
                let nth = met.entry(number.name.clone()).or_default();
                *nth += 1;
                if *nth > 1 {
                    number.name = format!("{}{nth}", number.name);
                }
            }
        }
    }
}

/// The files in which pens are drawn of which the file asked for says what was made.
fn drawings(design: &Design) -> Vec<&SourceFile> {
    let Some(root) = design.root() else {
        return Vec::new();
    };
    let made = design.pens.iter().filter(|it| it.span.file == root.id);
    let of = made.filter_map(|it| design.pen(&it.made.as_deref()?.of.text));
    let files: BTreeSet<FileId> = of.map(|it| it.span.file).collect();
    let other = files.into_iter().filter(|it| *it != root.id);
    other.filter_map(|it| design.file(it)).collect()
}
