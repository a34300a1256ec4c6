//! `leaky-reservoir`: a barrel full of ink whose joint does not hold it.

use crate::full_form::complete;
use crate::{Findings, PenView, Rule, Run, words};
use quillet_geometry::Length;
use quillet_model::{
    Cut, End, Feature, Joint, Part, PartId, Ring, RingSeal, SideCut, SideCutKind, SideDepth,
};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity, Size, SizedText, Span, text};

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
    if let Some(fill) = view.pen.fill {
        sides(view, fill, findings);
        ends(view, fill.1, findings);
        rings(view, findings);
        joints(view, fill, findings);
    }
}

/// Cuts from the side that open what holds the ink.
fn sides(view: &PenView<'_>, (holder, written): (PartId, Span), findings: &mut Findings) {
    let pen = view.pen;
    for cut in pen.parts[holder].sides().iter().filter(|it| opens(it)) {
        let message = text!(
            "the {} opens {}, which holds the ink",
            cut.called(),
            pen.parts[holder].name.text
        );
        let finding = RULE.at(cut.span, message).label(written, "said to hold it");
        let finding = Finding {
            severity: Severity::Error,
            ..finding
        };
        findings.push(finding.hint("leave it out, or give it a depth that leaves a wall"));
    }
}

/// Ends that the ink reaches and nothing closes.
fn ends(view: &PenView<'_>, written: Span, findings: &mut Findings) {
    let closed = |part: PartId| view.open_joints(part).next().is_none();
    let runs_out = view.pen.assembly.ink.iter().flat_map(|ink| &ink.runs_out);
    for (part, end) in runs_out.filter(|it| closed(it.0)) {
        findings.push(stands_open(&view.pen.parts[*part], *end, written));
    }
}

/// Rings that seal nothing.
fn rings(view: &PenView<'_>, findings: &mut Findings) {
    let (pen, assembly) = (view.pen, &view.pen.assembly);
    // Where a joint does not close, its ring is not where it will be.
    let closed = |part: PartId| view.open_joints(part).next().is_none();
    for ring in assembly.rings.iter().filter(|ring| closed(ring.part)) {
        let groove = &pen.parts[ring.part].features[ring.feature];
        let name = &ring.ring.name;
        let (message, hint) = match ring.seal {
            None => (
                text!("{} meets no bore when the pen is together", name.text),
                "move the groove to where a bore lies over it".into(),
            ),
            Some(seal) => match flaws(seal).as_slice() {
                [] => continue,
                flaws => (
                    text!("{} is {}", name.text, words::list(flaws)),
                    cure(seal, groove, ring.ring.ring()),
                ),
            },
        };
        let finding = RULE.at(groove.span, message);
        findings.push(finding.label(name.span, "the ring").hint(hint));
    }
}

/// Joints of what holds the ink that nothing seals.
fn joints(view: &PenView<'_>, (holder, written): (PartId, Span), findings: &mut Findings) {
    let assembly = &view.pen.assembly;
    for view in view.joints() {
        let (index, joint) = (view.id, view.joint);
        let with = joint.female.part == holder || joint.male.part == holder;
        if !with || !joint.verb.lasts() || joint.verb == Verb::Glue {
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
        // Threads that do not match are told of already.
        if joint.verb == Verb::Screw && threads.is_none() {
            continue;
        }
        let thread_mm = threads.map_or(0.0, |it| complete(&view, rest, it).overlap_mm);
        if thread_mm < THREAD_MM - 1e-9 {
            findings.push(leaks(joint, thread_mm, written));
        }
    }
}

/// Ink runs out where nothing closes a bore that it stands in.
fn stands_open(part: &Part, end: End, written: Span) -> Finding {
    let message = text!(
        "{}.{} stands open, and the ink reaches it",
        part.name.text,
        part.end_name(end)
    );
    let named = part.ends.as_ref().map(|ends| ends[end.index()].span);
    let finding = RULE.at(named.unwrap_or(part.name.span), message);
    let finding = Finding {
        severity: Severity::Error,
        ..finding
    };
    finding
        .label(written, "said to hold it")
        .hint("close it with a part that stays in it, or leave solid before it")
}

/// Whether a cut from the side goes into the room inside.
fn opens(cut: &SideCut) -> bool {
    match cut.kind {
        SideCutKind::Drill { depth, .. } | SideCutKind::Slot { depth, .. } => {
            !matches!(depth, SideDepth::To { .. })
        }
        _ => false,
    }
}

fn leaks(joint: &Joint, thread_mm: f64, written: Span) -> Finding {
    RULE.at(
        joint.head,
        text!(
            "no O-ring and {} of thread hold the ink here; {} wanted without a ring",
            Size::Rounded(Length::mm(thread_mm.max(0.0)), 1),
            Size::Rounded(Length::mm(THREAD_MM), 0)
        ),
    )
    .label(written, "the ink stands behind it")
    .hint("cut a groove that takes an O-ring, or make the thread longer and grease it")
}

/// What is wrong with how a ring sits; each goes on from "the ring is".
fn flaws(seal: RingSeal) -> Vec<SizedText> {
    let percent = |share: f64, (least, most): (f64, f64)| {
        let missed = if share < least { least } else { most };
        let [told, _] = words::told_apart(share * 100.0, missed * 100.0, 0);
        text!("{} %", told)
    };
    let outside = |share: f64, range: (f64, f64)| share < range.0 - 1e-9 || share > range.1 + 1e-9;
    let mut flaws = Vec::new();
    if seal.squeeze <= 0.0 {
        flaws.push("not squeezed at all (15 to 30 % wanted)".into());
    } else if outside(seal.squeeze, SQUEEZE) {
        flaws.push(text!(
            "squeezed by {} (15 to 30 % wanted)",
            percent(seal.squeeze, SQUEEZE)
        ));
    }
    if seal.stretch <= 0.0 {
        flaws.push("loose in its groove (1 to 5 % of stretch wanted)".into());
    } else if outside(seal.stretch, STRETCH) {
        flaws.push(text!(
            "stretched by {} (1 to 5 % wanted)",
            percent(seal.stretch, STRETCH)
        ));
    }
    if seal.fill > FILL {
        flaws.push(text!(
            "filling {} of its groove (85 % at most, to have room to swell)",
            percent(seal.fill, (0.0, FILL))
        ));
    }
    flaws
}

/// What the cure aims at: amid what is wanted.
const AIM: (f64, f64, f64) = (0.22, 0.03, 0.8);

/// The groove, and where that is not enough the ring, that would do.
fn cure(seal: RingSeal, groove: &Feature, ring: Option<&Ring>) -> SizedText {
    let (Some(own), Some(ring)) = (groove.dia(), ring) else {
        return "change the groove's diameter or width, or take another ring".into();
    };
    let cord = seal.room_mm / (1.0 - seal.squeeze);
    let room = cord * (1.0 - AIM.0);
    let section = seal.fill * (groove.to - groove.from).to_mm() * seal.room_mm;
    let width = (section / (AIM.2 * room) * 10.0).ceil() / 10.0;
    let outside = matches!(groove.cut, Cut::Groove { .. });
    let way = if outside { 2.0 } else { -2.0 };
    let dia = own.to_mm() + way * (seal.room_mm - room);
    let (inside, over) = (ring.inside.to_mm(), 2.0 * ring.cord.to_mm());
    let (stretch, better) = match outside {
        true => (dia / inside - 1.0, dia / (1.0 + AIM.1)),
        false => (1.0 - dia / (inside + over), dia / (1.0 - AIM.1) - over),
    };
    if dia <= 0.0 || better <= 0.0 {
        return "take a thinner ring, or bring the groove and the bore over it nearer".into();
    }
    let groove = text!(
        "{} and {} wide",
        Size::Diameter(Length::mm(dia)),
        Size::Rounded(Length::mm(width), 1)
    );
    match (STRETCH.0..=STRETCH.1).contains(&stretch) {
        true => text!("cut it {}", groove),
        false => text!(
            "cut it {}, for a ring of {} inside",
            groove,
            Size::Rounded(Length::mm(better), 1)
        ),
    }
}
