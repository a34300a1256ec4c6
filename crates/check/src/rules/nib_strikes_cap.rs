//! `nib-strikes-cap`: too little room between the nib and the end of the cap.

use super::deeper;
use crate::{Findings, JointView, Rule, Run, Threshold, spots, words};
use quillet_geometry::Length;
use quillet_model::{Clearance, ClearanceKind, Closing, Spot};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity};

pub(crate) static RULE: Rule = Rule {
    code: "nib-strikes-cap",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("nib-strikes-cap.md"),
    run: Run::Joint(run),
};

/// What is to be left at worst; common practice, no published source.
const LEFT: Length = Length::from_nm(500_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest() else { return };
    if view.joint.verb != Verb::Close || rest.verdict.upset {
        return;
    }
    let pen = view.pen.pen;
    let Some(nib) = pen.assembly.nib else { return };
    if let Closing::Struck(touch) = &rest.verdict.closing {
        let short = rest.seat_gap_mm.unwrap_or(rest.short_mm);
        let message = format!(
            "{} strikes {}, {} before the cap is closed",
            spots::words(pen, &touch.male),
            spots::words(pen, &touch.female),
            words::against(Length::mm(short), Length::ZERO),
        );
        let finding = Finding {
            severity: Severity::Error,
            ..RULE.at(view.joint.head, message)
        };
        let ends = (&touch.male, &touch.female);
        findings.push(told(view, ends, short + NOMINAL_MM, finding));
        return;
    }
    let left = view.length_limit(&RULE, LEFT);
    let ahead = |it: &&Clearance| {
        it.kind == ClearanceKind::Ahead && [it.male.part, it.female.part].contains(&nib)
    };
    let Some(gap) = rest.clearances.iter().find(ahead) else {
        return;
    };
    let least = Length::mm(gap.least_mm);
    if least >= left {
        return;
    }
    let corner = rest
        .clearances
        .iter()
        .find(|it| it.kind == ClearanceKind::Corner);
    let corner = corner.map_or(String::new(), |it| match it.nominal_mm {
        past if past < 0.0 => format!(", {:.1} mm past the corner", -past),
        to => format!(", {to:.1} mm to the corner"),
    });
    let at_worst = match least.is_negative() {
        true => format!("they meet {:.1} mm early", -gap.least_mm),
        false => words::against(least, left),
    };
    let message = format!(
        "{:.1} mm is left between {} and {}{corner}; with the nib 1 mm further out and the \
         depth 0.5 mm short, {at_worst}; {left} wanted",
        gap.nominal_mm,
        spots::words(pen, &gap.male),
        spots::words(pen, &gap.female),
    );
    let severity = if least.is_negative() {
        Severity::Error
    } else {
        Severity::Warning
    };
    let finding = Finding {
        severity,
        ..RULE.at(view.joint.head, message)
    };
    let by = (left - least).to_mm();
    findings.push(told(view, (&gap.male, &gap.female), by, finding));
}

/// What is to be left as drawn: at worst 1.5 mm of it goes.
const NOMINAL_MM: f64 = 2.0;

fn told(view: &JointView<'_>, ends: (&Spot, &Spot), by_mm: f64, finding: Finding) -> Finding {
    let pen = view.pen.pen;
    let finding = finding
        .label(spots::span(pen, ends.1), "the end of the cap's bore")
        .label(spots::span(pen, ends.0), "what comes near it");
    match deeper::deeper(view, ends.1, by_mm).or_else(|| deeper::deeper(view, ends.0, by_mm)) {
        Some((title, edit)) => finding.hint(title.clone()).fix_all(title, vec![edit]),
        None => finding.hint("make the cap's bore deeper, or let the nib stand out less"),
    }
}
