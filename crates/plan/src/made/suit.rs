//! What goes into a hole that is made is asked by the hole as it came out.

use crate::output::inspection;
use crate::tasks::mate::gap;
use crate::tools::bench_tools::BenchTools;
use crate::tools::toolbox::turning_tool;
use crate::{Inspection, Measured, Note, Operation, TurnKind, Work};
use quillet_geometry::{Length, Limits};
use quillet_model::{
    AtRest, Bench, Clearance, ClearanceKind, Feature, FitRequest, Hand, Joint, Made, MadeSize,
    Origin, Part, PartId, Pen,
};
use quillet_standards::Source;
use quillet_syntax::ast::{ToleranceKind, Verb};
use std::sync::Arc;

/// What a hole that is made asks of a surface that goes into it.
#[derive(Debug)]
pub(crate) struct Suited {
    /// What makes the surface, in the part as it is drawn.
    pub(crate) origin: Origin,
    /// The diameter drawn, and the one that suits.
    drawn: Length,
    suits: Length,
    /// What the joint's class allows at the hole as it came out.
    class: Option<(Limits, Source)>,
    /// The part that has the hole, and the hole as it came out.
    pub(crate) mate: Arc<str>,
    pub(crate) hole: Length,
}

/// What the holes that are made ask of a part's surfaces: the joint's class at the hole's measure, or the
/// clearance that is drawn.
pub(crate) fn suited(drawn: &Pen, made: &Pen, what: &Made, part: PartId) -> Vec<Suited> {
    let mut found: Vec<Suited> = Vec::new();
    for (joint, rest) in drawn.joints.iter().zip(&drawn.assembly.joints) {
        if joint.male.part != part || matches!(joint.verb, Verb::Post | Verb::Rest) {
            continue;
        }
        for (nth, at) in across(joint, rest).enumerate() {
            let known = found.iter().any(|it| it.origin == at.male.origin);
            let hole = hole(made, what, joint.female.part, at.female.origin);
            let Some(hole) = hole.filter(|_| !known) else {
                continue;
            };
            let (male, female) = (dia(at.male.radius_mm), dia(at.female.radius_mm));
            let fit = match joint.asks {
                // A class is of the two that pass one another most closely.
                Some((FitRequest::Fit(fit), _)) if nth == 0 => fit.at(hole).ok(),
                _ => None,
            };
            let suits = match gap(joint) {
                Some(gap) => hole - gap,
                None => male + (hole - female),
            };
            found.push(Suited {
                origin: at.male.origin,
                drawn: male,
                suits: fit.as_ref().map_or(suits, |it| it.shaft.limits.middle()),
                class: fit.map(|it| (it.shaft.limits, it.shaft.source)),
                mate: drawn.parts[joint.female.part].name.text.clone(),
                hole,
            });
        }
    }
    found
}

/// Where a joint's own two parts pass one another, the closest first.
fn across<'a>(joint: &'a Joint, rest: &'a AtRest) -> impl Iterator<Item = &'a Clearance> {
    rest.clearances.iter().filter(|it| {
        it.kind == ClearanceKind::RadialClearance
            && (it.male.part, it.female.part) == (joint.male.part, joint.female.part)
    })
}

/// A hole's measured diameter; none of one that is not made.
fn hole(made: &Pen, what: &Made, part: PartId, origin: Origin) -> Option<Length> {
    let id = origin.feature()?;
    let mut own = what.statements.iter().filter(|it| it.part == part);
    let cut = own.find_map(|it| match it.what {
        MadeSize::Cut { drawn, made } if drawn == id => Some(made),
        _ => None,
    })?;
    let cut: &Feature = made.parts.get(part)?.features.get(cut)?;
    cut.dia()
        .filter(|_| cut.is_inside() && cut.size_span != cut.span)
}

/// Asks of an operation what the holes as made do.
pub(super) fn ask(operation: &mut Operation, part: &Part, suits: &[Suited], bench: Option<&Bench>) {
    match operation.work {
        Work::Turn(_) => turn(operation, part, suits, bench),
        Work::Outside(_) | Work::Polish { .. } => shape(operation, suits, bench),
        _ => {}
    }
}

/// A tenon; a thread's land has the limits of its thread.
fn turn(operation: &mut Operation, part: &Part, suits: &[Suited], bench: Option<&Bench>) {
    let first = operation.features.first();
    let suit = suits
        .iter()
        .find(|it| it.origin.feature().as_ref() == first);
    let Some(it) = suit.filter(|it| it.suits != it.drawn) else {
        return;
    };
    let Work::Turn(cut) = &mut operation.work else {
        return;
    };
    // A relief or a groove only has to pass.
    if cut.kind != TurnKind::Tenon || cut.dia != it.drawn {
        return;
    }
    if part.land(cut.end, cut.from, cut.to).is_some() {
        return;
    }
    cut.dia = it.suits;
    let tools = BenchTools { bench };
    operation.tool = Some(turning_tool(cut, None, tools, &mut Vec::new()));
    for check in &mut operation.checks {
        if matches!(check.what, Measured::Outside { .. }) {
            *check = it.asked(check.what, bench);
        }
    }
    operation.notes.push(it.note());
}

/// The shaped outside, where it is what goes in.
fn shape(operation: &mut Operation, suits: &[Suited], bench: Option<&Bench>) {
    let outside = |it: &&Suited| matches!(it.origin, Origin::Outside(_));
    for it in suits.iter().filter(outside) {
        let by_hole = |note: &Note| matches!(note, Note::ToTheHole { .. });
        if let Some(at) = operation.notes.iter().position(by_hole) {
            // What it is turned to is known now.
            operation.notes.remove(at);
            let what = Measured::Outside {
                end: quillet_model::End::First,
                at: Length::ZERO,
            };
            operation.checks.push(it.asked(what, bench));
            operation.notes.push(it.note());
            return;
        }
        let own = |check: &&mut Inspection| {
            matches!(check.what, Measured::Outside { .. }) && check.nominal == it.drawn
        };
        for check in operation.checks.iter_mut().filter(own) {
            *check = it.asked(check.what, bench);
        }
    }
}

impl Suited {
    /// Between what the surface is to come out, as a hand keeps it.
    pub(crate) fn limits(&self, hand: &Hand) -> Limits {
        match self.class {
            Some((limits, _)) => limits,
            None => inspection::kept_limits(hand, ToleranceKind::Dia, self.suits),
        }
    }

    fn asked(&self, what: Measured, bench: Option<&Bench>) -> Inspection {
        let kept = ToleranceKind::Dia;
        let general = inspection::general(&Hand::at(bench), kept, what, self.suits);
        match self.class {
            Some((limits, source)) => Inspection {
                limits,
                source,
                ..general
            },
            None => general,
        }
    }

    fn note(&self) -> Note {
        Note::ToSuit {
            mate: self.mate.clone(),
            hole: self.hole,
            drawn: self.drawn,
        }
    }
}

fn dia(radius_mm: f64) -> Length {
    Length::mm(radius_mm).twice()
}
