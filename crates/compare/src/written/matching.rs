//! Which statement of a block is which of the other: equal ones first, then ever looser.

use super::statement::Statement;
use super::word::Word;
use quillet_syntax::TokenKind;
use std::collections::BTreeMap;

/// A statement as it was and as it is; one of them where it has no other.
pub(crate) type Pair<'a> = (Option<&'a Statement>, Option<&'a Statement>);

/// What begins a statement whose name says which it is: two of other names are not the same.
const NAMED: [&str; 6] = ["let", "limit", "accept", "want", "use", "thread"];

/// By what two statements are one.
type Key = &'static dyn Fn(&Statement) -> Option<String>;

/// Pairs the statements of two blocks, in the order of the new one, those that are gone last.
pub(crate) fn pairs<'a>(old: &'a [Statement], new: &'a [Statement]) -> Vec<Pair<'a>> {
    let mut partner: Vec<Option<usize>> = vec![None; new.len()];
    let mut taken = vec![false; old.len()];
    let keys: [Key; 5] = [
        &|it| Some(it.multiset(None).join("\n")),
        &|it| Some(it.text()),
        &|it| Some(words(it, true)),
        &named,
        &loose,
    ];
    for key in keys {
        let mut free: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (at, it) in old.iter().enumerate().filter(|it| !taken[it.0]) {
            if let Some(key) = key(it) {
                free.entry(key).or_default().push(at);
            }
        }
        for (at, it) in new.iter().enumerate() {
            if partner[at].is_some() {
                continue;
            }
            let Some(same) = key(it).and_then(|key| free.get_mut(&key)) else {
                continue;
            };
            if !same.is_empty() {
                let was = same.remove(0);
                taken[was] = true;
                partner[at] = Some(was);
            }
        }
    }
    let here = new.iter().zip(&partner);
    let here = here.map(|(it, was)| (was.map(|was| &old[was]), Some(it)));
    let gone = old.iter().enumerate().filter(|it| !taken[it.0]);
    here.chain(gone.map(|(_, it)| (Some(it), None))).collect()
}

/// All but its sizes; what a thread is called counts where `threads` says so.
fn words(it: &Statement, threads: bool) -> String {
    let counts = |word: &&Word| match word.kind {
        TokenKind::Quantity | TokenKind::Fit | TokenKind::Gauge => false,
        TokenKind::Thread => threads,
        _ => true,
    };
    let words = it.tokens.iter().filter(counts).map(|it| it.text.as_str());
    words.collect::<Vec<_>>().join(" ")
}

/// By what names it: an item by its kind and name, a station by its face, a tool by its thread, a
/// joint by its ends, a want by what is measured.
fn named(it: &Statement) -> Option<String> {
    let text = |at: usize| it.tokens.get(at).map(|it| it.text.as_str());
    let after = |word: &str| {
        let at = it.tokens.iter().position(|it| it.text == word)?;
        text(at + 1)
    };
    if let Some(face) = after("as") {
        return Some(format!("{} as {face}", it.verb()));
    }
    let thread = it.tokens.iter().find(|it| it.kind == TokenKind::Thread);
    if let Some(thread) = thread.filter(|_| matches!(it.verb(), "taps" | "dies")) {
        return Some(format!("{} {}", it.verb(), thread.text));
    }
    let ends: Vec<&Word> = it
        .tokens
        .iter()
        .filter(|it| it.kind == TokenKind::Name)
        .collect();
    let is_joint = it.tokens.iter().any(|it| it.text == ".") && it.verb() != "want";
    if is_joint {
        let ends = ends.iter().skip(1).take(5).map(|it| it.text.as_str());
        return Some(format!("joint {}", ends.collect::<Vec<_>>().join(" ")));
    }
    match it.verb() {
        "want" => {
            let is_test = |it: &Word| ["<", "<=", ">", ">=", "=", "within"].contains(&&*it.text);
            let left = it.tokens.iter().take_while(|it| !is_test(it));
            Some(
                left.map(|it| it.text.as_str())
                    .collect::<Vec<_>>()
                    .join(" "),
            )
        }
        "at" => Some(format!("at from {}", after("from").unwrap_or(""))),
        "let" | "limit" | "accept" | "thread" | "part" | "bought" | "pen" | "bench"
        | "material" => Some(it.name()),
        _ => None,
    }
}

/// By the word it begins with, where that is all there is to go by.
fn loose(it: &Statement) -> Option<String> {
    let named = NAMED.contains(&it.verb()) || it.has_block && it.tokens.len() > 1;
    let joint = it.tokens.iter().any(|it| it.text == ".");
    (!named && !joint).then(|| it.verb().to_owned())
}
