//! What the checker says, as data; the terminal, the editor and JSON are views of it.

mod rule_id;
mod sized_text;

pub use rule_id::RuleId;
pub use sized_text::{Size, SizedText, ToText};

use crate::{FileId, Span, text};
use quillet_standards::Units;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing; nothing is wrong.
    Note,
    /// May break, leak or annoy.
    Warning,
    /// Cannot be made or assembled, or cannot be read.
    Error,
}

impl Severity {
    /// The word for it: `note`, `warning` or `error`.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Note => "note",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}

/// One finding: what is, what was expected, and one thing to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The rule.
    pub rule: RuleId,
    /// How much it matters.
    pub severity: Severity,
    /// What is and what was expected, with units; one sentence, no full stop at the end.
    pub message: SizedText,
    /// The primary place.
    pub span: Span,
    /// The other places concerned, each with a few words.
    pub labels: Vec<Label>,
    /// One thing to do, or to think about.
    pub hint: Option<SizedText>,
    /// Cures, the best first; those a rule proposes, until they are tried.
    pub fixes: Vec<Fix>,
    /// The pens that show it, where a finding belongs to a pen.
    pub pens: Vec<String>,
}

impl Finding {
    /// A finding without labels, hint or fixes.
    pub fn new(
        rule: impl Into<RuleId>,
        severity: Severity,
        span: Span,
        message: impl Into<SizedText>,
    ) -> Self {
        Self {
            rule: rule.into(),
            severity,
            message: message.into(),
            span,
            labels: Vec::new(),
            hint: None,
            fixes: Vec::new(),
            pens: Vec::new(),
        }
    }

    /// Points at a second place.
    #[must_use]
    pub fn label(mut self, span: Span, text: impl Into<SizedText>) -> Self {
        self.labels.push(Label {
            span,
            text: text.into(),
        });
        self
    }

    /// Says one thing to do.
    #[must_use]
    pub fn hint(mut self, text: impl Into<SizedText>) -> Self {
        self.hint = Some(text.into());
        self
    }

    /// Offers one replacement that cures it.
    #[must_use]
    pub fn fix(self, title: impl Into<SizedText>, span: Span, text: impl Into<SizedText>) -> Self {
        self.fix_all(title, vec![Edit::new(span, text)])
    }

    /// Offers several replacements that cure it together.
    #[must_use]
    pub fn fix_all(mut self, title: impl Into<SizedText>, edits: Vec<Edit>) -> Self {
        self.fixes.push(Fix {
            title: title.into(),
            edits,
            mends: false,
        });
        self
    }

    /// Says of the cure offered last that it cannot change the pen: a slip of spelling.
    #[must_use]
    pub fn mending(mut self) -> Self {
        if let Some(fix) = self.fixes.last_mut() {
            fix.mends = true;
        }
        self
    }

    /// The one thing to do that is shown with it: the hint, else the first cure.
    pub fn help(&self) -> Option<&SizedText> {
        let cure = self.fixes.first().map(|fix| &fix.title);
        self.hint.as_ref().or(cure)
    }

    /// The same with only those of its cures that hold; a hint that proposes another goes.
    #[must_use]
    pub fn with_cures(mut self, held: Vec<Fix>) -> Self {
        let fails = |hint: &SizedText| {
            let titled = |fix: &&Fix| fix.title == *hint;
            self.fixes.iter().any(|fix| titled(&fix)) && !held.iter().any(|fix| titled(&fix))
        };
        if self.hint.as_ref().is_some_and(fails) {
            self.hint = held.is_empty().then(|| {
                let page = self.rule.code();
                text!(
                    "see what stands beside it; `quillet explain {}` says what it goes by",
                    page
                )
            });
        }
        self.fixes = held;
        self
    }

    /// The same with every size shown in the unit of a file: of the finding's own in what it says,
    /// of the file that an edit goes into in the edit and, where it is one file, in its title.
    #[must_use]
    pub fn in_units(mut self, unit: &dyn Fn(FileId) -> Units) -> Self {
        let own = unit(self.span.file);
        self.message = self.message.in_units(own);
        self.hint = self.hint.map(|hint| hint.in_units(own));
        for label in &mut self.labels {
            label.text = std::mem::take(&mut label.text).in_units(own);
        }
        for fix in &mut self.fixes {
            let of_edits = fix.edits.first().map_or(own, |edit| unit(edit.span.file));
            fix.title = std::mem::take(&mut fix.title).in_units(of_edits);
            for edit in &mut fix.edits {
                edit.text = std::mem::take(&mut edit.text).in_units(unit(edit.span.file));
            }
        }
        self
    }
}

/// A second place concerned, with what it has to do with the finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// A few words.
    pub text: SizedText,
}

/// One cure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What it does, in the imperative: "drill 7.8 instead".
    pub title: SizedText,
    /// The replacements, applied together.
    pub edits: Vec<Edit>,
    /// It cannot change the pen: it may be made with others, unseen.
    pub mends: bool,
}

/// One replacement of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced; empty to insert.
    pub span: Span,
    /// The new text.
    pub text: SizedText,
}

impl Edit {
    /// What a place is to read.
    pub fn new(span: Span, text: impl Into<SizedText>) -> Self {
        let text = text.into();
        Edit { span, text }
    }
}

/// A text with edits of it made together, in whatever order they come; none where two overlap or
/// one lies outside it.
pub fn edited<'a>(text: &str, edits: impl IntoIterator<Item = &'a Edit>) -> Option<String> {
    let mut edits: Vec<&Edit> = edits.into_iter().collect();
    edits.sort_by_key(|edit| edit.span);
    let mut out = String::with_capacity(text.len() + 64);
    let mut reached = 0;
    for edit in edits {
        let range = edit.span.range();
        out.push_str(text.get(reached..range.start)?);
        out.push_str(&edit.text);
        reached = range.end;
    }
    out.push_str(text.get(reached..)?);
    Some(out)
}

/// Where a span lies once edits are applied; it takes in what replaces what is in it, or what it is
/// part of.
pub fn moved(span: Span, edits: &[Edit]) -> Span {
    let of_file = edits.iter().filter(|edit| edit.span.file == span.file);
    let (mut start, mut end) = (i64::from(span.start), i64::from(span.end));
    for edit in of_file {
        let grown = edit.text.len() as i64 - edit.span.range().len() as i64;
        if edit.span.end <= span.start {
            start += grown;
        } else if edit.span.start <= span.start && span.end <= edit.span.end {
            start -= i64::from(span.start - edit.span.start);
        }
        if edit.span.start < span.end || edit.span.end <= span.start {
            end += grown;
        }
        if edit.span.start <= span.start && span.end < edit.span.end {
            end += i64::from(edit.span.end - span.end);
        }
    }
    let at = |offset: i64| usize::try_from(offset).unwrap_or(0);
    Span::new(span.file, at(start), at(end.max(start)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edits_are_made_together_or_not_at_all() {
        let edit = |start, end, text| Edit::new(Span::new(FileId(0), start, end), text);
        let together = edited("abc", [&edit(3, 3, "!"), &edit(0, 1, "xy")]);
        assert_eq!(together.as_deref(), Some("xybc!"));
        assert_eq!(edited("abc", [&edit(0, 2, ""), &edit(1, 3, "")]), None);
        assert_eq!(edited("abc", [&edit(2, 4, "")]), None);
    }

    #[test]
    fn a_place_moves_with_what_is_changed_before_it() {
        let edit = |start, end, text| Edit::new(Span::new(FileId(0), start, end), text);
        let at = Span::new(FileId(0), 10, 14);
        let after = |edit: Edit| {
            let span = moved(at, &[edit]);
            (span.start, span.end)
        };
        assert_eq!(after(edit(0, 0, "abc")), (13, 17));
        assert_eq!(after(edit(11, 12, "abc")), (10, 16));
        assert_eq!(after(edit(20, 21, "")), (10, 14));
        // What is written anew as a whole may have it anywhere.
        assert_eq!(after(edit(4, 20, "0123456789")), (4, 14));
    }
}
