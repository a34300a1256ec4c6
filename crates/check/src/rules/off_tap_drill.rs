//! `off-tap-drill`: the hole for a tap leaves too much or too little thread.

use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_model::Cut;
use quillet_standards::material::Family;
use quillet_standards::thread::percent_practice;
use quillet_syntax::Severity;
use quillet_syntax::ast::Side;

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
        let Some(material) = part.material_at(from + (to - from).half()) else {
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
        let better = recommended(view, &threaded, family);
        let finding = RULE
            .at(
                hole.size_span,
                format!(
                    "{} leaves {percent} of {}, {much}; {:.0} to {:.0} % of 3H/4 holds in {}",
                    words::dia(dia),
                    threaded.thread.called(),
                    practice.least,
                    practice.most,
                    material.name,
                ),
            )
            .label(
                threaded.feature.span,
                format!("{} is tapped in it", threaded.thread.called()),
            )
            .hint(format!(
                "drill {}, which leaves {:.0} % of 3H/4",
                better.mm_text(3),
                form.percent_of_thread(better).of_3h4
            ))
            .fix(
                format!("drill {}", better.mm_text(3)),
                hole.size_span,
                better.mm_text(3),
            );
        findings.push_at(finding, from, to);
    }
}

/// The bench's best drill where it has one that suits, else the standard's.
fn recommended(view: &PartView<'_>, threaded: &Threaded<'_>, family: Family) -> Length {
    let form = &threaded.thread.thread;
    let standard = form.tap_drill().diameter;
    let Some(practice) = percent_practice(family) else {
        return standard;
    };
    let at_hand = view
        .bench
        .into_iter()
        .flat_map(|bench| &bench.drills)
        .map(|drill| drill.dia);
    let best = form
        .tap_drill_choices(at_hand, Some(family))
        .first()
        .map(|choice| choice.diameter);
    let suits = |dia: &Length| {
        (practice.least..=practice.most).contains(&form.percent_of_thread(*dia).of_3h4)
    };
    best.filter(suits).unwrap_or(standard)
}
