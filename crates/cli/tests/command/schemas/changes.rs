//! A JSON output with a key more or a key less, which its schema has to refuse.

use serde_json::Value;
use std::collections::BTreeSet;

/// Keys that are there only where there is something to say.
const OPTIONAL: [&str; 3] = ["/assumed", "/findings/hint", "/parts/wants"];

/// An output with one key more, and with each key less, in an object of each kind that is not known
/// yet: what the change is, and what comes of it.
pub(super) fn changes(output: &Value, known: &mut BTreeSet<String>) -> Vec<(String, Value)> {
    let mut found = Vec::new();
    objects(output, String::new(), String::new(), &mut found);
    let mut all = Vec::new();
    for (pointer, kind) in found {
        let Some(Value::Object(keys)) = output.pointer(&pointer) else {
            panic!("{pointer} is an object");
        };
        let with = |keys: serde_json::Map<String, Value>| {
            let mut output = output.clone();
            *output.pointer_mut(&pointer).unwrap() = Value::Object(keys);
            output
        };
        let mut change = |what: String, to: &dyn Fn() -> Value| {
            if known.insert(what.clone()) {
                all.push((what, to()));
            }
        };
        change(format!("{kind}/ and one more"), &|| {
            let mut more = keys.clone();
            more.insert("unheard_of".to_owned(), Value::Bool(true));
            with(more)
        });
        for key in keys.keys() {
            let kind = format!("{kind}/{key}");
            if !OPTIONAL.contains(&&*kind) {
                change(format!("without {kind}"), &|| {
                    let mut less = keys.clone();
                    less.remove(key);
                    with(less)
                });
            }
        }
    }
    all
}

/// Where objects are in a value: by pointer, and by pointer without the numbers in lists.
fn objects(value: &Value, pointer: String, kind: String, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(keys) => {
            for (key, value) in keys {
                objects(
                    value,
                    format!("{pointer}/{key}"),
                    format!("{kind}/{key}"),
                    found,
                );
            }
            found.push((pointer, kind));
        }
        Value::Array(items) => {
            for (at, item) in items.iter().enumerate() {
                objects(item, format!("{pointer}/{at}"), kind.clone(), found);
            }
        }
        _ => {}
    }
}
