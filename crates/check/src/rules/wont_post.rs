//! `wont-post`: a cap that does not hold on the tail.

use crate::{Findings, JointView, Rule, Run, Threshold, spots, words};
use quillet_geometry::Length;
use quillet_model::{HeldBy, Pen, StoppedBy, SurfacePoint, Touch};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "wont-post",
    severity: Severity::Warning,
    limit: Some(Threshold::Angle),
    page: include_str!("wont-post.md"),
    run: Run::Joint(run),
};

/// The steepest half angle that a cap holds on, in degrees, and by how many diameters it must
/// reach over; common practice, no published source.
const HALF_ANGLE_DEG: f64 = 3.0;
const DIAMETERS: f64 = 1.0;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|_| view.joint.verb == Verb::Post) else {
        return;
    };
    // What a snap, magnets, a ring or a thread hold needs no taper.
    let otherwise = |it: &HeldBy| !matches!(it, HeldBy::Taper(_));
    if rest.verdict.held_by.iter().any(otherwise) {
        return;
    }
    let pen = view.pen.pen;
    if rest.stopped_by == StoppedBy::Nothing {
        let message = text!("{} never touches {}", view.female_name(), view.male_name());
        findings.push(
            RULE.at(view.joint.head, message)
                .hint("make the tail fatter, or the mouth narrower"),
        );
        return;
    }
    let Some(touch) = rest.touches.first() else {
        return;
    };
    let half = half_angle_deg(view, &touch.male).max(0.0);
    let most = view.limit(&RULE).and_then(|line| line.value.as_angle());
    let most = most.map_or(HALF_ANGLE_DEG, |angle| angle.to_deg());
    let dia = Length::mm(touch.female.radius_mm).twice();
    let spans = |finding: Finding| {
        finding
            .label(spots::span(pen, &touch.male), "rests here")
            .label(spots::span(pen, &touch.female), "with this")
    };
    let mut flaws = Vec::new();
    if half > most {
        let [told, _] = words::told_apart(half, most, 1);
        flaws.push(text!("a half angle of {}°, {}° at most holds", told, most));
    }
    if rest.goes_in_mm / dia.to_mm() < DIAMETERS {
        flaws.push(text!(
            "{} over the tail, {} at least wanted",
            Size::Rounded(Length::mm(rest.goes_in_mm), 1),
            dia
        ));
    }
    if !flaws.is_empty() {
        let message = would_not_hold(pen, touch, dia, &flaws);
        findings.push(spans(RULE.at(view.joint.head, message)).hint(
            "let the tail taper by 3° a side or less over a diameter's length, with a bore to suit",
        ));
    }
    if let Some(message) = rides(pen, touch) {
        let finding = spans(RULE.at(view.joint.head, message));
        let finding = Finding {
            severity: Severity::Note,
            ..finding
        };
        findings.push(finding.hint("let a plain bore beyond the thread, or the lip, touch first"));
    }
}

/// What is said of a cap's thread that touches the tail first.
fn rides(pen: &Pen, touch: &Touch) -> Option<SizedText> {
    let female = &pen.parts[touch.female.part];
    let thread = spots::feature(female, touch.female.origin).and_then(|it| it.thread());
    thread.map(|(thread, _)| {
        text!(
            "{} of {} rides on {} and will mark it",
            thread.called(),
            female.name.text,
            spots::words(pen, &touch.male)
        )
    })
}

/// The angle of the male's surface with the axis.
fn half_angle_deg(view: &JointView<'_>, spot: &SurfacePoint) -> f64 {
    let part = &view.pen.pen.parts[spot.part];
    let Some(profiles) = &part.profiles else {
        return 90.0;
    };
    let on = |segment: &&quillet_geometry::Segment| {
        let curve = &segment.curve;
        curve.spans(spot.station_mm)
            && (curve.radius_at(spot.station_mm) - spot.radius_mm).abs() < 1e-4
    };
    let here = profiles.crest.outer.segments().iter().filter(on);
    let slopes = here.map(|segment| {
        let curve = &segment.curve;
        curve
            .slope(curve.param_at_z(spot.station_mm))
            .abs()
            .atan()
            .to_degrees()
    });
    // At a corner the gentler side carries the cap.
    slopes.fold(90.0, f64::min)
}

/// Where the cap meets the tail, and why that does not hold.
fn would_not_hold(pen: &Pen, touch: &Touch, dia: Length, flaws: &[SizedText]) -> SizedText {
    let (mut tail, dia) = (spots::words(pen, &touch.male), words::dia(dia));
    if !tail.contains(&*dia) {
        tail = text!("{} ({})", tail, dia);
    }
    text!(
        "the cap would not hold where {} meets {}: {}",
        spots::words(pen, &touch.female),
        tail,
        words::list(flaws)
    )
}
