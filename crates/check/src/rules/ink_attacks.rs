//! `ink-attacks`: ink against a material that it stains, swells or corrodes.

use crate::{Findings, PenView, Rule, Run};
use quillet_model::{End, Part, PartId};
use quillet_syntax::{Severity, Span, text};

pub(crate) static RULE: Rule = Rule {
    code: "ink-attacks",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("ink-attacks.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let Some((holder, written)) = pen.fill else {
        return;
    };
    let mut wetted: Vec<(PartId, f64, f64)> = Vec::new();
    let whole = |part: PartId| (part, 0.0, pen.parts[part].length.to_mm());
    let (mut from, mut to) = (0.0, pen.parts[holder].length.to_mm());
    for (joint, rest) in pen.joints.iter().zip(&pen.assembly.joints) {
        if joint.female.part != holder || !joint.verb.lasts() {
            continue;
        }
        match joint.female.end {
            End::First => from = rest.goes_in_mm.max(from),
            End::Second => to = (to - rest.goes_in_mm).max(0.0),
        }
        wetted.push(whole(joint.male.part));
    }
    wetted.push((holder, from, to));
    for (part, from, to) in wetted {
        let part = &pen.parts[part];
        for (name, span) in attacked(part, from, to) {
            let message = text!(
                "ink would stand against the {} of {}, which it attacks",
                name,
                part.name.text
            );
            findings.push(
                RULE.at(span, message)
                    .label(written, "the ink stands here")
                    .hint("line it, seal it with epoxy, or use a converter"),
            );
        }
    }
}

/// The pieces of a part's blank between two stations that ink attacks.
fn attacked(part: &Part, from: f64, to: f64) -> Vec<(String, Span)> {
    let hollow = part
        .profiles
        .as_ref()
        .is_some_and(|it| !it.crest.inner.is_empty());
    let pieces = part.blanks().iter().filter(|_| hollow);
    pieces
        .filter(|it| it.from.to_mm() < to - 1e-6 && it.to.to_mm() > from + 1e-6)
        .filter(|it| it.stock.material.kind.ink_attacks())
        .map(|it| (it.stock.material.name.to_string(), it.span))
        .collect()
}
