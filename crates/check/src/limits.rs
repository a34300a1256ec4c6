//! Whether every `limit` names a rule with a threshold, in the threshold's own unit.

use crate::{Findings, RULES, Threshold, rule};
use quillet_model::{Design, LimitLine};
use quillet_syntax::{Finding, Severity, ast, nearest, text};
use std::collections::BTreeMap;

/// Looks at every `limit` of a design once.
pub(crate) fn check(design: &Design, findings: &mut Findings) {
    let of_parts = design.parts.iter().flat_map(|part| &part.limits.0);
    let of_benches = design.benches.iter().flat_map(|bench| &bench.limits.0);
    let of_pens = design.pens.iter().flat_map(|pen| {
        let of_joints = pen.joints.iter().flat_map(|joint| &joint.limits.0);
        pen.limits.0.iter().chain(of_joints)
    });
    let lines: BTreeMap<_, _> = of_parts
        .chain(of_benches)
        .chain(of_pens)
        .chain(&design.limits.0)
        .map(|line| (line.span, line))
        .collect();
    lines
        .values()
        .filter_map(|line| flaw(line))
        .for_each(|finding| findings.push(finding));
}

fn flaw(line: &LimitLine) -> Option<Finding> {
    let Some(rule) = rule(&line.rule.text) else {
        return Some(unknown_rule(&line.rule));
    };
    let Some(threshold) = rule.limit else {
        let finding = Finding::new(
            "unknown-name",
            Severity::Error,
            line.rule.span,
            text!("{} has no threshold that could be set", rule.code),
        );
        return Some(finding.hint(text!(
            "`quillet explain {}` says what it goes by",
            rule.code
        )));
    };
    let (fits, wanted) = match threshold {
        Threshold::Length => (line.value.as_length().is_some(), "a length"),
        Threshold::Angle => (line.value.as_angle().is_some(), "an angle"),
        Threshold::Number => (line.value.as_number().is_some(), "a number"),
    };
    (!fits).then(|| {
        Finding::new(
            "unit-mismatch",
            Severity::Error,
            line.span,
            text!(
                "{} is {}; the threshold of {} is {}",
                line.value.to_string(),
                line.value.dimension.called(),
                rule.code,
                wanted
            ),
        )
    })
}

/// Says that no rule goes by a name.
pub(crate) fn unknown_rule(name: &ast::Name) -> Finding {
    let finding = Finding::new(
        "unknown-name",
        Severity::Error,
        name.span,
        text!("no rule is called {}", name.text),
    );
    match nearest(&name.text, RULES.iter().map(|rule| rule.code)) {
        Some(near) => finding
            .hint(text!("did you mean {}?", near))
            .fix(text!("write {}", near), name.span, near)
            .mending(),
        None => finding.hint("`quillet explain` lists the rules"),
    }
}
