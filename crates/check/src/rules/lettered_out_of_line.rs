//! `lettered-out-of-line`: clips, stops and patterns that are to line up, left to chance.

use super::faces::Faces;
use crate::{Findings, JointView, Rule, Run, Threshold};
use quillet_geometry::Angle;
use quillet_model::{Engagement, Part, PartId, Placement, TEN_DEGREES};
use quillet_standards::thread::Hand;
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Size, SizedText, Span, text};

pub(crate) static RULE: Rule = Rule {
    code: "lettered-out-of-line",
    severity: Severity::Note,
    limit: Some(Threshold::Angle),
    page: include_str!("lettered-out-of-line.md"),
    run: Run::Joint(run),
};

/// Marks nearer than this look in line; common practice, no published source.
const IN_LINE: Angle = Angle::from_nanodeg(5_000_000_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    if !matches!(view.joint.verb, Verb::Close | Verb::Screw) {
        return;
    }
    let Some(rest) = view.at_rest() else { return };
    let Some(threads) = rest.engagements.first() else {
        return;
    };
    let parts = |members: &[(PartId, Placement)]| -> Vec<&Part> {
        let parts = &view.pen.pen.parts;
        members.iter().map(|it| &*parts[it.0]).collect()
    };
    let (males, females) = (parts(&rest.males), parts(&rest.females));
    // A clip is turned where it is wanted before its finial is tightened: only the cap comes round
    // to where the thread lets it.
    let arms = match view.joint.verb {
        Verb::Close => arms(&males, &females),
        _ => None,
    };
    let marks = arms.or_else(|| pattern(view));
    // Where nothing stands on one line alone, flats may meet as often as there are.
    let faces = Faces::of(view, threads.form.starts()).filter(|_| marks.is_none());
    if let Some(apart) = threads.marks_apart {
        if let Some(finding) = out_by(view, threads, apart, faces.as_ref()) {
            findings.push(finding);
        }
    } else if let Some(marks) = marks {
        findings.push(out_of_line(view, threads, marks));
    } else if let Some(faces) = faces.filter(|it| it.furthest() > in_line(view)) {
        findings.push(faces_out_of_line(view, threads, &faces));
    }
}

/// How far apart two marks may be that look in line.
fn in_line(view: &JointView<'_>) -> Angle {
    let limit = view.limit(&RULE).and_then(|line| line.value.as_angle());
    limit.unwrap_or(IN_LINE)
}

/// Two things that are to line up: what the one is called, where it is said, what is said of it.
struct Marks<'a> {
    names: [&'a str; 2],
    spans: [Span; 2],
    message: [&'static str; 2],
}

/// Something that stands out on both sides.
fn arms<'a>(males: &[&'a Part], females: &[&'a Part]) -> Option<Marks<'a>> {
    let armed = |parts: &[&'a Part]| parts.iter().copied().find(|part| part.arm().is_some());
    let (one, other) = (armed(males)?, armed(females)?);
    Some(Marks {
        names: [&one.name.text, &other.name.text],
        spans: [one.name.span, other.name.span],
        message: ["stands out here", "and here"],
    })
}

/// The joint's own two parts from one blank whose pattern is to run on.
fn pattern<'a>(view: &JointView<'a>) -> Option<Marks<'a>> {
    let (male, female) = (view.male, view.female);
    let matched = |part: &'a Part| {
        part.blanks().iter().filter_map(|piece| {
            let named = piece.named.as_ref().filter(|it| it.matched.is_some())?;
            Some((&*named.name.text, piece.span))
        })
    };
    let (one, other) = matched(male)
        .find_map(|one| Some((one, matched(female).find(|other| other.0 == one.0)?)))?;
    Some(Marks {
        names: [&male.name.text, &female.name.text],
        spans: [one.1, other.1],
        message: ["its pattern is to run on", "from here"],
    })
}

fn out_of_line(view: &JointView<'_>, threads: &Engagement, marks: Marks<'_>) -> Finding {
    let [one, other] = marks.names;
    let message = text!(
        "{} and {} come to rest in {}, wherever the starts are cut",
        one,
        other,
        ways_round(threads)
    );
    left_to_chance(view, threads, message)
        .label(marks.spans[0], marks.message[0])
        .label(marks.spans[1], marks.message[1])
}

fn faces_out_of_line(view: &JointView<'_>, threads: &Engagement, faces: &Faces) -> Finding {
    let (starts, ways) = (threads.form.starts(), faces.ways());
    let message = text!(
        "the flats of {} and {} come to rest in {}, wherever the starts are cut",
        view.male.name.text,
        view.female.name.text,
        ways_round(threads)
    );
    let meet = match ways {
        _ if ways == starts => text!("cut in line once, these meet whichever start is caught"),
        1 => text!("cut in line once, these meet in one of {} ways", starts),
        _ => text!(
            "cut in line once, these meet in {} of {} ways",
            ways,
            starts
        ),
    };
    left_to_chance(view, threads, message)
        .label(faces.spans[0], meet)
        .label(faces.spans[1], "with these")
}

fn ways_round(threads: &Engagement) -> SizedText {
    match threads.clock_positions() {
        1 => "one way round".into(),
        ways => text!("one of {} ways round", ways),
    }
}

fn left_to_chance(view: &JointView<'_>, threads: &Engagement, message: SizedText) -> Finding {
    let ten = TEN_DEGREES;
    RULE.at(view.joint.head, message)
        .hint(text!("say where both threads begin (`clock`), or try it before the last facing: {} off the shoulder turns it {}", Size::Rounded(threads.shoulder_cut(ten), 3), ten))
}

/// Both threads say where they begin: whether the marks of the two parts meet, or their flats.
fn out_by(
    view: &JointView<'_>,
    threads: &Engagement,
    marks_apart: Angle,
    faces: Option<&Faces>,
) -> Option<Finding> {
    let (what, apart, spacing) = match faces {
        Some(faces) => {
            let (apart, spacing) = faces.apart(marks_apart);
            ("flats", apart, spacing)
        }
        None => ("marks", marks_apart, threads.form.start_spacing()),
    };
    // The other way round to the next place.
    let back = Angle::from_nanodeg(spacing.nanodeg() - apart.nanodeg());
    if apart.min(back) <= in_line(view) {
        return None;
    }
    // Cut shorter at its shoulder, the male goes on in the hand of its thread.
    let on = match threads.form.hand() {
        Hand::Right => back,
        Hand::Left => apart,
    };
    let (male, female) = (&view.male, &view.female);
    let message = text!(
        "the {} of {} and {} come to rest {}° apart",
        what,
        male.name.text,
        female.name.text,
        format!("{:.0}", apart.min(back).to_deg())
    );
    let (outside, inside) = (
        &male.features[threads.threads.male],
        &female.features[threads.threads.female],
    );
    let finding = RULE
        .at(view.joint.head, message)
        .label(outside.span, "where the one begins")
        .label(inside.span, "and the other")
        .hint(text!(
            "{} off the shoulder brings them in line, or begin one of them elsewhere",
            Size::Rounded(threads.shoulder_cut(on), 3)
        ));
    Some(finding)
}
