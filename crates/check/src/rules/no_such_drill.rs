//! `no-such-drill`: a hole asks for a drill that is not on the bench.

use crate::{Findings, PartView, Rule, Run, shape, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature};
use quillet_plan::{Indexed, PlanProblem};
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-drill",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-drill.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    beside(view, findings);
    for problem in view.problems() {
        let PlanProblem::NoDrill {
            feature,
            wanted,
            flat,
            below,
            above,
        } = *problem
        else {
            continue;
        };
        let Some(cut) = view.part.features.get(feature) else {
            continue;
        };
        let nearest: Vec<Length> = [below, above].into_iter().flatten().collect();
        let mut finding = RULE.at(cut.size_span, lacks(view, wanted, flat));
        let effects = nearest.iter().map(|it| effect(view, cut, wanted, *it));
        finding = finding.hint(instead(effects.collect()));
        // An assumed tap drill has no size of its own to be rewritten.
        let assumed = matches!(
            cut.cut,
            Cut::Drill {
                assumed_for: Some(_),
                ..
            }
        );
        for size in nearest.iter().filter(|_| !assumed) {
            let text = SizedText::from(Size::Drill(*size));
            finding = finding.fix(text!("write {}", text), cut.size_span, text);
        }
        let (from, to) = cut.stations(view.part.length);
        findings.push_at(finding, from, to);
    }
}

/// Of holes from the side and beside the axis.
fn beside(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoDrillBeside {
            cut,
            wanted,
            flat,
            below,
            above,
        } = *problem
        else {
            continue;
        };
        let part = view.part;
        let place = match cut {
            Indexed::Side(id) => part
                .side(id)
                .map(|it| (it.size_span, it.stretch.from, it.stretch.to)),
            Indexed::Beside(id) => part.circle(id).map(|it| {
                let ends = [it.from, it.to].map(|at| part.station(it.end, at));
                (it.span, ends[0].min(ends[1]), ends[0].max(ends[1]))
            }),
        };
        let Some((span, from, to)) = place else {
            continue;
        };
        let nearest = [below, above].into_iter().flatten();
        let nearest = nearest.map(|it| text!("{}", Size::Drill(it)));
        let finding = RULE.at(span, lacks(view, wanted, flat));
        findings.push_at(finding.hint(instead(nearest.collect())), from, to);
    }
}

fn lacks(view: &PartView<'_>, wanted: Length, flat: bool) -> SizedText {
    text!(
        "no {} of {} is on the bench{}",
        if flat { "flat-bottomed drill" } else { "drill" },
        words::dia(wanted),
        on(view)
    )
}

/// What to do instead, given what is nearest.
fn instead(nearest: Vec<SizedText>) -> SizedText {
    match nearest.is_empty() {
        true => "buy it, or put a size that is at hand".into(),
        false => text!("buy it, or take {}", SizedText::joined(nearest, ", or ")),
    }
}

/// ` saltings`, where a bench is in sight.
fn on(view: &PartView<'_>) -> SizedText {
    view.bench
        .map_or_else(SizedText::default, |bench| text!(" {}", bench.name.text))
}

/// What another size does: `9.5, wall 0.10 mm less a side, 51 % of thread`.
fn effect(view: &PartView<'_>, cut: &Feature, wanted: Length, size: Length) -> SizedText {
    let change = (size - wanted).half();
    let more = if change.is_positive() { "less" } else { "more" };
    let wall = text!("{} {} wall a side", Size::Short(change.abs()), more);
    let tapped = shape::threads(view.part, Side::Inside).find(|threaded| {
        shape::tapped_hole(view.part, threaded).is_some_and(|hole| hole.span == cut.span)
    });
    let size_text = Size::Drill(size);
    match tapped {
        Some(threaded) => {
            let percent = threaded.thread.thread.percent_of_thread(size).of_3h4;
            text!(
                "{} ({}, {} % of thread by 3H/4)",
                size_text,
                wall,
                format!("{:.0}", percent)
            )
        }
        None => text!("{} ({})", size_text, wall),
    }
}
