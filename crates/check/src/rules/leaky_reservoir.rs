//! `leaky-reservoir`: a barrel full of ink whose joint does not hold it.

use crate::complete::complete;
use crate::{Findings, PenView, Rule, Run};
use quillet_model::{Joint, RingSeal};
use quillet_syntax::Severity;
use quillet_syntax::ast::Verb;

pub(crate) static RULE: Rule = Rule {
    code: "leaky-reservoir",
    severity: Severity::Warning,
    limit: None,
    page: include_str!("leaky-reservoir.md"),
    run: Run::Pen(run),
};

/// Thread that greased holds ink without a ring, mm; how far a ring may be squeezed and stretched,
/// and how much of its groove it may fill; common practice, no published source.
const THREAD_MM: f64 = 6.0;
const SQUEEZE: (f64, f64) = (0.15, 0.30);
const STRETCH: (f64, f64) = (0.01, 0.05);
const FILL: f64 = 0.85;

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let (pen, assembly) = (view.pen, &view.pen.assembly);
    let Some((holder, said)) = pen.fill else {
        return;
    };
    // Where a joint does not close, its ring is not where it will be.
    let closed = |part: usize| super::stops_early::open(view, part).next().is_none();
    for ring in assembly.rings.iter().filter(|ring| closed(ring.part)) {
        let groove = &pen.parts[ring.part].features[ring.feature];
        let mut flaws = ring.seal.map_or(Vec::new(), flaws);
        if ring.seal.is_none() {
            flaws.push(format!(
                "{} meets no bore when the pen is together",
                ring.ring.name.text
            ));
        }
        for flaw in flaws {
            findings.push(
                RULE.at(groove.span, flaw)
                    .label(ring.ring.name.span, "the ring")
                    .hint("change the groove's diameter or width, or take another ring"),
            );
        }
    }
    for view in view.joints() {
        let (index, joint) = (view.index, view.joint);
        let with = joint.female.part == holder || joint.male.part == holder;
        if !with || matches!(joint.verb, Verb::Close | Verb::Post | Verb::Glue) {
            continue;
        }
        let sealed = |seal: RingSeal| seal.joint == index && seal.squeeze > 0.0;
        if assembly
            .rings
            .iter()
            .filter_map(|ring| ring.seal)
            .any(sealed)
        {
            continue;
        }
        let rest = &assembly.joints[index];
        let threads = rest.engagements.first();
        let thread_mm = threads.map_or(0.0, |it| complete(&view, rest, it).overlap_mm);
        if thread_mm < THREAD_MM - 1e-9 {
            findings.push(leaks(joint, thread_mm, said));
        }
    }
}

fn leaks(joint: &Joint, thread_mm: f64, said: quillet_syntax::Span) -> quillet_syntax::Finding {
    RULE.at(
        joint.head,
        format!(
            "no O-ring and {:.1} mm of thread hold the ink here; {THREAD_MM:.0} mm wanted without a ring",
            thread_mm.max(0.0)
        ),
    )
    .label(said, "the ink stands behind it")
    .hint("cut a groove that takes an O-ring, or make the thread longer and grease it")
}

fn flaws(seal: RingSeal) -> Vec<String> {
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    let outside = |share: f64, range: (f64, f64)| share < range.0 - 1e-9 || share > range.1 + 1e-9;
    let mut flaws = Vec::new();
    if outside(seal.squeeze, SQUEEZE) {
        flaws.push(format!(
            "the ring is squeezed by {}; 15 to 30 % wanted",
            percent(seal.squeeze)
        ));
    }
    if outside(seal.stretch, STRETCH) {
        flaws.push(format!(
            "the ring is stretched by {}; 1 to 5 % wanted",
            percent(seal.stretch)
        ));
    }
    if seal.fill > FILL {
        flaws.push(format!(
            "the ring fills {} of its groove; 85 % at most, it needs room to swell",
            percent(seal.fill)
        ));
    }
    flaws
}
