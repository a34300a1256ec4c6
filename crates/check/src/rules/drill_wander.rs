//! `drill-wander`: a deep hole that may wander through its wall.

use crate::{Findings, PartView, Rule, Run, Threshold, Wall, words};
use quillet_geometry::Length;
use quillet_model::{Cut, Origin};
use quillet_syntax::Severity;

pub(crate) static RULE: Rule = Rule {
    code: "drill-wander",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("drill-wander.md"),
    run: Run::Part(run),
};

/// Common practice, no published source, as is the rest here.
const USUAL: Length = Length::from_nm(600_000);
const WANDER: f64 = 0.003;
const DEEP: f64 = 5.0;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let part = view.part;
    if part.bought {
        return;
    }
    let wanted = view.length_limit(&RULE, USUAL);
    for (index, drilled) in part.features.iter().enumerate() {
        let Cut::Drill { dia, .. } = &drilled.cut else { continue };
        if drilled.to.ratio(*dia) <= DEEP {
            continue;
        }
        let over = view.walls().iter().filter(|wall| wall.inner == Origin::Feature(index));
        let left = |wall: &Wall| {
            let depth = match drilled.end {
                quillet_model::End::First => wall.at,
                quillet_model::End::Second => part.length - wall.at,
            };
            (depth, wall.least - depth.scaled(WANDER))
        };
        let Some(wall) = over.min_by_key(|wall| left(wall).1) else { continue };
        let (depth, least) = left(wall);
        if wall.least < wanted || least >= wanted {
            continue;
        }
        let finding = RULE
            .at(
                drilled.span,
                format!(
                    "{:.2} mm of wall {:.0} mm deep, where the {} may have wandered by {:.2} mm, leaves {}; {wanted} wanted",
                    wall.least.to_mm(),
                    depth.to_mm(),
                    words::sized(drilled),
                    depth.scaled(WANDER).to_mm(),
                    words::against(least, wanted),
                ),
            )
            .label(wall.outer_span(part), "the outside over it")
            .hint("drill in steps with a stiff drill, turn the outside true to the hole, or leave more wall");
        findings.push_at(finding, wall.from, wall.to);
    }
}
