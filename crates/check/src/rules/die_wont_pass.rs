//! `die-wont-pass`: the outside ahead of a thread is fatter than the thread's root.

use super::blocked_start::fattest_ahead;
use crate::{Findings, PartView, Rule, Run, Threshold, propose, shape, words};
use quillet_geometry::Length;
use quillet_model::{CutId, Feature, Origin};
use quillet_plan::{Threading, Work};
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "die-wont-pass",
    severity: Severity::Error,
    limit: Some(Threshold::Length),
    page: include_str!("die-wont-pass.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let over = view.length_limit(&RULE, Length::ZERO);
    for threaded in shape::threads(part, Side::Outside) {
        let Some((dia, Origin::Outside(index))) = fattest_ahead(part, &threaded) else {
            continue;
        };
        if has_another_way(view, threaded.feature) {
            continue;
        }
        let root = threaded.thread.thread.root_diameter();
        let Some(station) = part.stations.get(index) else {
            continue;
        };
        if dia <= root + over {
            continue;
        }
        let finding = RULE
            .at(
                threaded.feature.span,
                text!(
                    "a die for {} must pass {} on its way; its root is {}",
                    threaded.thread.called(),
                    words::dia(dia),
                    words::dia(root)
                ),
            )
            .label(station.span, "the outside ahead of the thread")
            .hint(text!(
                "keep the outside ahead of it at {} or less",
                words::dia(root)
            ));
        let slimmer = propose::slimmer(view.design, part, Origin::Outside(index), root + over);
        let finding = propose::with(finding, slimmer);
        findings.push_at(finding, Length::ZERO, threaded.feature.from);
    }
}

/// Whether the route cuts a thread by a single point, or by a die from the other end.
fn has_another_way(view: &PartView<'_>, thread: &Feature) -> bool {
    let routes = view.plan().routes.iter();
    let operations = routes.flat_map(|route| &route.operations);
    operations.into_iter().any(|operation| {
        let cuts = |index: &CutId| {
            let cut = view.part.features.get(*index);
            cut.is_some_and(|cut| cut.span == thread.span)
        };
        match &operation.work {
            Work::Thread(cut) if operation.features.iter().any(cuts) => {
                cut.method == Threading::SinglePoint || cut.end != thread.end
            }
            _ => false,
        }
    })
}
