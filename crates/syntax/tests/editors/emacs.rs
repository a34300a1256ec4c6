//! The lists of words that Emacs' major mode colours by.

use crate::{WRITTEN, sets};
use std::collections::BTreeSet;

/// The whole file.
pub(crate) fn file() -> String {
    let mut file = format!(
        ";;; quillet-words.el --- Words of Quillet  -*- lexical-binding: t; -*-\n\n;; {WRITTEN}\n\n;;; Code:\n"
    );
    for (name, what, words) in [
        (
            "keywords",
            "Words that stand as such in the compiled grammar.",
            sets::keywords(),
        ),
        ("heads", "Words that begin a statement.", sets::heads()),
        (
            "definers",
            "Words that begin a statement which names something.",
            sets::definers(),
        ),
        ("joints", "Words that begin a joint.", sets::joints()),
        ("tails", "Words within a statement.", sets::tails()),
        (
            "leading",
            "Words within a statement before a value or a name.",
            sets::leading(),
        ),
        (
            "shapes",
            "How a surface comes to a station.",
            sets::shapes(),
        ),
        ("units", "What touches a number.", sets::units()),
        (
            "measures",
            "Measures of a pen and functions of sums.",
            sets::measures(),
        ),
        (
            "configurations",
            "The states of a pen.",
            sets::configurations(),
        ),
    ] {
        file += &list(name, what, &words);
    }
    file + "\n(provide 'quillet-words)\n;;; quillet-words.el ends here\n"
}

fn list(name: &str, what: &str, words: &BTreeSet<&'static str>) -> String {
    let words: Vec<_> = words.iter().map(|word| format!("\"{word}\"")).collect();
    let words = words.join(" ");
    format!("\n(defconst quillet-words-{name}\n  '({words})\n  \"{what}\")\n")
}
