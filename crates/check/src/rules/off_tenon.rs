//! `off-tenon`: the tenon for an outside thread lies outside its limits.

use crate::{Findings, PartView, Rule, Run, shape, words};
use quillet_geometry::Length;
use quillet_model::Cut;
use quillet_syntax::Severity;
use quillet_syntax::ast::Side;

pub(crate) static RULE: Rule = Rule {
    code: "off-tenon",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("off-tenon.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    for threaded in shape::threads(part, Side::Outside) {
        let form = &threaded.thread.thread;
        let Ok(tenon) = form.tenon() else { continue };
        let (from, to) = threaded.feature.stations(part.length);
        let middle = (from + (to - from).half()).to_mm();
        let turned = shape::tenon_under(part, &threaded);
        if turned.is_some_and(|it| {
            matches!(
                it.cut,
                Cut::Tenon {
                    assumed_for: Some(_),
                    ..
                }
            )
        }) {
            continue;
        }
        let outside = profiles
            .crest
            .outer
            .radii_at(middle)
            .map(|(r, _)| Length::mm(r).twice());
        let Some(dia) = turned.and_then(|it| it.dia()).or(outside) else {
            continue;
        };
        // The outside comes from a curve; a tenon is exact.
        let slack = Length::from_nm(if turned.is_some() { 0 } else { 1 });
        if dia >= tenon.range.min() - slack && dia <= tenon.range.max() + slack {
            continue;
        }
        let class = form.class(quillet_standards::thread::Side::External);
        let much = if dia > tenon.range.max() {
            "too fat"
        } else {
            "too thin"
        };
        let finding = RULE
            .at(
                turned.map_or(threaded.feature.span, |it| it.size_span),
                format!(
                    "{} is {much} for {}; {} to {} wanted ({class}{})",
                    words::dia(dia),
                    threaded.thread.called(),
                    tenon.range.min().mm_text(3),
                    tenon.range.max(),
                    if tenon.from.word() == "formula" {
                        ", by the standard's formulas"
                    } else {
                        ""
                    },
                ),
            )
            .hint(format!(
                "turn the tenon to {}; the low side, {} to {}, suits plastics",
                tenon.default.mm_text(2),
                tenon.in_plastic.min().mm_text(2),
                tenon.in_plastic.max().mm_text(2),
            ));
        let finding = match turned {
            Some(it) => {
                let text = tenon.default.mm_text(2);
                finding
                    .label(
                        threaded.feature.span,
                        format!("{} is cut on it", threaded.thread.called()),
                    )
                    .fix(format!("turn it to {text}"), it.size_span, text)
            }
            None => finding,
        };
        findings.push_at(finding, from, to);
    }
}
