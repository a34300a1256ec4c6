//! `no-room-for-tap`: a blind hole ends too soon after its thread.

use crate::shape::{self, Threaded};
use crate::{Findings, PartView, Rule, Run, Threshold, words};
use quillet_geometry::Length;
use quillet_standards::thread::tap_leads;
use quillet_syntax::Severity;
use quillet_syntax::ast::Side;

pub(crate) static RULE: Rule = Rule {
    code: "no-room-for-tap",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("no-room-for-tap.md"),
    run: Run::Part(run),
};

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    let Some(profiles) = &part.profiles else {
        return;
    };
    for threaded in shape::threads(part, Side::Inside) {
        let (Some(hole), cut) = (shape::tapped_hole(part, &threaded), threaded.feature) else {
            continue;
        };
        let Some(dia) = hole.dia() else { continue };
        let bottom = part.station(cut.end, cut.to);
        let room = shape::room_beyond(part, &profiles.crest, cut.end, bottom, dia);
        let open = cut.to + room >= part.length;
        let (lead, whose) = lead_in(view, &threaded);
        if open || room >= lead {
            continue;
        }
        let depth = cut.to + lead;
        let finding = RULE
            .at(
                cut.span,
                format!(
                    "{} of hole beyond {}; the tap's lead-in takes {lead} ({whose})",
                    words::against(room, lead),
                    threaded.thread.called(),
                ),
            )
            .label(hole.span, format!("full diameter to {}", hole.to))
            .hint(format!(
                "drill to {} or more, or cut the thread {:.1} mm shorter",
                depth.mm_text(2),
                ((lead - room).to_mm() * 10.0).ceil() / 10.0
            ));
        let deepened = hole.end == cut.end
            && !hole.through
            && depth < part.length
            && view.design.text(hole.reach_span).starts_with("to");
        let finding = match deepened {
            true => finding.fix(
                format!("drill to {}", depth.mm_text(2)),
                hole.reach_span,
                format!("to {}", depth.mm_text(2)),
            ),
            false => finding,
        };
        let (from, to) = cut.stations(part.length);
        findings.push_at(finding, from, to);
    }
}

/// The tap's lead-in, and where the figure comes from.
fn lead_in(view: &PartView<'_>, threaded: &Threaded<'_>) -> (Length, &'static str) {
    let form = &threaded.thread.thread;
    if let Some(set) = view.limit(&RULE).and_then(|line| line.value.as_length()) {
        return (set, "as the limit says");
    }
    let taps = view.bench.into_iter().flat_map(|bench| &bench.taps);
    let on_bench = taps
        .filter(|tap| tap.thread.thread.mates_with(form))
        .filter_map(|tap| tap.lead);
    if let Some(lead) = on_bench.min() {
        return (lead, "the bench's tap");
    }
    let form_c = tap_leads().iter().find(|lead| lead.form() == "C");
    let least = form_c.map_or(form.pitch() * 2, |lead| lead.length(form).min());
    (least, "two pitches, form C of DIN 2197")
}
