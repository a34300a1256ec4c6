//! `no-such-drill`: a hole asks for a drill that is not on the bench.

use crate::{Findings, PartView, Rule, Run, shape, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature};
use quillet_plan::Trouble;
use quillet_syntax::Severity;
use quillet_syntax::ast::Side;

pub(crate) static RULE: Rule = Rule {
    code: "no-such-drill",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-drill.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for trouble in view.troubles() {
        let Trouble::NoDrill {
            feature,
            wanted,
            below,
            above,
        } = *trouble
        else {
            continue;
        };
        let Some(cut) = view.part.features.get(feature) else {
            continue;
        };
        let nearest: Vec<Length> = [below, above].into_iter().flatten().collect();
        let mut finding = RULE.at(
            cut.size_span,
            format!(
                "no drill of {} is on the bench{}",
                words::dia(wanted),
                on(view)
            ),
        );
        let effects: Vec<String> = nearest
            .iter()
            .map(|size| effect(view, cut, wanted, *size))
            .collect();
        finding = match effects.is_empty() {
            true => finding.hint("buy it, or put a size that is at hand"),
            false => finding.hint(format!("buy it, or take {}", effects.join(", or "))),
        };
        // An assumed tap drill has no size of its own to be rewritten.
        let assumed = matches!(
            cut.cut,
            Cut::Drill {
                assumed_for: Some(_),
                ..
            }
        );
        for size in nearest.iter().filter(|_| !assumed) {
            let text = size.exact_mm_text();
            finding = finding.fix(format!("write {text}"), cut.size_span, text);
        }
        let (from, to) = cut.stations(view.part.length);
        findings.push_at(finding, from, to);
    }
}

/// ` saltings`, where a bench is in sight.
fn on(view: &PartView<'_>) -> String {
    view.bench
        .map_or_else(String::new, |bench| format!(" {}", bench.name.text))
}

/// What another size does: `9.5, wall 0.10 mm less a side, 51 % of thread`.
fn effect(view: &PartView<'_>, cut: &Feature, wanted: Length, size: Length) -> String {
    let change = (size - wanted).half();
    let more = if change.is_positive() { "less" } else { "more" };
    let wall = format!("{} mm {more} wall a side", change.abs().mm_text(2));
    let tapped = shape::threads(view.part, Side::Inside).find(|threaded| {
        shape::tapped_hole(view.part, threaded).is_some_and(|hole| hole.span == cut.span)
    });
    let size_text = size.exact_mm_text();
    match tapped {
        Some(threaded) => {
            let percent = threaded.thread.thread.percent_of_thread(size).of_3h4;
            format!("{size_text} ({wall}, {percent:.0} % of thread by 3H/4)")
        }
        None => format!("{size_text} ({wall})"),
    }
}
