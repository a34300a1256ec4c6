//! `no-such-drill`: a hole asks for a drill that is not on the bench.

use crate::{Findings, PartView, Rule, Run, shape, words};
use quillet_geometry::Length;
use quillet_model::{Cut, CutId, Feature, Part};
use quillet_plan::{DrilledHole, Indexed, PlanProblem};
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, Size, SizedText, Span, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-such-drill",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("no-such-drill.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    for problem in view.problems() {
        let PlanProblem::NoDrill {
            hole,
            wanted,
            flat,
            below,
            above,
        } = *problem
        else {
            continue;
        };
        let nearest: Vec<Length> = [below, above].into_iter().flatten().collect();
        let asked = match hole {
            DrilledHole::Cut(id) => along(view, id, wanted, &nearest),
            DrilledHole::Indexed(cut) => beside(view.part, cut, &nearest),
        };
        let Some(Asked {
            span,
            instead,
            rewritten,
            stretch: (from, to),
        }) = asked
        else {
            continue;
        };
        let mut finding = RULE.at(span, lacks(view, wanted, flat));
        finding = finding.hint(in_place(instead));
        for size in nearest.iter().filter(|_| rewritten) {
            let text = SizedText::from(Size::Drill(*size));
            finding = finding.fix(text!("write {}", text), span, text);
        }
        findings.push_at(finding, from, to);
    }
}

/// What asks for a drill.
struct Asked {
    span: Span,
    /// The drills that are there instead, and what each does.
    instead: Vec<SizedText>,
    /// Whether one of them can be written at the span.
    rewritten: bool,
    stretch: (Length, Length),
}

/// A hole along the axis.
fn along(view: &PartView<'_>, id: CutId, wanted: Length, nearest: &[Length]) -> Option<Asked> {
    let cut = view.part.features.get(id)?;
    let effects = nearest.iter().map(|it| effect(view, cut, wanted, *it));
    // An assumed tap drill has no size of its own to be rewritten.
    let assumed = matches!(
        cut.cut,
        Cut::Drill {
            assumed_for: Some(_),
            ..
        }
    );
    Some(Asked {
        span: cut.size_span,
        instead: effects.collect(),
        rewritten: !assumed,
        stretch: cut.stations(view.part.length),
    })
}

/// A hole from the side, or beside the axis.
fn beside(part: &Part, cut: Indexed, nearest: &[Length]) -> Option<Asked> {
    let (span, stretch) = match cut {
        Indexed::Side(id) => {
            let it = part.side(id)?;
            (it.size_span, (it.stretch.from, it.stretch.to))
        }
        Indexed::Beside(id) => {
            let it = part.circle(id)?;
            let ends = [it.from, it.to].map(|at| part.station(it.end, at));
            (it.span, (ends[0].min(ends[1]), ends[0].max(ends[1])))
        }
    };
    let sizes = nearest.iter().map(|it| text!("{}", Size::Drill(*it)));
    Some(Asked {
        span,
        instead: sizes.collect(),
        rewritten: false,
        stretch,
    })
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
fn in_place(nearest: Vec<SizedText>) -> SizedText {
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
