//! `no-room-for-tap`: a blind hole ends too soon after its thread.

use crate::lead_in::LeadIn;
use crate::{Findings, PartView, Rule, Run, Threshold, shape, words};
use quillet_geometry::Length;
use quillet_standards::thread::ThreadForm;
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "no-room-for-tap",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("no-room-for-tap.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    for threaded in shape::threads(part, Side::Inside) {
        let (Some(hole), cut) = (shape::tapped_hole(part, &threaded), threaded.feature) else {
            continue;
        };
        let Some(bottom) = shape::tapped_to(part, &threaded) else {
            continue;
        };
        let room = bottom - cut.to;
        let LeadIn {
            length: lead,
            whose,
        } = lead_in(view, &threaded.thread.thread);
        if room >= lead {
            continue;
        }
        let depth = cut.to + lead;
        let finding = RULE
            .at(
                cut.span,
                text!(
                    "{} of hole beyond {}; the tap's lead-in takes {} ({})",
                    words::against(room, lead),
                    threaded.thread.called(),
                    words::limit(lead, room),
                    whose
                ),
            )
            .label(hole.span, text!("full diameter to {}", hole.to))
            .hint(text!(
                "drill to {} or more, or cut the thread {} shorter",
                Size::Near(depth, 2),
                Size::Rounded(Length::mm(((lead - room).to_mm() * 10.0).ceil() / 10.0), 1)
            ));
        let deepened = hole.end == cut.end
            && !hole.through
            && depth < part.length
            && view.design.text(hole.reach_span).starts_with("to");
        let finding = match deepened {
            true => finding.fix(
                text!("drill to {}", Size::Near(depth, 2)),
                hole.reach_span,
                text!("to {}", Size::Near(depth, 2)),
            ),
            false => finding,
        };
        let (from, to) = cut.stations(part.length);
        findings.push_at(finding, from, to);
    }
}

/// The tap's lead-in, as the limit sets it or as it is.
fn lead_in(view: &PartView<'_>, form: &ThreadForm) -> LeadIn {
    let set = view.limit(&RULE).and_then(|line| line.value.as_length());
    set.map_or_else(|| LeadIn::of_tap(view.bench, form), LeadIn::set)
}
