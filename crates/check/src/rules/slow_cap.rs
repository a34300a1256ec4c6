//! `slow-cap`: a cap that takes too many turns.

use crate::{Findings, JointView, Rule, Run, Threshold, words};
use quillet_geometry::Length;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "slow-cap",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("slow-cap.md"),
    run: Run::Joint(run),
};

/// More turns than this annoy; common practice, no published source.
const TURNS: f64 = 2.0;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(threads) = view.at_rest().and_then(|rest| rest.engagements.first()) else {
        return;
    };
    let most = view.number_limit(&RULE, TURNS);
    let turns = threads.turns();
    if view.joint.verb != Verb::Close || turns <= most + 1e-9 {
        return;
    }
    let (male, female) = (
        &view.male.features[threads.threads.male],
        &view.female.features[threads.threads.female],
    );
    let [told, _] = words::told_apart(turns, most, 2);
    let message = text!(
        "{} turns to take the cap off: {} of travel over a lead of {}; {} wanted at most",
        told,
        Size::Rounded(Length::mm(threads.travel_mm), 2),
        threads.form.lead(),
        most
    );
    let finding = RULE
        .at(view.joint.head, message)
        .label(
            female.span,
            text!(
                "begins {} in",
                Size::Rounded(Length::mm(threads.mouth_mm), 2)
            ),
        )
        .label(
            male.span,
            text!(
                "its leading edge comes {} in",
                Size::Rounded(Length::mm(threads.leading_mm), 2)
            ),
        );
    let starts = (threads.travel_mm / (most * threads.form.pitch_mm())).ceil() as u32;
    let named = male
        .thread()
        .and_then(|(thread, _)| thread.name.as_ref().map(|name| (thread, name)));
    let finding = match named.filter(|_| starts <= 4) {
        Some((thread, name)) => {
            let text = text!(
                "thread {} = {} starts {}",
                name.text,
                thread.designation.text,
                starts
            );
            finding.fix(text!("cut it with {} starts", starts), thread.span, text)
        }
        None => finding,
    };
    findings.push(
        finding.hint("shorten the threads, begin the inside one deeper, or give them more starts"),
    );
}
