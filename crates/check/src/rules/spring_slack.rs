//! `spring-slack`: a spring with more room than it is long.

use super::spring_bound::between;
use crate::{Findings, JointView, Rule, Run};
use quillet_geometry::Length;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "spring-slack",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("spring-slack.md"),
    run: Run::Joint(run),
};

/// Less room to spare than this is none, mm.
const NOTHING_MM: f64 = 1e-6;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    for (spring, trapped, when) in between(view) {
        if trapped.room_mm <= NOTHING_MM {
            continue;
        }
        let message = text!(
            "{}{} has {} to spare: nothing presses it",
            spring.name.text,
            when,
            Size::Rounded(Length::mm(trapped.room_mm), 2)
        );
        findings.push(
            RULE.at(view.joint.head, message)
                .label(spring.length_span, "its length")
                .hint("leave it less room between the faces it stands between, or take a longer spring"),
        );
    }
}
