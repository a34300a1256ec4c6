//! `poor-fit`: a plain joint, or a pocket, whose drawn sizes do not give the fit that is wanted.

mod pair;
mod pocket;

use crate::{Findings, JointView, Rule, Run, Threshold, words};
use pair::Pair;
use quillet_geometry::{Length, Limits};
use quillet_model::{FitRequest, HeldBy};
use quillet_standards::fit::{Fit, drilled_hole};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Size, SizedText, text};

pub(crate) static RULE: Rule = Rule {
    code: "poor-fit",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("poor-fit.md"),
    run: Run::PartAndJoint(pocket::run, run),
};

/// Common practice, no published source.
const SLACK: Length = Length::from_nm(20_000);
const LOOSEST: Length = Length::from_nm(300_000);
/// A finer hole than this is not drilled: grades from H11 are.
const COARSEST_REAMED: u8 = 10;

fn run(view: &JointView<'_>, findings: &mut Findings) {
    snap(view).into_iter().for_each(|it| findings.push(it));
    let held = view.at_rest().map_or(&[][..], |rest| &rest.verdict.held_by);
    let gripped = held.iter().any(|it| matches!(it, HeldBy::Grips { .. }));
    if !matches!(view.joint.verb, Verb::Slip | Verb::Press | Verb::Glue) || gripped {
        return;
    }
    let Some(pair) = Pair::of(view) else {
        return;
    };
    let drawn = pair.clearance();
    let Some(wanted) = Wanted::of(view, &pair) else {
        return;
    };
    // Glue that fills no gap holds nothing: told as that.
    let unfilled = view.joint.verb == Verb::Glue
        && view.joint.asks.is_none()
        && drawn > LOOSEST
        && view
            .at_rest()
            .is_some_and(|rest| rest.verdict.is_sure() && rest.verdict.held_by.is_empty());
    if unfilled {
        return;
    }
    let fits = wanted.clearance.contains(drawn) || (wanted.nominal && drawn.is_zero());
    if !fits {
        findings.push(disagreeing(view, &pair, drawn, &wanted));
    } else if let Some((fit, grade)) = wanted.fit.filter(|(_, grade)| *grade <= COARSEST_REAMED)
        && pair.drilled
    {
        findings.push(not_by_drill(view, &pair, fit, grade));
    }
}

/// A snap that is drawn otherwise than it asks.
fn snap(view: &JointView<'_>) -> Option<Finding> {
    let (asked, span) = view.joint.snap?;
    let rest = view.at_rest().filter(|rest| !rest.redundant)?;
    let drawn = -rest.fit?.clearance;
    let message = text!(
        "a snap of {} is asked; the ridge is drawn with {}",
        asked,
        crate::held::room(-drawn)
    );
    ((drawn - asked).abs() > SLACK).then(|| {
        RULE.at(span, message).hint(
            "bring the ridge or the land to that overlap on diameter, or ask for what is drawn",
        )
    })
}

/// The clearances that will do.
struct Wanted {
    clearance: Limits,
    /// Both drawn to one size will do too: the fit says how each is made.
    nominal: bool,
    fit: Option<(Fit, u8)>,
    words: SizedText,
    /// What to aim for.
    best: Length,
}

impl Wanted {
    fn of(view: &JointView<'_>, pair: &Pair) -> Option<Wanted> {
        let slack = view.length_limit(&RULE, SLACK);
        let about = |best: Length, words: SizedText| Wanted {
            clearance: Limits::new(best - slack, best + slack),
            nominal: false,
            fit: None,
            words,
            best,
        };
        Some(
            match (
                view.joint.asks.as_ref().map(|(asked, _)| *asked),
                view.joint.verb,
            ) {
                (Some(FitRequest::Fit(fit)), _) => {
                    let limits = fit.at(pair.hole).ok()?;
                    Wanted {
                        clearance: limits.clearance,
                        nominal: true,
                        fit: Some((fit, fit.hole.grade())),
                        words: text!("{} asks for {}", fit, spread(limits.clearance)),
                        best: limits.clearance.middle(),
                    }
                }
                (Some(FitRequest::Clearance(size)), _) => {
                    about(size, text!("a clearance of {} is asked", size))
                }
                (Some(FitRequest::Interference(size)), _) => {
                    about(-size, text!("an interference of {} is asked", size))
                }
                (Some(FitRequest::Gap(size)), _) => {
                    about(size, text!("a gap of {} is asked", size))
                }
                (None, Verb::Press) => Wanted {
                    clearance: Limits::new(-pair.hole, Length::from_nm(-1)),
                    nominal: false,
                    fit: None,
                    words: "a press fit wants interference".into(),
                    best: Length::mm(-0.02),
                },
                (None, _) => Wanted {
                    clearance: Limits::new(SLACK, LOOSEST),
                    nominal: false,
                    fit: None,
                    words: text!(
                        "{} wants {}",
                        view.joint.verb.word(),
                        spread(Limits::new(SLACK, LOOSEST))
                    ),
                    best: Length::mm(0.05),
                },
            },
        )
    }
}

fn disagreeing(view: &JointView<'_>, pair: &Pair, drawn: Length, wanted: &Wanted) -> Finding {
    let is = match drawn.is_negative() {
        true => text!("{} of interference", -drawn),
        false => text!("{} of clearance", drawn),
    };
    let finding = RULE
        .at(
            view.joint.head,
            text!(
                "{} in {} leaves {}; {}",
                words::dia(pair.shaft),
                words::dia(pair.hole),
                is,
                wanted.words
            ),
        )
        .label(pair.shaft_span, text!("{} here", words::dia(pair.shaft)))
        .label(pair.hole_span, text!("{} here", words::dia(pair.hole)));
    let better = SizedText::from(Size::Near(pair.hole - wanted.best, 3));
    match pair.shaft_size {
        Some(size) => finding.hint(text!("turn the tenon to {}", better)).fix(
            text!("turn the tenon to {}", better),
            size,
            better,
        ),
        None => finding.hint(text!("⌀{} in this hole gives it", better)),
    }
}

fn not_by_drill(view: &JointView<'_>, pair: &Pair, fit: Fit, grade: u8) -> Finding {
    let over = drilled_hole(pair.hole).map(|hole| hole.over_size);
    let comes_out = over.map_or(SizedText::from("over size"), |over| {
        text!("at {}", over.to_string())
    });
    let letter = fit.hole.letter();
    RULE.at(
        view.joint.head,
        text!(
            "a drilled hole comes out {}; {}{} wants a reamer or a boring bar",
            comes_out,
            letter,
            grade
        ),
    )
    .label(pair.hole_span, "drilled here")
    .hint("ream or bore the hole, and write ream or bore for drill")
}

/// `0.005 to 0.029 mm of clearance`, `0.01 to 0.03 mm of interference`, or both.
fn spread(clearance: Limits) -> SizedText {
    let (low, high) = (clearance.min(), clearance.max());
    if !low.is_negative() {
        text!("{} to {} of clearance", Size::Near(low, 3), high)
    } else if !high.is_positive() {
        text!("{} to {} of interference", Size::Near(-high, 3), -low)
    } else {
        text!("from {} of interference to {} of clearance", -low, high)
    }
}
