//! `off-tenon`: the tenon for an outside thread lies outside its limits.

use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, edits, propose, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Feature};
use quillet_standards::thread::Tenon;
use quillet_syntax::ast::Side;
use quillet_syntax::{Finding, Severity, Size, text};

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
        let finding = told(&threaded, turned, dia, &tenon);
        findings.push_at(cured(view, &threaded, turned, &tenon, finding), from, to);
    }
}

/// What is said of a tenon that is not of the size its thread wants.
fn told(threaded: &Threaded<'_>, turned: Option<&Feature>, dia: Length, tenon: &Tenon) -> Finding {
    let form = &threaded.thread.thread;
    let class = form.class(quillet_standards::thread::ThreadSide::External);
    let much = if dia > tenon.range.max() {
        "too fat"
    } else {
        "too thin"
    };
    RULE.at(
        turned.map_or(threaded.feature.span, |it| it.size_span),
        text!(
            "{} is {} for {}; {} to {} wanted ({}{})",
            words::dia(dia),
            much,
            threaded.thread.called(),
            Size::Near(tenon.range.min(), 3),
            tenon.range.max(),
            class,
            if tenon.from.word() == "formula" {
                ", by the standard's formulas"
            } else {
                ""
            }
        ),
    )
    .hint(text!(
        "turn the tenon to {}; the low side, {} to {}, suits plastics",
        Size::Near(tenon.default, 2),
        Size::Near(tenon.in_plastic.min(), 2),
        Size::Near(tenon.in_plastic.max(), 2)
    ))
}

/// What to turn instead: the tenon there is, or one that is added.
fn cured(
    view: &PartView<'_>,
    threaded: &Threaded<'_>,
    turned: Option<&Feature>,
    tenon: &Tenon,
    finding: Finding,
) -> Finding {
    let part = view.part;
    match turned {
        Some(it) => {
            let finding = finding.label(
                threaded.feature.span,
                text!("{} is cut on it", threaded.thread.called()),
            );
            let units = view.design.units_at(part.span);
            let sizes = [
                units.fine_down(tenon.default),
                units.fine_down(tenon.in_plastic.max()),
                units.fine_down(tenon.range.max()),
            ];
            let turned = sizes
                .into_iter()
                .filter_map(|dia| propose::turned_to(part, it, dia));
            propose::with(finding, turned)
        }
        // A tenon without a diameter takes the thread's own.
        None => {
            let statement = text!("tenon for {}", Size::Written(threaded.feature.to));
            let edit = edits::before(view.design, threaded.feature.span, statement.clone());
            finding.fix_all(text!("add {}", statement), vec![edit])
        }
    }
}
