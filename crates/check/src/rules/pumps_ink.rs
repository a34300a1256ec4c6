//! `pumps-ink`: a cap that draws ink out of the feed as it comes off.

use crate::{Findings, PenView, Rule, Run, Threshold, spots, words};
use quillet_geometry::Length;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "pumps-ink",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("pumps-ink.md"),
    run: Run::Pen(run),
};

/// The share by which the air may be drawn out before it pulls at the ink; common practice, no
/// published source.
const SHARE: f64 = 0.05;

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let Some(air) = &pen.assembly.air else { return };
    let Some(cap) = pen.joints.iter().find(|joint| joint.verb == Verb::Close) else {
        return;
    };
    let most = view
        .limit(&RULE)
        .and_then(|line| line.value.as_number())
        .unwrap_or(SHARE);
    let worst = air
        .pistons
        .iter()
        .max_by(|a, b| a.share(air).total_cmp(&b.share(air)));
    let Some(piston) = worst.filter(|it| it.share(air) > most) else {
        return;
    };
    let [share, at_most] = words::told_apart(piston.share(air) * 100.0, most * 100.0, 0);
    let message = text!(
        "{} fits closely in {} for {}: drawn off, the {} ml of air grow by {} %; {} % at most wanted",
        spots::words(pen, &piston.male),
        spots::words(pen, &piston.female),
        Size::Rounded(Length::mm(piston.stroke_mm), 1),
        format!("{:.2}", air.volume_mm3 / 1000.0),
        share,
        at_most
    );
    findings.push(
        RULE.at(cap.head, message)
            .label(
                spots::span(pen, &piston.female),
                "the bore it is drawn through",
            )
            .label(spots::span(pen, &piston.male), "what fits in it")
            .hint(text!(
                "shorten the close fit, or leave {} a side and let a face seal",
                words::ROOM_A_SIDE
            )),
    );
}
