//! `joined-twice`: a joint between parts that other joints hold already.

use crate::{Findings, PenView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "joined-twice",
    severity: Severity::Error,
    limit: None,
    page: include_str!("joined-twice.md"),
    run: Run::Pen(run),
};

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    for (joint, rest) in pen.joints.iter().zip(&pen.assembly.joints) {
        // What holds a spring between two that others place is no joint of its own.
        if !rest.redundant || !rest.trapped.is_empty() {
            continue;
        }
        let pair = [joint.male.part, joint.female.part];
        let same = pen
            .joints
            .iter()
            .zip(&pen.assembly.joints)
            .find(|(other, rest)| {
                let ends = [other.male.part, other.female.part];
                !rest.redundant && (ends == pair || ends == [pair[1], pair[0]])
            });
        let names = pair.map(|part| pen.parts[part].name.text.to_string());
        let lies = words::against(Length::mm(rest.goes_in_mm), Length::ZERO);
        let finding = match same {
            Some((other, _)) => RULE
                .at(
                    joint.head,
                    text!("{} and {} are joined already", names[0], names[1]),
                )
                .label(other.head, "joined here"),
            None => RULE.at(
                joint.head,
                text!(
                    "{} and {} are held already through other parts, {} in; the joints form a loop",
                    names[0],
                    names[1],
                    lies
                ),
            ),
        };
        findings.push(
            finding.hint(
                "take one of the joints out; if the two are to touch there, say so with seat",
            ),
        );
    }
}
