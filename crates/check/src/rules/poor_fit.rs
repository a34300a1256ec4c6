//! `poor-fit`: a plain joint whose drawn sizes do not give the fit that is wanted.

use super::fitted::FitContact;
use crate::{Findings, JointView, Rule, Run, Threshold, spots, words};
use quillet_geometry::{Length, Limits};
use quillet_model::{Cut, End, Feature, FitRequest, HeldBy, Part, Station};
use quillet_standards::fit::{Fit, drilled_hole};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Size, SizedText, Span, text};

pub(crate) static RULE: Rule = Rule {
    code: "poor-fit",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("poor-fit.md"),
    run: Run::Joint(run),
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

/// The two surfaces that meet.
struct Pair {
    hole: Length,
    hole_span: Span,
    drilled: bool,
    shaft: Length,
    shaft_span: Span,
    /// Where the shaft's diameter stands, where an edit can change it.
    shaft_size: Option<Span>,
}

impl Pair {
    /// The two surfaces that lie closest when the joint is home, where both are cut as such.
    fn at_rest(view: &JointView<'_>) -> Option<Pair> {
        let fitted = FitContact::of(view)?;
        let hole = spots::feature(view.female, fitted.at.female.origin)?;
        let shaft = spots::feature(view.male, fitted.at.male.origin);
        let tenon =
            shaft.filter(|it| matches!(it.cut, Cut::Tenon { .. }) && !view.male.is_bought());
        Some(Pair {
            hole: fitted.hole,
            hole_span: hole.size_span,
            drilled: matches!(hole.cut, Cut::Drill { .. }),
            shaft: fitted.shaft,
            shaft_span: spots::span(view.pen.pen, &fitted.at.male),
            shaft_size: tenon.map(|it| it.size_span),
        })
    }

    /// What lies closest when the joint is home; where that is loose, or nothing lies in the other,
    /// the surfaces that were meant for each other: those nearest in size.
    fn of(view: &JointView<'_>) -> Option<Pair> {
        let at_rest = Pair::at_rest(view);
        let fits = |it: &Pair| it.clearance() <= LOOSEST;
        if at_rest.as_ref().is_some_and(fits) {
            return at_rest;
        }
        let pairs = at_rest.into_iter().chain(Pair::meant(view));
        pairs.min_by_key(|it| it.clearance().abs())
    }

    /// Of what would lie in the bores of the female end, and these, what is nearest in size.
    fn meant(view: &JointView<'_>) -> Option<Pair> {
        let (male, female) = (view.male, view.female);
        let holes = female
            .features
            .iter()
            .filter(|it| is_hole(it, view.joint.female.end));
        let pairs = holes.flat_map(|hole| {
            let deep = if hole.through { female.length } else { hole.to };
            let pair = move |shaft: Shaft| {
                Some(Pair {
                    hole: hole.dia()?,
                    hole_span: hole.size_span,
                    drilled: matches!(hole.cut, Cut::Drill { .. }),
                    shaft: shaft.dia,
                    shaft_span: shaft.span,
                    shaft_size: shaft.size,
                })
            };
            shafts(male, view.joint.male.end, deep)
                .into_iter()
                .filter_map(pair)
        });
        pairs.min_by_key(|it| it.clearance().abs())
    }

    fn clearance(&self) -> Length {
        self.hole - self.shaft
    }
}

struct Shaft {
    dia: Length,
    span: Span,
    size: Option<Span>,
}

/// What of a part may lie in a hole this deep: its tenons, else its outside over that length.
fn shafts(part: &Part, end: End, deep: Length) -> Vec<Shaft> {
    let tenons = part.features.iter().filter(|it| it.end == end);
    let tenons: Vec<Shaft> = tenons
        .filter_map(|it| match &it.cut {
            Cut::Tenon {
                dia,
                assumed_for: None,
            } => Some(Shaft {
                dia: *dia,
                span: it.span,
                size: (!part.is_bought()).then_some(it.size_span),
            }),
            _ => None,
        })
        .collect();
    if !tenons.is_empty() {
        return tenons;
    }
    let from_end = |it: &Station| (it.at - part.station(end, Length::ZERO)).abs();
    let near = part.stations.iter().filter(|it| from_end(it) < deep);
    let dias = near.flat_map(|it| [Some(it.dia), it.step].map(|dia| (it, dia)));
    dias.filter_map(|(it, dia)| {
        Some(Shaft {
            dia: dia?,
            span: it.span,
            size: None,
        })
    })
    .collect()
}

fn is_hole(feature: &Feature, end: End) -> bool {
    let plain = matches!(
        feature.cut,
        Cut::Drill {
            assumed_for: None,
            ..
        } | Cut::Bore { .. }
            | Cut::Ream { .. }
    );
    plain && (feature.end == end || feature.through)
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
