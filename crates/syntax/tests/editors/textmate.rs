//! TextMate's grammar, which Visual Studio Code reads.

use crate::WRITTEN;
use crate::rule::{Rule, rules};
use serde_json::{Map, Value, json};

/// The whole file.
pub(crate) fn file() -> String {
    let grammar = json!({
        "information_for_contributors": [WRITTEN],
        "name": "Quillet",
        "scopeName": "source.quillet",
        "fileTypes": ["quillet"],
        "patterns": rules().iter().map(pattern).collect::<Vec<_>>(),
    });
    format!("{:#}\n", grammar)
}

fn pattern(rule: &Rule) -> Value {
    let captures: Map<_, _> = rule
        .scopes
        .iter()
        .zip(1..)
        .map(|(scope, group)| (group.to_string(), json!({ "name": scope })))
        .collect();
    json!({ "match": rule.matches, "captures": captures })
}
