//! `off-tap-drill`: the hole for a tap leaves too much or too little thread.

use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, edits, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature};
use quillet_standards::Units;
use quillet_standards::material::Family;
use quillet_standards::thread::percent_practice;
use quillet_syntax::ast::Side;
use quillet_syntax::{Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "off-tap-drill",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("off-tap-drill.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    for threaded in shape::threads(part, Side::Inside) {
        if let Some(hole) = shape::swallowing_hole(part, &threaded) {
            nothing_left(view, &threaded, hole, findings);
            continue;
        }
        let Some(hole) = shape::tapped_hole(part, &threaded) else {
            continue;
        };
        if matches!(
            hole.cut,
            Cut::Drill {
                assumed_for: Some(_),
                ..
            }
        ) {
            continue;
        }
        let (from, to) = threaded.feature.stations(part.length);
        let Some(material) = part.thread_materials(threaded.feature).first().copied() else {
            continue;
        };
        let family = material.kind.family();
        let (Some(dia), Some(practice)) = (hole.dia(), percent_practice(family)) else {
            continue;
        };
        let form = &threaded.thread.thread;
        let percent = form.percent_of_thread(dia);
        if (practice.least..=practice.most).contains(&percent.of_3h4) {
            continue;
        }
        let much = if percent.of_3h4 < practice.least {
            "too little"
        } else {
            "too much"
        };
        let missed = practice.least.max(percent.of_3h4.min(practice.most));
        let [told, _] = words::told_apart(percent.of_3h4, missed, 0);
        let better = recommended(view, &threaded, family);
        let finding = RULE
            .at(
                hole.size_span,
                text!(
                    "{} leaves {} of {}, {}; {} to {} % of 3H/4 holds in {}",
                    words::dia(dia),
                    format!("{told} % of 3H/4 ({:.0} % of 5H/8)", percent.of_5h8),
                    threaded.thread.called(),
                    much,
                    format!("{:.0}", practice.least),
                    format!("{:.0}", practice.most),
                    material.name
                ),
            )
            .label(
                threaded.feature.span,
                text!("{} is tapped in it", threaded.thread.called()),
            );
        findings.push_at(cured(view, &threaded, hole, better, finding), from, to);
    }
}

/// What to drill instead, or before it where the hole serves something else beyond the thread.
fn cured(
    view: &PartView<'_>,
    threaded: &Threaded<'_>,
    hole: &Feature,
    better: (SizedText, Length),
    finding: Finding,
) -> Finding {
    let part = view.part;
    let (called, better) = better;
    let form = &threaded.thread.thread;
    let leaves = form.percent_of_thread(better).of_3h4;
    // A hole that goes on well beyond the thread has its size for something else.
    let enough = threaded.feature.to + form.pitch().scaled(TAP_PITCHES);
    match hole.dia() < Some(better) && hole.to > enough + form.pitch().scaled(TAP_PITCHES) {
        true => {
            let line = text!(
                "drill {} to {}",
                called,
                Size::Written(view.design.units_at(part.span).up(enough))
            );
            finding
                .hint(text!(
                    "add {}, which leaves {} % of 3H/4",
                    line,
                    format!("{:.0}", leaves)
                ))
                .fix_all(
                    text!("add {}", line),
                    vec![edits::before(view.design, hole.span, line)],
                )
        }
        false => finding
            .hint(text!(
                "drill {}, which leaves {} % of 3H/4",
                called,
                format!("{:.0}", leaves)
            ))
            .fix(text!("drill {}", called), hole.size_span, called),
    }
}

/// A hole as wide as the thread that is to be cut in it.
fn nothing_left(
    view: &PartView<'_>,
    threaded: &Threaded<'_>,
    hole: &Feature,
    findings: &mut Findings,
) {
    let (from, to) = threaded.feature.stations(view.part.length);
    let Some(material) = view.part.material_at(from + (to - from).half()) else {
        return;
    };
    let (form, called) = (&threaded.thread.thread, threaded.thread.called());
    let (size, better) = recommended(view, threaded, material.kind.family());
    let leaves = form.percent_of_thread(better).of_3h4;
    let finding = RULE
        .at(
            hole.size_span,
            text!(
                "{} leaves nothing to cut {} in: its major diameter is {}",
                words::dia(hole.dia().unwrap_or_default()),
                called,
                words::dia(form.major())
            ),
        )
        .label(threaded.feature.span, text!("{} is tapped in it", called))
        .hint(text!(
            "drill {}, which leaves {} % of 3H/4",
            size,
            format!("{:.0}", leaves)
        ))
        .fix(text!("drill {}", size), hole.size_span, size);
    let finding = Finding {
        severity: Severity::Error,
        ..finding
    };
    findings.push_at(finding, from, to);
}

/// So many pitches a hole is drilled beyond the thread, for the tap's lead: common practice, no
/// published source.
const TAP_PITCHES: f64 = 4.0;

/// The bench's best drill where it has one that suits, else the best that is made; as it is written.
fn recommended(
    view: &PartView<'_>,
    threaded: &Threaded<'_>,
    family: Family,
) -> (SizedText, Length) {
    let form = &threaded.thread.thread;
    let (units, listed) = (
        view.design.units_at(view.part.span),
        form.tap_drill().diameter,
    );
    // In inches none is listed: where the size that is worked out is no drill, the best that is.
    let made = form.kind_drill(Some(family), units.drills());
    let standard = match made.filter(|_| units == Units::Inches && !units.is_drill(listed)) {
        Some((drill, _)) => drill.diameter(),
        None => listed,
    };
    let plain = |dia: Length| (SizedText::from(Size::Drill(dia)), dia);
    let Some(practice) = percent_practice(family) else {
        return plain(standard);
    };
    let at_hand = || view.bench.into_iter().flat_map(|bench| &bench.drills);
    let choices = form.tap_drill_choices(at_hand().map(|drill| drill.dia), Some(family));
    let suits = |dia: &Length| {
        (practice.least..=practice.most).contains(&form.percent_of_thread(*dia).of_3h4)
    };
    let best = choices.first().map(|choice| choice.diameter);
    let Some(best) = best.filter(suits) else {
        return plain(standard);
    };
    let name = at_hand().find(|drill| drill.dia == best);
    match name.and_then(|it| it.name.name()) {
        Some(name) => (name.into(), best),
        None => plain(best),
    }
}
