//! What inputs are made from: the examples, the blocks of the rules' pages, broken texts; messages
//! of an editor.

use std::path::{Path, PathBuf};

/// Inputs to begin with, and the pieces they fall into.
#[derive(Debug)]
pub struct Corpus {
    /// Whole inputs.
    pub whole: Vec<String>,
    /// Their lines.
    pub lines: Vec<String>,
    /// Their words, numbers and signs.
    pub words: Vec<String>,
}

impl Corpus {
    fn of(whole: Vec<String>) -> Corpus {
        let lines: Vec<String> = whole
            .iter()
            .flat_map(|text| text.lines())
            .filter(|line| !line.trim().is_empty())
            .map(str::to_owned)
            .collect();
        let words = lines.iter().flat_map(|line| line.split_whitespace());
        let mut words: Vec<String> = words.map(str::to_owned).collect();
        words.sort();
        words.dedup();
        Corpus {
            whole,
            lines,
            words,
        }
    }
}

/// Texts of the language.
pub fn texts() -> Corpus {
    let mut whole = files("../../examples");
    whole.extend(files("corpus/broken"));
    for rule in quillet_check::RULES {
        whole.extend(blocks(rule.page));
    }
    Corpus::of(whole)
}

/// Messages of an editor, one a line; a file is a session.
pub fn messages() -> Corpus {
    Corpus::of(files("corpus/messages"))
}

/// The files of a folder of this crate, in order of their names.
fn files(folder: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let entries = std::fs::read_dir(&folder).into_iter().flatten().flatten();
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
    paths.sort();
    let texts = paths.iter().filter_map(|path| std::fs::read(path).ok());
    texts
        .map(|bytes| String::from_utf8_lossy(&bytes).into_owned())
        .collect()
}

/// The blocks of code of a page.
fn blocks(page: &str) -> Vec<String> {
    let pieces = page.split("\n```").skip(1).step_by(2);
    pieces
        .filter_map(|piece| piece.split_once('\n'))
        .map(|(_, block)| format!("{block}\n"))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_kinds_are_there() {
        let texts = texts();
        let has = |part: &str| texts.whole.iter().any(|text| text.contains(part));
        assert!(has("pen heron") && has("part barrel"));
        assert!(texts.whole.len() > quillet_check::RULES.len());
        assert!(!messages().lines.is_empty());
    }
}
