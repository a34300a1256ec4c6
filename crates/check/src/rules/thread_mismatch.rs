//! `thread-mismatch`: threads that do not screw together.

use super::joint_threads::JointThreads;
use crate::{Findings, JointView, Rule, Run};
use quillet_standards::thread::{Hand, ThreadForm};
use quillet_syntax::Severity;
use quillet_syntax::ast::Verb;

pub(crate) static RULE: Rule = Rule {
    code: "thread-mismatch",
    severity: Severity::Error,
    limit: None,
    page: include_str!("thread-mismatch.md"),
    run: Run::Joint(run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    if !matches!(view.joint.verb, Verb::Screw | Verb::Close) {
        return;
    }
    let threads = JointThreads::of(view);
    if threads.meet() {
        return;
    }
    let Some((male, female)) = threads.nearest() else {
        return;
    };
    let (outside, inside) = (&male.thread.thread, &female.thread.thread);
    // What is bought cannot be cut anew.
    let (cut, other, part) = match view.male.bought {
        true => (female.feature, male.feature, view.female),
        false => (male.feature, female.feature, view.male),
    };
    let text = view.pen.design.text(other.size_span);
    let finding = RULE
        .at(
            view.joint.head,
            format!(
                "{} has {outside} outside and {} has {inside} inside; {}",
                view.male.name.text,
                view.female.name.text,
                differing(outside, inside),
            ),
        )
        .label(male.feature.span, format!("{outside} outside"))
        .label(female.feature.span, format!("{inside} inside"))
        .hint("cut the same thread on both")
        .fix(
            format!("cut {text} on {}", part.name.text),
            cut.size_span,
            text,
        );
    findings.push(finding);
}

/// What keeps two threads from screwing together.
fn differing(outside: &ThreadForm, inside: &ThreadForm) -> String {
    let mut differs = Vec::new();
    if outside.is_inch() != inside.is_inch() {
        differs.push("one is metric, the other inch".to_owned());
    }
    if outside.major() != inside.major() {
        differs.push(format!(
            "⌀{} against ⌀{}",
            outside.major().mm_text(2),
            inside.major().mm_text(2)
        ));
    }
    if outside.pitch() != inside.pitch() {
        differs.push(format!(
            "a pitch of {} against {}",
            outside.pitch(),
            inside.pitch()
        ));
    }
    if outside.starts() != inside.starts() {
        differs.push(format!(
            "{} against {} starts",
            outside.starts(),
            inside.starts()
        ));
    }
    if outside.hand() != inside.hand() {
        let hand = |form: &ThreadForm| match form.hand() {
            Hand::Right => "right",
            Hand::Left => "left",
        };
        differs.push(format!("{} hand against {}", hand(outside), hand(inside)));
    }
    differs.join(", ")
}
