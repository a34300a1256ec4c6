//! `missing-thread`: a screwed joint of which one part has no thread.

use super::joint_threads::JointThreads;
use crate::{Findings, JointView, Rule, Run, propose};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "missing-thread",
    severity: Severity::Error,
    limit: None,
    page: include_str!("missing-thread.md"),
    run: Run::Joint(run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let threads = JointThreads::of(view);
    let (no_male, no_female) = (threads.male.is_empty(), threads.female.is_empty());
    let flawed = match view.joint.verb {
        Verb::Screw => no_male || no_female,
        Verb::Close => no_male != no_female,
        _ => false,
    };
    if !flawed {
        return;
    }
    let called = view
        .joint
        .with
        .as_ref()
        .map_or("a thread".to_owned(), |with| with.called());
    let lacking = match (no_male, no_female) {
        (true, true) => text!(
            "{} has no outside thread for it and {} no inside one",
            view.male.name.text,
            view.female.name.text
        ),
        (true, false) => text!("{} has no outside thread for it", view.male.name.text),
        _ => text!("{} has no inside thread for it", view.female.name.text),
    };
    let mut finding = RULE.at(
        view.joint.head,
        text!(
            "{} into {} is held by {}, and {}",
            view.male_name(),
            view.female_name(),
            called,
            lacking
        ),
    );
    if no_male {
        finding = finding.label(view.male.name.span, "no outside thread in this part");
    }
    if no_female {
        finding = finding.label(view.female.name.span, "no inside thread in this part");
    }
    let hint = match threads.male.first().or(threads.female.first()) {
        Some(known) => text!("cut {} on both", known.thread.called()),
        None => "cut one thread on both, or write slip, press or glue".into(),
    };
    let finding = finding.hint(hint);
    findings.push(propose::with(finding, propose::turned(view)));
}
