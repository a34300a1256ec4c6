//! `want-unmet`: a pen that is not what was asked for.

use crate::measure::{self, Measured};
use crate::{Findings, PenView, Rule, Run};
use quillet_model::Want;
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "want-unmet",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("want-unmet.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let of_joints = pen.joints.iter().flat_map(|joint| &joint.wants);
    for want in pen.wants.iter().chain(of_joints) {
        tell(view, want, measure::of_pen(pen, want), findings);
    }
    for part in &pen.parts {
        for want in &part.wants {
            tell(view, want, measure::of_part(part, want), findings);
        }
    }
}

fn tell(view: &PenView<'_>, want: &Want, measured: Measured, findings: &mut Findings) {
    let (Some(value), Some(false)) = (measured.value, measured.met) else {
        return;
    };
    let asked = view.design.text(want.measure.span);
    let mut message = format!(
        "{asked} is {}; {} is wanted",
        measure::told(value),
        measured.wanted
    );
    if let [first, rest @ ..] = measured.drivers.as_slice() {
        message += &format!("; {first}");
        rest.iter()
            .for_each(|driver| message += &format!(", {driver}"));
    }
    let finding = RULE.at(want.span, message);
    findings.push(finding.hint("change the parts until it is met, or agree on another figure"));
}
