//! `spring-bound`: a spring with less room than its least length.

use crate::{Findings, JointView, Rule, Run};
use quillet_geometry::Length;
use quillet_model::{Part, Trapped};
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "spring-bound",
    severity: Severity::Error,
    limit: None,
    page: include_str!("spring-bound.md"),
    run: Run::Joint(run),
};

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let all = between(view).filter(|(spring, trapped, _)| room(trapped) < spring.length);
    let mut bound: Vec<_> = all.collect();
    // Bound however the pen is held, it is told of where it has the least room.
    bound.sort_by_key(|(spring, trapped, _)| (&spring.name.text, room(trapped)));
    bound.dedup_by_key(|(spring, ..)| &spring.name.text);
    for (spring, trapped, when) in bound {
        let room = room(trapped);
        let message = text!(
            "{} is left for {}{}, which takes {} pressed solid",
            Size::Rounded(room, 2),
            spring.name.text,
            when,
            spring.length
        );
        findings.push(
            RULE.at(view.joint.head, message)
                .label(spring.length_span, "its least length")
                .hint("leave it more room between the faces it stands between, or take a shorter spring"),
        );
    }
}

fn room(trapped: &Trapped) -> Length {
    Length::mm(trapped.length_mm)
}

/// The springs that a joint holds between two parts which others place, drawn back as well, where
/// something is thrown.
pub(super) fn between<'a>(
    view: &JointView<'a>,
) -> impl Iterator<Item = (&'a Part, &'a Trapped, &'static str)> {
    let pen = view.pen.pen;
    let id = view.id;
    let rest = view.at_rest().filter(|rest| rest.redundant);
    let writing = rest
        .into_iter()
        .flat_map(|rest| &rest.trapped)
        .map(|it| (it, ""));
    let back = pen.assembly.springs_retracted.iter();
    let back = back
        .filter(move |it| it.0 == id)
        .map(|it| (&it.1, " drawn back"));
    let all = writing.chain(back);
    all.map(|(it, when)| (&*pen.parts[it.part], it, when))
}
