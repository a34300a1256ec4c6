//! `thread-mismatch`: threads that do not screw together.

use super::joint_threads::JointThreads;
use crate::{Findings, JointView, Rule, Run};
use quillet_standards::thread::{Hand, ThreadForm};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, Size, SizedText, text};

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
    let (cut, other, part) = match view.male.is_bought() {
        true => (female.feature, male.feature, view.female),
        false => (male.feature, female.feature, view.male),
    };
    let text = view.pen.design.text(other.size_span);
    let finding = RULE
        .at(
            view.joint.head,
            text!(
                "{} has {} outside and {} has {} inside; {}",
                view.male.name.text,
                outside,
                view.female.name.text,
                inside,
                differing(outside, inside)
            ),
        )
        .label(male.feature.span, text!("{} outside", outside))
        .label(female.feature.span, text!("{} inside", inside))
        .hint("cut the same thread on both")
        .fix(
            text!("cut {} on {}", text, part.name.text),
            cut.size_span,
            text,
        );
    findings.push(finding);
}

/// What keeps two threads from screwing together.
fn differing(outside: &ThreadForm, inside: &ThreadForm) -> SizedText {
    let mut differs = Vec::new();
    if outside.is_inch() != inside.is_inch() {
        differs.push("one is metric, the other inch".into());
    }
    if outside.major() != inside.major() {
        differs.push(text!(
            "⌀{} against ⌀{}",
            Size::Near(outside.major(), 2),
            Size::Near(inside.major(), 2)
        ));
    }
    if outside.pitch() != inside.pitch() {
        differs.push(text!(
            "a pitch of {} against {}",
            outside.pitch(),
            inside.pitch()
        ));
    }
    if outside.starts() != inside.starts() {
        differs.push(text!(
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
        differs.push(text!("{} hand against {}", hand(outside), hand(inside)));
    }
    SizedText::joined(differs, ", ")
}
