//! `tips-over`: a pen in a stand that a touch tips over.

use crate::{Findings, PenView, Rule, Run, Threshold, words};
use quillet_geometry::{Angle, Length};
use quillet_model::{Configuration, Pen};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "tips-over",
    severity: Severity::Warning,
    limit: Some(Threshold::Angle),
    page: include_str!("tips-over.md"),
    run: Run::Pen(run),
};

/// How far it is to lean before it tips; common practice, no published source.
const LEANS_DEG: f64 = 15.0;
/// What lies this near the foot stands on it, mm.
const ON_FOOT_MM: f64 = 1e-6;

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let joint = pen.joints.with_ids().find(|it| it.1.verb == Verb::Rest);
    let Some((index, joint)) = joint else { return };
    let sure = pen.assembly.joints.get(index);
    let Some(resting) = pen.assembly.resting.as_ref() else {
        return;
    };
    let Some(height) =
        centre_height_mm(resting).filter(|_| sure.is_some_and(|it| it.verdict.is_sure()))
    else {
        return;
    };
    let foot = foot_mm(pen, resting);
    let leans = foot.atan2(height).to_degrees();
    let wanted = view.limit(&RULE).and_then(|line| line.value.as_angle());
    let wanted = wanted.map_or(LEANS_DEG, Angle::to_deg);
    if leans >= wanted {
        return;
    }
    let [told, least] = match [leans, wanted].map(|it| quillet_geometry::number(it, 1)) {
        [one, other] if one == other => words::told_apart(leans, wanted, 1),
        told => told,
    };
    let message = text!(
        "in its stand {} tips over when it leans by {}°; {}° is wanted: its centre of mass stands {} up on a foot of {}",
        pen.name.text,
        told,
        least,
        Size::Rounded(Length::mm(height), 1),
        words::dia(Length::mm(foot).twice())
    );
    let wide = Length::mm(2.0 * height * wanted.to_radians().tan());
    findings.push(RULE.at(joint.head, message).hint(text!(
        "make the foot {} or more, or the stand lower or heavier",
        words::dia(wide)
    )));
}

/// How high the centre of mass stands over the foot, mm; none where it is not known.
fn centre_height_mm(resting: &Configuration) -> Option<f64> {
    let height = resting.length_mm? - resting.filled?.centre_mm;
    (height > 0.0).then_some(height)
}

/// The radius of what stands on the foot's plane, mm.
fn foot_mm(pen: &Pen, resting: &Configuration) -> f64 {
    let on_foot = pen.parts.with_ids().flat_map(|(id, part)| {
        let outer = part.profiles.as_ref().map(|it| &it.crest.outer);
        let ends = outer.map(|outer| [outer.start(), outer.end()]);
        ends.into_iter().flatten().filter_map(move |end| {
            let z = resting.z_mm(id, end.z)?;
            ((z - resting.drawn_mm).abs() < ON_FOOT_MM).then_some(end.r)
        })
    });
    on_foot.fold(0.0, f64::max)
}
