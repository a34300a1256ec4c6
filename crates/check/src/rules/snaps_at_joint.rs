//! `snaps-at-joint`: a threaded tenon too slender for the bending it will see.

use crate::propose::{self, Proposal};
use crate::{Findings, PartView, Rule, Run, Threshold, Wall, words};
use quillet_geometry::Length;
use quillet_model::{Cut, End};
use quillet_syntax::ast::Side;
use quillet_syntax::{Severity, text};
use std::f64::consts::PI;

pub(crate) static RULE: Rule = Rule {
    code: "snaps-at-joint",
    severity: Severity::Warning,
    limit: Some(Threshold::Number),
    page: include_str!("snaps-at-joint.md"),
    run: Run::Part(run),
};

/// A hard lean on the pen, at the joint; common practice, no published source.
pub(super) const MOMENT_N_MM: f64 = 500.0;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    for end in [End::First, End::Second] {
        let bent = view
            .walls()
            .iter()
            .filter_map(|wall| Bent::of(view, wall, end));
        let Some(worst) = bent.max_by(|a, b| a.stress_mpa.total_cmp(&b.stress_mpa)) else {
            continue;
        };
        let Bent { wall, stress_mpa } = worst;
        // Bending is greatest at the outside of the wall.
        let Some(material) = wall.materials(part).last().copied() else {
            continue;
        };
        let Some((bears, _)) = material.kind.bending_mpa() else {
            continue;
        };
        let bears = view.number_limit(&RULE, bears);
        if stress_mpa <= bears {
            continue;
        }
        let [bends, borne] = words::told_apart(stress_mpa, bears, 0);
        let finding = RULE
            .at(
                wall.outer_span(part),
                text!(
                    "{} over {} would bend at {} MPa under {} N·mm; {} bears {} MPa",
                    wall.outer_words(part),
                    wall.inner_words(part),
                    bends,
                    format!("{:.0}", MOMENT_N_MM),
                    material.name,
                    borne
                ),
            )
            .label(wall.inner_span(part), "the hole in it")
            .hint("make the hole smaller under it, or the thread larger");
        let finding = propose::with(finding, cures(view, wall, bears));
        findings.push_at(finding, wall.from, wall.to);
    }
}

/// A smaller hole, d⁴ = D⁴ − 32·M·D/(π·σ), or the next larger thread.
fn cures(view: &PartView<'_>, wall: &Wall, bears_mpa: f64) -> Vec<Proposal> {
    let Some(outside) = Bent::outside(view, wall) else {
        return Vec::new();
    };
    let outer = outside.to_mm();
    let inner = (outer.powi(4) - 32.0 * MOMENT_N_MM * outer / (PI * bears_mpa))
        .max(0.0)
        .sqrt()
        .sqrt();
    let units = view.design.units_at(view.part.span);
    let hole = wall.inner.feature();
    let smaller = hole.and_then(|it| propose::narrower(view, it, units.down(Length::mm(inner))));
    let thread = propose::threaded(view, wall);
    let larger =
        thread.and_then(|it| propose::larger(view, it, it.thread.major() + Length::from_nm(1)));
    smaller.into_iter().chain(larger).collect()
}

/// A slender place and how it is bent.
struct Bent<'a> {
    wall: &'a Wall,
    stress_mpa: f64,
}

impl<'a> Bent<'a> {
    /// What is bent: the root of an outside thread, or its relief.
    fn outside(view: &PartView<'_>, wall: &Wall) -> Option<Length> {
        match &view.part.features.get(wall.outer.feature()?)?.cut {
            Cut::Thread {
                thread,
                side: Side::Outside,
            } => Some(thread.thread.root_diameter()),
            Cut::Relief { dia } => Some(*dia),
            _ => None,
        }
    }

    /// The root or relief of a thread over what is bored in it; none where nothing is left.
    fn of(view: &PartView<'_>, wall: &'a Wall, end: End) -> Option<Self> {
        let cut = view.part.features.get(wall.outer.feature()?)?;
        let (outer, inner) = (Self::outside(view, wall)?.to_mm(), wall.inner_dia.to_mm());
        // 32·M·D/(π(D⁴ − d⁴)), the bending of a tube: any handbook of strength of materials.
        let stress_mpa = 32.0 * MOMENT_N_MM * outer / (PI * (outer.powi(4) - inner.powi(4)));
        (cut.end == end && inner < outer).then_some(Bent { wall, stress_mpa })
    }
}
