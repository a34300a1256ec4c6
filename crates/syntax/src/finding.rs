//! What the checker says, as data; the terminal, the editor and JSON are views of it.

use crate::Span;

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
    /// The rule's code, kebab-case.
    pub rule: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What is and what was expected, with units; one sentence, no full stop at the end.
    pub message: String,
    /// The primary place.
    pub span: Span,
    /// The other places concerned, each with a few words.
    pub labels: Vec<Label>,
    /// One thing to do.
    pub hint: Option<String>,
    /// Edits any one of which cures it.
    pub fixes: Vec<Fix>,
    /// The pens that show it, where a finding belongs to a pen.
    pub pens: Vec<String>,
}

impl Finding {
    /// A finding without labels, hint or fixes.
    pub fn new(
        rule: &'static str,
        severity: Severity,
        span: Span,
        message: impl Into<String>,
    ) -> Self {
        Self {
            rule,
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
    pub fn label(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label {
            span,
            text: text.into(),
        });
        self
    }

    /// Says one thing to do.
    #[must_use]
    pub fn hint(mut self, text: impl Into<String>) -> Self {
        self.hint = Some(text.into());
        self
    }

    /// Offers one replacement that cures it.
    #[must_use]
    pub fn fix(self, title: impl Into<String>, span: Span, text: impl Into<String>) -> Self {
        self.fix_all(
            title,
            vec![Edit {
                span,
                text: text.into(),
            }],
        )
    }

    /// Offers several replacements that cure it together.
    #[must_use]
    pub fn fix_all(mut self, title: impl Into<String>, edits: Vec<Edit>) -> Self {
        self.fixes.push(Fix {
            title: title.into(),
            edits,
        });
        self
    }
}

/// A second place concerned, with what it has to do with the finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// A few words.
    pub text: String,
}

/// One cure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What it does, in the imperative: "drill 7.8 instead".
    pub title: String,
    /// The replacements, applied together.
    pub edits: Vec<Edit>,
}

/// One replacement of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced; empty to insert.
    pub span: Span,
    /// The new text.
    pub text: String,
}
