//! Items that bear another name and are else the same.

use super::statement::Statement;
use quillet_model::{DefinitionId, DefinitionKind, Design, ReadError, Source, SourceFile};
use quillet_syntax::{Edit, Span, edited};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Two that share this much of their statements are one that is called otherwise.
const ALIKE: f64 = 0.6;

/// An item that bears another name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Renamed {
    /// `part`, `thread`, `pen`.
    pub(crate) kind: String,
    pub(crate) old: String,
    pub(crate) new: String,
}

/// The items of two states that bear other names, each the best for the other.
pub(crate) fn renamed(old: &[&Statement], new: &[&Statement]) -> Vec<Renamed> {
    let named =
        |all: &[&Statement]| -> BTreeSet<String> { all.iter().map(|it| it.name()).collect() };
    let (before, now) = (named(old), named(new));
    let left = |all: &[&Statement], others: &BTreeSet<String>| -> Vec<Statement> {
        let alone = all
            .iter()
            .filter(|it| can_be(it) && !others.contains(&it.name()));
        alone.map(|it| (*it).clone()).collect()
    };
    let (gone, come) = (left(old, &now), left(new, &before));
    let likeness = |a: &Statement, b: &Statement| match a.verb() == b.verb() {
        true => likeness((a, old), (b, new)),
        false => 0.0,
    };
    let mut found = Vec::new();
    for a in &gone {
        let best = come
            .iter()
            .max_by(|x, y| likeness(a, x).total_cmp(&likeness(a, y)));
        let Some(b) = best.filter(|b| likeness(a, b) >= ALIKE) else {
            continue;
        };
        let own = likeness(a, b);
        // Neither side has another that is as good.
        let rivals = gone.iter().filter(|it| likeness(it, b) >= own).count()
            + come.iter().filter(|it| likeness(a, it) >= own).count();
        if rivals == 2 {
            found.push(Renamed {
                kind: a.verb().to_owned(),
                old: a.tokens[1].text.clone(),
                new: b.tokens[1].text.clone(),
            });
        }
    }
    found
}

fn can_be(it: &Statement) -> bool {
    let kinds = [
        "part", "bought", "pen", "bench", "material", "thread", "blank", "let",
    ];
    kinds.contains(&it.verb()) && it.tokens.len() > 1
}

/// How much two items share, from 0 to 1.
fn likeness((a, old): (&Statement, &[&Statement]), (b, new): (&Statement, &[&Statement])) -> f64 {
    let names = [a, b].map(|it| it.tokens.get(1).map_or("", |it| it.text.as_str()));
    let lines = [a.multiset(Some(names[0])), b.multiset(Some(names[1]))];
    if matches!(a.verb(), "let" | "thread" | "blank") {
        let users = [users(names[0], a, old), users(names[1], b, new)];
        return if lines[0] == lines[1] && users[0] == users[1] {
            1.0
        } else {
            0.0
        };
    }
    let mut left: BTreeMap<&str, usize> = BTreeMap::new();
    for line in &lines[0] {
        *left.entry(line).or_default() += 1;
    }
    let shared = lines[1]
        .iter()
        .filter(|line| match left.get_mut(line.as_str()) {
            Some(count) if *count > 0 => {
                *count -= 1;
                true
            }
            _ => false,
        });
    // The first line of two parts that share no other says little.
    2.0 * shared.count() as f64 / (lines[0].len() + lines[1].len()) as f64
}

/// How often an item is named, and in what kind of item.
fn users(name: &str, own: &Statement, all: &[&Statement]) -> Vec<(String, usize)> {
    let mut found = Vec::new();
    for item in all.iter().filter(|it| it.span != own.span) {
        let mut count = 0;
        item.names(&mut |it| count += usize::from(it == name));
        if count > 0 {
            found.push((item.verb().to_owned(), count));
        }
    }
    found.sort();
    found
}

/// The old texts as if they had borne the new names.
pub(crate) struct Called<'a> {
    pub(crate) source: &'a dyn Source,
    files: BTreeMap<PathBuf, Arc<SourceFile>>,
}

impl<'a> Called<'a> {
    pub(crate) fn of(source: &'a dyn Source, design: &Design, renamed: &[Renamed]) -> Called<'a> {
        let mut edits: BTreeMap<Span, Edit> = BTreeMap::new();
        for it in renamed {
            let kind = kind_of(&it.kind);
            let own = |at: &(DefinitionId, &quillet_model::Definition)| {
                Some(at.1.kind) == kind && *at.1.name == *it.old && at.1.owner.is_none()
            };
            let all = design.names.definitions.with_ids();
            for (index, definition) in all.filter(own) {
                for span in design.names.uses(index).chain([definition.span]) {
                    edits.insert(span, Edit::new(span, it.new.clone()));
                }
            }
        }
        let texts = design.files.iter().filter_map(|file| {
            let own: Vec<&Edit> = edits
                .values()
                .filter(|it| it.span.file == file.id)
                .collect();
            let text = edited(&file.text, own.iter().copied()).filter(|_| !own.is_empty())?;
            Some((file.path.clone(), Arc::new(file.reading(&text))))
        });
        Called {
            source,
            files: texts.collect(),
        }
    }
}

fn kind_of(word: &str) -> Option<DefinitionKind> {
    Some(match word {
        "let" => DefinitionKind::Let,
        "material" => DefinitionKind::Material,
        "thread" => DefinitionKind::Thread,
        "blank" => DefinitionKind::Blank,
        "part" => DefinitionKind::Part,
        "bought" => DefinitionKind::Bought,
        "bench" => DefinitionKind::Bench,
        "pen" => DefinitionKind::Pen,
        "made" => DefinitionKind::Made,
        _ => return None,
    })
}

impl Source for Called<'_> {
    fn open(&self, path: &Path) -> Result<Arc<SourceFile>, ReadError> {
        match self.files.get(path) {
            Some(file) => Ok(file.clone()),
            None => self.source.open(path),
        }
    }

    fn beside(&self, folder: &Path) -> Vec<String> {
        self.source.beside(folder)
    }
}
