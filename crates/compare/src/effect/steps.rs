//! The lines of two sheets: which are the same, and what of them differs.

use crate::change::StepChange;
use crate::written::diff::{common, diff_of_texts};
use std::collections::BTreeSet;

/// A line of a sheet, as it is printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetLine {
    /// The part, `mandrel D`, `tools`, `saw`.
    pub group: String,
    /// Its number on the sheet, where it has one.
    pub number: Option<usize>,
    /// Which it is, whatever its sizes: operation, tool and end.
    pub key: String,
    /// What it says first: `tap M9×0.75 to 7`.
    pub head: String,
    /// The rest, piece by piece.
    pub rest: Vec<String>,
}

/// What differs between the lines of two sheets.
pub(crate) fn changes(old: &[SheetLine], new: &[SheetLine]) -> Vec<StepChange> {
    let mut groups: Vec<&str> = Vec::new();
    let mut known = BTreeSet::new();
    for line in new.iter().chain(old) {
        if known.insert(line.group.as_str()) {
            groups.push(&line.group);
        }
    }
    groups
        .into_iter()
        .flat_map(|group| of_group(group, old, new))
        .collect()
}

fn of_group(group: &str, old: &[SheetLine], new: &[SheetLine]) -> Vec<StepChange> {
    let own = |all: &'_ [SheetLine]| -> Vec<SheetLine> {
        all.iter().filter(|it| it.group == group).cloned().collect()
    };
    let (old, new) = (own(old), own(new));
    // A part that is gone, or can no longer be made, says so once.
    let is_route =
        |lines: &[SheetLine]| lines.len() > 1 && lines.iter().any(|it| it.number.is_some());
    if new.is_empty() && is_route(&old) {
        return vec![whole_route(&old, true)];
    }
    if old.is_empty() && is_route(&new) {
        return vec![whole_route(&new, false)];
    }
    let keys = |all: &[SheetLine]| all.iter().map(|it| it.key.clone()).collect::<Vec<_>>();
    let shared = common(&keys(&old), &keys(&new));
    let (mut from, mut to) = (0, 0);
    let mut found = Vec::new();
    for (a, b) in shared.into_iter().chain([(old.len(), new.len())]) {
        found.extend(old[from..a].iter().map(|it| one_sided(it, true)));
        found.extend(new[to..b].iter().map(|it| one_sided(it, false)));
        if let (Some(was), Some(is)) = (old.get(a), new.get(b))
            && (&was.head, &was.rest) != (&is.head, &is.rest)
        {
            found.push(changed(was, is));
        }
        (from, to) = (a + 1, b + 1);
    }
    found
}

/// All lines of a part, gone or come.
fn whole_route(lines: &[SheetLine], gone: bool) -> StepChange {
    let text = lines.iter().map(whole).collect::<Vec<_>>().join("; ");
    let what = format!("its whole route, {} lines", lines.len());
    gone_or_come((&lines[0].group, None), text, &what, gone)
}

fn whole(line: &SheetLine) -> String {
    let pieces = std::iter::once(&line.head).chain(&line.rest);
    let pieces = pieces.filter(|it| !it.is_empty()).map(String::as_str);
    pieces.collect::<Vec<_>>().join(", ")
}

fn one_sided(line: &SheetLine, gone: bool) -> StepChange {
    let text = whole(line);
    let number = line.number.filter(|_| !gone);
    gone_or_come((&line.group, number), text.clone(), &text, gone)
}

/// What stands on one side alone, and what it is called.
fn gone_or_come(
    (group, number): (&str, Option<usize>),
    text: String,
    what: &str,
    gone: bool,
) -> StepChange {
    let diff = format!("{}: {what}", if gone { "gone" } else { "new" });
    let (old, new) = match gone {
        true => (text, String::new()),
        false => (String::new(), text),
    };
    StepChange {
        group: group.to_owned(),
        number,
        old,
        new,
        diff,
    }
}

/// What is said first, and the pieces that differ.
fn changed(was: &SheetLine, is: &SheetLine) -> StepChange {
    let mut pieces = vec![diff_of_texts(&was.head, &is.head)];
    match was.rest.len() == is.rest.len() {
        true => {
            let both = was.rest.iter().zip(&is.rest).filter(|(a, b)| a != b);
            pieces.extend(both.map(|(a, b)| diff_of_texts(a, b)));
        }
        false => {
            let gone = was.rest.iter().filter(|it| !is.rest.contains(it));
            pieces.extend(gone.map(|it| format!("without {it}")));
            let come = is.rest.iter().filter(|it| !was.rest.contains(it));
            pieces.extend(come.map(|it| format!("new {it}")));
        }
    }
    StepChange {
        group: is.group.clone(),
        number: is.number,
        old: whole(was),
        new: whole(is),
        diff: pieces.join(", "),
    }
}
