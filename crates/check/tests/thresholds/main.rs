//! Both sides of every threshold: a source in which a rule is silent, and the same with one size
//! the least step further, in which it speaks.
//!
//! Where a source stands on a rule's page it is taken from there; `$` stands for the size.

#![allow(clippy::unwrap_used, reason = "tests")]

mod bench;
mod ends;
mod fits;
mod inside;
mod joints;
mod made;
mod outside;
mod pens;
mod pockets;
mod side_walls;
mod sides;
mod together;
mod walls;

use quillet_check::{examine, rule};
use quillet_model::{Texts, load, resolve};
use quillet_standards::Units;
use quillet_syntax::{Finding, Severity, loosened};
use std::path::Path;

/// A source and the rule that is looked for in it.
#[derive(Clone)]
pub(crate) struct Source {
    rule: &'static str,
    text: String,
}

/// The first failing example of a rule's page.
pub(crate) fn page(code: &'static str) -> Source {
    let page = rule(code).unwrap().page;
    let text = page.split("```quillet fails\n").nth(1).unwrap();
    // Without columns, so that no test depends on where they are.
    source(code, &loosened(text.split("```").next().unwrap()))
}

/// A piece of a text without columns.
fn squeezed(piece: &str) -> String {
    let lines = piece.split('\n').map(|line| {
        let indent = line.len() - line.trim_start().len();
        let words: Vec<&str> = line.split_whitespace().collect();
        format!("{}{}", &line[..indent], words.join(" "))
    });
    lines.collect::<Vec<_>>().join("\n")
}

pub(crate) fn source(rule: &'static str, text: &str) -> Source {
    Source {
        rule,
        text: text.to_owned(),
    }
}

impl Source {
    /// The same with a piece of it written otherwise.
    #[track_caller]
    pub(crate) fn but(mut self, from: &str, to: &str) -> Self {
        let is_there = self.text.contains(from);
        let from = if is_there {
            from.to_owned()
        } else {
            squeezed(from)
        };
        assert!(self.text.contains(&from), "no {from:?} in\n{}", self.text);
        self.text = self.text.replacen(&from, to, 1);
        self
    }

    /// The same with more behind it, or before it.
    pub(crate) fn and(mut self, more: &str) -> Self {
        self.text += more;
        self
    }

    pub(crate) fn of(mut self, rule: &'static str) -> Self {
        self.rule = rule;
        self
    }

    /// What the rule finds where `$` is this size; the source itself must be one that is read.
    #[track_caller]
    pub(crate) fn found(&self, size: &str) -> Vec<Finding> {
        let text = self.text.replace('$', size);
        let texts = Texts::default().with("pen.quillet", &text);
        let design = resolve(&load(Path::new("pen.quillet"), &texts).unwrap());
        let read = ["syntax", "unknown-name", "unit-mismatch", "incomplete"];
        let mut found = examine(&design).findings;
        let unread = found
            .iter()
            .find(|it| read.iter().any(|rule| it.rule == *rule));
        assert!(unread.is_none(), "{unread:#?}\n{text}");
        found.retain(|it| it.rule == self.rule);
        found
    }

    #[track_caller]
    pub(crate) fn silent(&self, size: &str) {
        let found = self.found(size);
        let written: Vec<_> = found.iter().map(|it| it.message.to_string()).collect();
        assert_eq!(written, [""; 0], "{} at {size}", self.rule);
    }

    /// The only finding of the rule.
    #[track_caller]
    pub(crate) fn speaks(&self, size: &str) -> Spoken {
        let mut found = self.found(size);
        assert_eq!(found.len(), 1, "{} at {size}: {found:#?}", self.rule);
        Spoken(found.remove(0))
    }

    /// Silent at the one size and not at the other.
    #[track_caller]
    pub(crate) fn edge(&self, silent: &str, speaks: &str) -> Spoken {
        self.silent(silent);
        let spoken = self.speaks(speaks);
        for units in [Units::Millimetres, Units::Inches] {
            let message = spoken.0.message.clone().in_units(units);
            assert_eq!(reads_alike(&message), None, "{message}");
        }
        spoken
    }

    /// Silent at each of these sizes, and not at each of those.
    #[track_caller]
    pub(crate) fn sides(&self, silent: &[&str], speaks: &[&str]) {
        silent.iter().for_each(|size| self.silent(size));
        speaks.iter().for_each(|size| drop(self.speaks(size)));
    }

    /// Of one severity at the one size and of another at the other.
    #[track_caller]
    pub(crate) fn graver(&self, one: (&str, Severity), other: (&str, Severity)) {
        for (size, severity) in [one, other] {
            assert_eq!(self.speaks(size).0.severity, severity, "at {size}");
        }
    }
}

/// The figure before "wanted", or one of two with "to" between them, where what stands before is the
/// same: what is, and what it misses, read alike.
fn reads_alike(message: &str) -> Option<f64> {
    let number = |word: &str| {
        let word = word.trim_matches(|c: char| !c.is_ascii_digit());
        word.parse::<f64>().ok()
    };
    let (before, _) = message.split_once(" wanted")?;
    let words: Vec<&str> = before.split_whitespace().collect();
    let figures = words.iter().enumerate().rev();
    let mut figures = figures.filter_map(|(at, word)| Some((at, number(word)?)));
    let (at, wanted) = figures.next()?;
    let ranged = at > 0 && words[at - 1] == "to";
    let least = if ranged { figures.next()?.1 } else { wanted };
    let (_, is) = figures.next()?;
    [least, wanted].contains(&is).then_some(is)
}

/// What a rule said.
pub(crate) struct Spoken(pub(crate) Finding);

impl Spoken {
    /// A piece of its message.
    #[track_caller]
    pub(crate) fn message(self, piece: &str) -> Self {
        let message = self.0.message.to_string();
        assert!(message.contains(piece), "{message}");
        self
    }

    /// A piece of its hint.
    #[track_caller]
    pub(crate) fn hints(self, piece: &str) -> Self {
        let hint = self.0.hint.as_ref().map(ToString::to_string);
        assert!(
            hint.as_ref().is_some_and(|it| it.contains(piece)),
            "{hint:?}"
        );
        self
    }

    /// Its hint, and nothing behind it.
    #[track_caller]
    pub(crate) fn hints_no_more_than(self, wanted: &str) -> Self {
        let hint = self.0.hint.as_ref().map(ToString::to_string);
        assert_eq!(hint.as_deref(), Some(wanted));
        self
    }

    /// The titles of what it proposes, untried.
    #[track_caller]
    pub(crate) fn proposes(self, titles: &[&str]) -> Self {
        let own = self.0.fixes.iter().map(|fix| fix.title.to_string());
        assert_eq!(own.collect::<Vec<_>>(), titles);
        self
    }
}
