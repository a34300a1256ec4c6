//! `rolls-away`: a round pen with nothing to stop it.

use crate::shape::deepest_mm;
use crate::{Findings, PenView, Rule, Run, Threshold};
use quillet_geometry::{Length, Tag};
use quillet_model::{Part, PartId, Pen};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, text};

pub(crate) static RULE: Rule = Rule {
    code: "rolls-away",
    severity: Severity::Note,
    limit: Some(Threshold::Length),
    page: include_str!("rolls-away.md"),
    run: Run::Pen(run),
};

/// A flat as deep as this stops a pen, where the pen is within so much of its fattest; common
/// practice, no published source.
const DEEP: Length = Length::from_nm(300_000);
const NEAR: Length = Length::from_nm(500_000);

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let cap = pen.joints.iter().find(|joint| joint.verb == Verb::Close);
    let Some(cap) = cap else { return };
    let deep = view.limit(&RULE).and_then(|line| line.value.as_length());
    let deep = deep.unwrap_or(DEEP);
    if pen.parts.iter().any(|part| part.arm().is_some()) || lies_on_a_flat(pen, deep) {
        return;
    }
    findings.push(
        RULE.at(
            cap.head,
            text!(
                "{} has neither clip nor roll stop; on a desk it rolls",
                pen.name.text
            ),
        )
        .hint(text!(
            "add a clip or a stop (a bought part with an arm), or a flat {} deep where it is fattest; or accept it",
            deep
        )),
    );
}

/// Whether a part has a flat so deep where the pen is all but at its fattest.
fn lies_on_a_flat(pen: &Pen, deep: Length) -> bool {
    let carried = |id: PartId| {
        let capped = pen.assembly.capped.as_ref();
        capped.is_none_or(|it| it.holds(id))
    };
    let parts = || pen.parts.with_ids().filter(|(id, _)| carried(*id));
    let fattest = |part: &Part| {
        let turned = part.profiles.as_ref()?.turned();
        Some(turned.fattest(0.0, part.length.to_mm())?.0.r)
    };
    let fattest = parts().filter_map(|(_, part)| fattest(part));
    let near = fattest.fold(0.0, f64::max) - NEAR.half().to_mm();
    parts().any(|(_, part)| deepest_flat(part, near) >= deep)
}

/// The deepest flat of a part where it is turned to at least a radius.
fn deepest_flat(part: &Part, least_mm: f64) -> Length {
    let Some(profiles) = &part.profiles else {
        return Length::ZERO;
    };
    let turned = profiles.turned();
    let sets = profiles.not_round.flats.iter();
    let floors = sets.flat_map(|(_, set)| set.low(turned, Tag::default()));
    let deep = floors
        .flat_map(|floor| floor.segments().to_vec())
        .map(|piece| {
            let ends = (piece.curve.start().z, piece.curve.end().z);
            deepest_mm(turned, &piece, ends, &|_, r| r >= least_mm)
        });
    Length::mm(deep.fold(0.0, f64::max))
}
