//! Every slip of a file that cannot change the pen, put right in one go.

use crate::Trial;
use quillet_syntax::{Edit, FileId, Finding, Severity, Span, edited};
use std::ops::Range;
use std::sync::Arc;

/// Slips that hide others come to light as often as this.
const MOST_ROUNDS: usize = 8;

impl Trial<'_> {
    /// The edits that put right every slip of spelling in a file, those among them that only come
    /// to light when others are put right; none where that would leave more errors than there are.
    pub fn mended(&self, file: FileId) -> Vec<Edit> {
        let Some(file) = self.design.file(file) else {
            return Vec::new();
        };
        let mut text = file.text.to_string();
        let mut findings = self.findings.to_vec();
        for _ in 0..MOST_ROUNDS {
            let edits = slips(&findings, file.id);
            let Some(next) = edited(&text, edits).filter(|next| *next != text) else {
                break;
            };
            let found = self.found_with(vec![Arc::new(file.reading(&next))]);
            let Some(found) = found.filter(|found| errors(found) <= errors(&findings)) else {
                break;
            };
            (text, findings) = (next, found);
        }
        by_line(file.id, &file.text, &text)
    }
}

/// The edits of the findings that have one cure, which cannot change the pen.
fn slips(findings: &[Finding], file: FileId) -> Vec<&Edit> {
    let mut taken: Vec<&Edit> = Vec::new();
    for finding in findings {
        // Where there is a choice, the maker makes it.
        let [fix] = finding.fixes.as_slice() else {
            continue;
        };
        let fits = |edit: &Edit| {
            let apart = |other: &&Edit| {
                edit.span.end < other.span.start || other.span.end < edit.span.start
            };
            edit.span.file == file && taken.iter().all(apart)
        };
        if fix.mends && fix.edits.iter().all(fits) {
            taken.extend(&fix.edits);
        }
    }
    taken
}

fn errors(findings: &[Finding]) -> usize {
    let graves = findings.iter().filter(|it| it.severity == Severity::Error);
    graves.count()
}

/// The edits that make one text of another: a line each where there are as many lines, else one
/// over all that differs.
fn by_line(file: FileId, before: &str, after: &str) -> Vec<Edit> {
    let edit =
        |range: Range<usize>, text: &str| Edit::new(Span::new(file, range.start, range.end), text);
    let lines = || {
        before
            .split_inclusive('\n')
            .zip(after.split_inclusive('\n'))
    };
    if before.split_inclusive('\n').count() == after.split_inclusive('\n').count() {
        let mut start = 0;
        let mut edits = Vec::new();
        for (old, new) in lines() {
            if old != new {
                edits.push(edit(start..start + old.len(), new));
            }
            start += old.len();
        }
        return edits;
    }
    let kept: usize = lines()
        .take_while(|(old, new)| old == new)
        .map(|(old, _)| old.len())
        .sum();
    vec![edit(kept..before.len(), &after[kept..])]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn replaced(before: &str, after: &str) -> (usize, String) {
        let edits = by_line(FileId(0), before, after);
        let text = edited(before, &edits);
        (edits.len(), text.unwrap_or_default())
    }

    #[test]
    fn edits_make_the_one_text_of_the_other() {
        assert_eq!(replaced("a\nb\nc", "a\nB\nC"), (2, "a\nB\nC".into()));
        assert_eq!(replaced("a\nb\nc\n", "a\nc\n"), (1, "a\nc\n".into()));
        assert_eq!(replaced("a\n", "a\n"), (0, "a\n".into()));
    }
}
