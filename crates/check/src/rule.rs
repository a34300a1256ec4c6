//! A rule: static data beside its page.

use crate::{BenchView, DesignView, Findings, JointView, PartView, PenView};
use quillet_syntax::{Finding, Severity, Span};

/// A rule, one file each under `rules/`, its page of documentation beside it.
#[derive(Debug)]
pub struct Rule {
    /// The flaw's name, kebab-case: what `limit` and `accept` say, and what a finding bears.
    pub code: &'static str,
    /// How much its findings usually matter; one may raise less or more where its page says so.
    pub severity: Severity,
    /// What `limit RULE = …` sets, where there is a threshold to set.
    pub limit: Option<Threshold>,
    /// Its page, Markdown, with an example that shows it and one that does not.
    pub page: &'static str,
    /// What it looks at.
    pub run: Run,
}

/// What a threshold is given in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the variants say it")]
pub enum Threshold {
    Length,
    Angle,
    /// A bare number, or a ratio; the rule's page says of what.
    Number,
}

/// What a rule looks at, and the function that looks.
#[derive(Clone, Copy, Debug)]
pub enum Run {
    /// Found while reading or resolving, or told by the checker itself.
    Elsewhere,
    /// Every part that is cut, as each pen sees it.
    Part(fn(&PartView<'_>, &mut Findings)),
    /// Every joint of every pen.
    Joint(fn(&JointView<'_>, &mut Findings)),
    /// Every part that is cut and every joint.
    PartAndJoint(
        fn(&PartView<'_>, &mut Findings),
        fn(&JointView<'_>, &mut Findings),
    ),
    /// Every part that is cut and every pen.
    PartAndPen(
        fn(&PartView<'_>, &mut Findings),
        fn(&PenView<'_>, &mut Findings),
    ),
    /// Every pen.
    Pen(fn(&PenView<'_>, &mut Findings)),
    /// Every bench.
    Bench(fn(&BenchView<'_>, &mut Findings)),
    /// The design, once.
    Design(fn(&DesignView<'_>, &mut Findings)),
}

impl Rule {
    /// What it says in a sentence: the first paragraph of its page.
    pub fn summary(&self) -> &'static str {
        let mut paragraphs = self.page.split("\n\n").map(str::trim);
        paragraphs
            .find(|text| !text.starts_with('#') && !text.is_empty())
            .unwrap_or(self.code)
    }

    /// A finding of this rule at its usual severity.
    pub(crate) fn at(&self, span: Span, message: impl Into<quillet_syntax::SizedText>) -> Finding {
        Finding::new(self.code, self.severity, span, message)
    }
}

/// A rule whose findings come from reading, resolving or the checker itself.
pub(crate) const fn elsewhere(code: &'static str, severity: Severity, page: &'static str) -> Rule {
    Rule {
        code,
        severity,
        limit: None,
        page,
        run: Run::Elsewhere,
    }
}
