//! Heron is typed: how far down its list the word stands that is written next.

use quillet_fixture::EXAMPLES;
use quillet_ide::{Cursor, Workspace, complete};
use quillet_syntax::{FileId, Thing, TokenKind, expected, lex};
use std::path::Path;

/// At which rank each word stood, the first as 1; none where it was not offered.
struct Ranks {
    told: Vec<Option<usize>>,
    /// Rank and word, for whoever wants to know.
    late: Vec<String>,
}

impl Ranks {
    /// How many of a hundred stood among the first so many.
    fn share(&self, first: usize) -> f64 {
        let within = self.told.iter().flatten().filter(|rank| **rank <= first);
        100.0 * within.count() as f64 / self.told.len() as f64
    }

    /// The mean of those that were offered.
    fn mean(&self) -> f64 {
        let offered: Vec<usize> = self.told.iter().flatten().copied().collect();
        offered.iter().sum::<usize>() as f64 / offered.len() as f64
    }

    /// In words, those behind the fifth each in a line.
    fn words(&self, when: &str) -> String {
        let shares: Vec<String> = (1..=5).map(|it| format!("{:.0}", self.share(it))).collect();
        format!(
            "{when}: {} words, mean rank {:.2}, within 1 to 5: {} %, not offered {}\n  {}",
            self.told.len(),
            self.mean(),
            shares.join(", "),
            self.told.iter().filter(|it| it.is_none()).count(),
            self.late.join("\n  "),
        )
    }
}

/// The words of a text that could be offered, each where it begins: names, words of the language and
/// files; not a name that is only now given, a title or a number.
fn words(text: &str) -> Vec<(usize, &str)> {
    let mut found: Vec<(usize, &str)> = Vec::new();
    let mut goes_on = 0;
    for token in lex(FileId(0), text) {
        let range = token.span.range();
        let wanted = match token.kind {
            TokenKind::Name => true,
            TokenKind::String => text[..range.start].ends_with("\nuse "),
            _ => false,
        };
        if !wanted || range.start < goes_on {
            continue;
        }
        let rest = &text[range.start..];
        // A face is one word to who writes it: `cap.mouth`.
        let length = match token.kind {
            TokenKind::Name => rest
                .find(|it: char| !(it.is_alphanumeric() || it == '-' || it == '.'))
                .unwrap_or(rest.len()),
            _ => range.len(),
        };
        goes_on = range.start + length;
        let asked = expected(FileId(0), &text[..range.start], range.start);
        // What a part calls itself and its ends is its maker's to say.
        let new = |it: &[Thing]| [[Thing::Name], [Thing::End]].iter().any(|new| it == new);
        let header = text[..range.start].rsplit('\n').next().unwrap_or_default();
        let coined = asked.is_some_and(|it| it.words.is_empty() && new(&it.things));
        let coined = coined && !header.starts_with(' ');
        if !coined {
            found.push((range.start, &rest[..length]));
        }
    }
    found
}

/// The ranks when so many letters of each word are there; what comes behind it is not written yet.
fn ranks(name: &str, letters: usize) -> Ranks {
    let whole = EXAMPLES.iter().find(|(path, _)| *path == name).unwrap().1;
    let mut workspace = Workspace::default();
    let at = |name: &str| Path::new("/bench").join(name);
    for (path, text) in EXAMPLES {
        workspace.set(&at(path), text.into());
    }
    let mut ranks = Ranks {
        told: Vec::new(),
        late: Vec::new(),
    };
    for (start, word) in words(whole) {
        let cursor = start + letters;
        workspace.set(&at(name), whole[..cursor].into());
        let snapshot = workspace.snapshot();
        let analysis = snapshot.analysis(&at(name), &|| false).unwrap();
        let offered = complete(&snapshot, Cursor::at(&analysis, cursor).unwrap());
        let offered = offered.map(|it| it.choices).unwrap_or_default();
        // An editor shows of the list what begins with what is written.
        let mut shown = offered
            .iter()
            .filter(|it| it.label.starts_with(&word[..letters]));
        let rank = shown.position(|it| it.label == word).map(|it| it + 1);
        if rank.is_none_or(|it| it > 5) {
            let line = whole[..start].rfind('\n').map_or(0, |it| it + 1);
            ranks
                .late
                .push(format!("{rank:?}: {}|{word}", &whole[line..start]));
        }
        ranks.told.push(rank);
    }
    ranks
}

#[test]
fn the_word_that_is_written_next_stands_high_in_its_list() {
    let begun = ranks("heron.quillet", 0);
    let lettered = ranks("heron.quillet", 1);
    let at_first = begun.words("at the start of a word");
    let by_letter = lettered.words("after its first letter");
    assert!(begun.told.len() > 150);
    // Measured: mean rank 2.7, 50 % first and 87 % among five; 1.2, 88 % and 98 % by a letter.
    let ahead = begun.mean() < 2.9 && begun.share(1) > 48.0 && begun.share(5) > 84.0;
    assert!(ahead, "{at_first}");
    let ahead = lettered.mean() < 1.3 && lettered.share(1) > 80.0 && lettered.share(5) > 95.0;
    assert!(ahead, "{by_letter}");
}
