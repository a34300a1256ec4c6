//! `tap-wont-reach`: a narrower throat before an inside thread.

use crate::shape;
use crate::{Findings, PartView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_model::End;
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "tap-wont-reach",
    severity: Severity::Error,
    limit: None,
    page: include_str!("tap-wont-reach.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    for threaded in shape::threads(part, Side::Inside) {
        let cut = threaded.feature;
        let just_before = cut.from.to_mm() - 1e-6;
        if just_before <= 0.0 {
            continue;
        }
        let length = part.length.to_mm();
        let (from, to) = match cut.end {
            End::First => (0.0, just_before),
            End::Second => (length - just_before, length),
        };
        let narrowest = profiles
            .crest
            .inner
            .iter()
            .filter_map(|bore| bore.narrowest(from, to))
            .min_by(|a, b| a.0.r.total_cmp(&b.0.r));
        let major = threaded.thread.thread.major();
        let throat = narrowest.map_or(Length::ZERO, |(place, _)| Length::mm(place.r).twice());
        if throat >= major {
            continue;
        }
        let made_by = narrowest.map(|(_, tag)| profiles.origin(tag));
        let finding = RULE.at(
            cut.span,
            text!(
                "the throat before {} is {}; its tap is {} and will not pass",
                threaded.thread.called(),
                words::dia(throat),
                words::dia(major)
            ),
        );
        let finding = match made_by {
            Some(origin) => finding.label(words::span_of(part, origin), "the throat"),
            None => finding,
        };
        let wider = major + Length::mm(0.1);
        let statement = text!(
            "bore {} to {}",
            Size::Near(wider, 2),
            Size::Near(cut.from, 3)
        );
        let finding = finding
            .hint(text!("{} lets the tap in", statement))
            .fix_all(
                text!("add {}", statement),
                vec![crate::edits::before(view.design, cut.span, &statement)],
            );
        let (from, to) = cut.stations(part.length);
        findings.push_at(finding, from, to);
    }
}
