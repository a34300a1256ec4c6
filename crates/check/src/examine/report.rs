//! What was found, and what of it the maker accepts.

use crate::JudgedWant;
use crate::accepted::Accepted;
use quillet_syntax::{Finding, Severity};

/// What was found, and what of it the maker accepts.
#[derive(Clone, Debug, Default)]
pub struct CheckReport {
    /// Findings, in the order of the text.
    pub findings: Vec<Finding>,
    /// Findings accepted, in the order of the text.
    pub accepted: Vec<Accepted>,
    /// Every want, judged: those of parts in no pen, then pen by pen.
    pub wants: Vec<JudgedWant>,
}

impl CheckReport {
    /// What concerns a pen: what was found in it, and what was found in no pen in particular; its
    /// own wants, those of its joints and of its parts.
    pub fn of_pen(&self, pen: &str) -> CheckReport {
        let concerns = |finding: &Finding| {
            finding.pens.is_empty() || finding.pens.iter().any(|name| **name == *pen)
        };
        let findings = self.findings.iter().filter(|it| concerns(it));
        let accepted = self.accepted.iter().filter(|it| concerns(&it.finding));
        CheckReport {
            findings: findings.cloned().collect(),
            accepted: accepted.cloned().collect(),
            wants: self.wants_of_pen(pen).cloned().collect(),
        }
    }

    /// The wants of a pen, of its joints and of its parts.
    pub fn wants_of_pen<'a>(&'a self, pen: &'a str) -> impl Iterator<Item = &'a JudgedWant> {
        let of_pen = move |it: &&JudgedWant| it.pen.as_deref() == Some(pen);
        self.wants.iter().filter(of_pen)
    }

    /// The wants that a part itself states, as every pen sees it.
    pub fn wants_of_part<'a>(&'a self, part: &'a str) -> impl Iterator<Item = &'a JudgedWant> {
        let of_part = move |it: &&JudgedWant| it.part.as_deref() == Some(part);
        self.wants.iter().filter(of_part)
    }

    /// How many findings are errors.
    pub fn errors(&self) -> usize {
        let is_error = |it: &&Finding| it.severity == Severity::Error;
        self.findings.iter().filter(is_error).count()
    }
}
