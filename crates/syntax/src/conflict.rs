//! Regions that an unfinished merge leaves in a text: two versions between marker lines.

use crate::{FileId, Finding, RuleId, Severity, Span, text};
use std::ops::Range;

/// A region between `<<<<<<< …` and `>>>>>>> …`, both lines with it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Conflict {
    /// From its first marker to the end of its last one's line, the line's end left out.
    pub(crate) region: Range<usize>,
    /// The lines of the version that was there.
    ours: Range<usize>,
    /// The lines of the version that came.
    theirs: Range<usize>,
    /// The other marker lines.
    markers: Vec<Range<usize>>,
    names: [Range<usize>; 2],
}

const OURS: &str = "<<<<<<< ";
const BASE: &str = "||||||| ";
const PARTED: &str = "=======";
const THEIRS: &str = ">>>>>>> ";

/// The regions of a text, in order; a marker without those that belong to it opens none.
pub(crate) fn conflicts(text: &str) -> Vec<Conflict> {
    let mut found = Vec::new();
    if !text.contains(OURS) {
        return found;
    }
    let mut open: Option<Open> = None;
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let next = start + line.len();
        let content = line.trim_end_matches(['\n', '\r']);
        let at = start..start + content.len();
        if content.starts_with(OURS) {
            open = Some(Open {
                first: at,
                ours_from: next,
                base: None,
                parted: None,
            });
        } else if let Some(region) = &mut open {
            if content.starts_with(BASE) && region.parted.is_none() {
                region.base = Some(at);
            } else if content == PARTED && region.parted.is_none() {
                region.parted = Some((at, next));
            } else if content.starts_with(THEIRS)
                && let Some((parted, theirs_from)) = region.parted.take()
            {
                found.push(region.closed(parted, theirs_from, at));
                open = None;
            }
        }
        start = next;
    }
    found
}

/// A region whose last marker has not come yet.
struct Open {
    first: Range<usize>,
    ours_from: usize,
    base: Option<Range<usize>>,
    parted: Option<(Range<usize>, usize)>,
}

impl Open {
    fn closed(&mut self, parted: Range<usize>, theirs_from: usize, last: Range<usize>) -> Conflict {
        let base = self.base.take();
        let ours_to = base.as_ref().map_or(parted.start, |base| base.start);
        let name = |marker: &Range<usize>| marker.start + OURS.len()..marker.end;
        Conflict {
            region: self.first.start..last.end,
            ours: self.ours_from..ours_to,
            theirs: theirs_from..last.start,
            names: [name(&self.first), name(&last)],
            markers: base.into_iter().chain([parted, last]).collect(),
        }
    }
}

impl Conflict {
    /// What is told of it, and of the text nothing else.
    pub(crate) fn finding(&self, file: FileId, text: &str) -> Finding {
        let line = |at: usize| text[..at].matches('\n').count() + 1;
        let [ours, theirs] = self.names.clone().map(|name| text[name].trim());
        let message = text!(
            "a merge is unfinished: lines {} to {} hold two versions ({}, {})",
            line(self.region.start).to_string(),
            line(self.region.end).to_string(),
            ours,
            theirs
        );
        let span = |at: &Range<usize>| Span::new(file, at.start, at.end);
        let first = text[self.region.clone()].lines().next().unwrap_or_default();
        let start = self.region.start..self.region.start + first.len();
        let finding = Finding::new(
            RuleId::UNFINISHED_MERGE,
            Severity::Error,
            span(&start),
            message,
        );
        let labels = self.markers.iter();
        let finding = labels.fold(finding, |finding, at| {
            let what = match text[at.clone()].starts_with(THEIRS) {
                true => "the second ends here",
                false if text[at.clone()].starts_with(BASE) => "what both come from",
                false => "the second version begins here",
            };
            finding.label(span(at), what)
        });
        // The last marker's line end goes with it.
        let end = self.region.end;
        let ends = ["\r\n", "\n"]
            .into_iter()
            .find(|it| text[end..].starts_with(it));
        let whole = span(&(self.region.start..end + ends.map_or(0, str::len)));
        finding
            .hint("keep one of the two and take the marker lines out")
            .fix(
                text!("keep {}", ours),
                whole,
                text[self.ours.clone()].to_owned(),
            )
            .fix(
                text!("keep {}", theirs),
                whole,
                text[self.theirs.clone()].to_owned(),
            )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TWO: &str =
        "let a = 1\n<<<<<<< ours\nlet b = 2\n=======\nlet b = 3\n>>>>>>> theirs\nlet c = 4\n";

    #[test]
    fn a_region_is_one_finding_with_both_versions_as_cures() {
        let parsed = crate::parse(FileId(0), TWO);
        let [finding] = parsed.findings.as_slice() else {
            panic!("{:#?}", parsed.findings)
        };
        assert_eq!(
            &*finding.message,
            "a merge is unfinished: lines 2 to 6 hold two versions (ours, theirs)"
        );
        let cured = |index: usize| {
            let edits = &finding.fixes[index].edits;
            crate::edited(TWO, edits).unwrap()
        };
        assert_eq!(cured(0), "let a = 1\nlet b = 2\nlet c = 4\n");
        assert_eq!(cured(1), "let a = 1\nlet b = 3\nlet c = 4\n");
        assert_eq!(parsed.tree.items.len(), 2);
        assert_eq!(crate::format(TWO), TWO);
    }

    #[test]
    fn what_both_come_from_belongs_to_neither() {
        let text = TWO.replace("=======", "||||||| base\nlet b = 1\n=======");
        let found = conflicts(&text);
        assert_eq!(&text[found[0].ours.clone()], "let b = 2\n");
        assert_eq!(&text[found[0].theirs.clone()], "let b = 3\n");
        assert_eq!(found[0].markers.len(), 3);
    }

    #[test]
    fn markers_that_do_not_belong_together_are_no_region() {
        for text in [
            "<<<<<<< ours\nlet b = 2\n",
            "<<<<<<< ours\nlet b = 2\n>>>>>>> theirs\n",
            "=======\n>>>>>>> theirs\n",
            " <<<<<<< ours\n=======\n>>>>>>> theirs\n",
            "-- <<<<<<< ours\n=======\n>>>>>>> theirs\n",
        ] {
            assert_eq!(conflicts(text), [], "{text}");
        }
    }
}
