//! What is written: statements of two texts matched, what differs, names that are others.

pub(crate) mod diff;
pub(crate) mod matching;
pub(crate) mod reach;
pub(crate) mod rename;
pub(crate) mod statement;
pub(crate) mod word;

use crate::change::Change;
use diff::diff;
use matching::pairs;
use statement::Statement;

/// What differs between two files' items, or any two blocks.
pub(crate) fn changes(old: &[Statement], new: &[Statement]) -> Vec<Change> {
    let mut found = Vec::new();
    for (was, is) in pairs(old, new) {
        let item = is.or(was).map_or_else(String::new, Statement::name);
        match (was, is) {
            (Some(was), Some(is)) => of_item(&item, was, is, &mut found),
            _ => found.push(one_sided(
                &item,
                "",
                was,
                is,
                was.or(is).is_some_and(|it| it.has_block),
            )),
        }
    }
    found
}

/// What differs between two items of one name.
pub(crate) fn of_item(item: &str, was: &Statement, is: &Statement, found: &mut Vec<Change>) {
    if !was.alike(is) {
        found.push(Change {
            item: item.to_owned(),
            block: String::new(),
            old: was.text(),
            new: is.text(),
            diff: diff_of_value(was, is),
            renamed: false,
        });
    }
    in_block(item, "", was, is, found);
}

fn in_block(item: &str, block: &str, was: &Statement, is: &Statement, found: &mut Vec<Change>) {
    for (was, is) in pairs(&was.inside, &is.inside) {
        let (Some(before), Some(now)) = (was, is) else {
            alone(item, block, was, is, found);
            continue;
        };
        if !before.alike(now) {
            found.push(Change {
                item: item.to_owned(),
                block: block.to_owned(),
                old: before.text(),
                new: now.text(),
                diff: diff(&before.tokens, &now.tokens),
                renamed: false,
            });
        }
        in_block(item, &now.text(), before, now, found);
    }
}

/// What stands in one of two blocks alone: of a block all that stands in it.
fn alone(
    item: &str,
    block: &str,
    was: Option<&Statement>,
    is: Option<&Statement>,
    found: &mut Vec<Change>,
) {
    let Some(it) = was.or(is) else { return };
    let one = |each| {
        if is.is_some() {
            (None, Some(each))
        } else {
            (Some(each), None)
        }
    };
    if it.inside.is_empty() {
        found.push(one_sided(item, block, was, is, false));
    }
    for each in &it.inside {
        let (was, is) = one(each);
        found.push(one_sided(item, &it.text(), was, is, false));
    }
}

/// What stands on one side alone.
fn one_sided(
    item: &str,
    block: &str,
    was: Option<&Statement>,
    is: Option<&Statement>,
    whole: bool,
) -> Change {
    let text = |it: Option<&Statement>| it.map_or_else(String::new, Statement::text);
    let (old, new) = (text(was), text(is));
    let word = if is.is_some() { "new" } else { "gone" };
    let diff = match whole {
        true => word.to_owned(),
        false => format!("{word}: {old}{new}"),
    };
    Change {
        item: item.to_owned(),
        block: block.to_owned(),
        old,
        new,
        diff,
        renamed: false,
    }
}

/// Both lines of an item in one, without what names it: `11.4 -> 11.0` of `let grip = 11.4`.
fn diff_of_value(old: &Statement, new: &Statement) -> String {
    let named = old.tokens.iter().zip(&new.tokens).take(2);
    let same = named.filter(|(was, is)| was.text == is.text).count();
    let skip = |it: &Statement| {
        let equals = it.tokens.get(same).is_some_and(|it| it.text == "=");
        if equals { same + 1 } else { same }
    };
    diff(&old.tokens[skip(old)..], &new.tokens[skip(new)..])
}
