//! Whether what is said of a bought part can be so: what it weighs and holds, and where it balances.

use super::Resolver;
use super::clash::out_of_range;
use super::lines::Lines;
use crate::{Part, Solid};
use quillet_geometry::Length;
use quillet_syntax::ast::LineKind;
use quillet_syntax::{Finding, Span, text};

/// No material is heavier: osmium has 22.6 g/cm³ (from memory).
const DENSEST_G_CM3: f64 = 23.0;

impl Resolver<'_> {
    /// Tells what of a bought part's figures its own outline does not allow.
    pub(super) fn measured_soundly(&mut self, lines: &Lines<'_>, part: &Part) {
        let Some(bought) = part.bought() else { return };
        let outside = part.profiles.as_ref().map(|it| it.metal.outer.clone());
        let outside_mm3 = outside.map(|outer| {
            let solid = Solid {
                outer,
                inner: Vec::new(),
            };
            solid.properties().volume_mm3
        });
        let found = [
            bought
                .mass
                .and_then(|it| balance(it.span, it.at, part.length)),
            // A clip's arm lies beside its ring's outline and weighs with it.
            bought
                .mass
                .filter(|_| bought.arm.is_none())
                .zip(outside_mm3)
                .and_then(|(mass, mm3)| heavy(mass.span, mass.mass_g, mm3)),
            bought
                .holds_ml
                .zip(outside_mm3)
                .and_then(|(ml, mm3)| holds(held_at(lines)?, ml, mm3)),
        ];
        found.into_iter().flatten().for_each(|it| self.emit(it));
    }
}

fn held_at(lines: &Lines<'_>) -> Option<Span> {
    lines.single.iter().find_map(|line| match &line.kind {
        LineKind::Holds(sum) => Some(sum.span),
        _ => None,
    })
}

fn balance(span: Span, at: Option<Length>, length: Length) -> Option<Finding> {
    let at = at.filter(|at| *at > length)?;
    let message = text!("it balances at {}, and is only {} long", at, length);
    let hint = "measure from its first end, that which is named first";
    Some(out_of_range(span, message).hint(hint))
}

fn heavy(span: Span, mass_g: f64, outside_mm3: f64) -> Option<Finding> {
    let most_g = outside_mm3 / 1000.0 * DENSEST_G_CM3;
    (mass_g > most_g).then(|| {
        let message = text!(
            "{} in {} cm³ of outline is more than any metal weighs",
            grams(mass_g),
            format!("{:.2}", outside_mm3 / 1000.0)
        );
        out_of_range(span, message)
            .hint("weigh it again, or see whether a decimal point is missing")
    })
}

fn holds(span: Span, ml: f64, outside_mm3: f64) -> Option<Finding> {
    (ml * 1000.0 > outside_mm3).then(|| {
        let message = text!(
            "it holds {} ml and is itself only {} ml large",
            quillet_geometry::number(ml, 3),
            format!("{:.2}", outside_mm3 / 1000.0)
        );
        out_of_range(span, message).hint("see whether a decimal point is missing")
    })
}

fn grams(mass_g: f64) -> String {
    format!("{} g", quillet_geometry::number(mass_g, 3))
}
