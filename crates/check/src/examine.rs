//! Runs every rule over a design and puts what was found in order.

mod report;

use crate::again::{Around, KnownParts};
use crate::findings::{RaisedFinding, Subject};
use crate::rules::follows;
use crate::view::{PartCache, asked};
use crate::{
    BenchView, DesignView, Findings, PartView, PenView, RULES, Run, accept, classes, limits, made,
    merge, propose, wants,
};
use quillet_model::{Bench, Design, Part, PartId};
use quillet_syntax::{Finding, RuleId, Span};
pub use report::CheckReport;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;
use std::sync::Arc;

/// Everything found in a design, the model's findings and those of all rules, in the order of
/// the text; findings that the maker accepts are left out.
pub fn check(design: &Design) -> Vec<Finding> {
    examine(design).findings
}

/// Runs every rule over a design.
pub fn examine(design: &Design) -> CheckReport {
    examine_until(design, &|| false).unwrap_or_default()
}

/// Runs every rule over a design; none where `called_off` said so between two parts.
pub fn examine_until(design: &Design, called_off: &dyn Fn() -> bool) -> Option<CheckReport> {
    within(design, &mut Looked::default(), called_off)
}

/// Runs every rule over a design of which nobody reads what is found: its places are all that counts, and
/// what takes long to say is not said.
pub(crate) fn examine_unseen(
    design: &Design,
    called_off: &dyn Fn() -> bool,
) -> Option<CheckReport> {
    let mut looked = Looked {
        unseen: true,
        ..Looked::default()
    };
    within(design, &mut looked, called_off)
}

/// What is found of each part of a design, for [`examine_again`].
pub fn examine_knowing(design: Design) -> KnownParts {
    let mut known = KnownParts::default();
    let mut looked = Looked {
        noting: Some(&mut known),
        ..Looked::default()
    };
    within(&design, &mut looked, &|| false);
    known.holding(design)
}

/// Runs every rule over a design of which some parts may be known already; of `pen` and of what is in
/// no pen alone, where one is given.
pub fn examine_again(design: &Design, known: &KnownParts, pen: Option<&str>) -> CheckReport {
    let mut looked = Looked {
        known: Some(known),
        pen,
        ..Looked::default()
    };
    within(design, &mut looked, &|| false).unwrap_or_default()
}

/// Runs the rules of joints and of pens, and judges what is wanted, over pens that are made: their parts by
/// themselves were judged as they were drawn, with what of each was to be spared.
pub fn examine_made(design: &Design) -> CheckReport {
    let mut findings = Findings::default();
    for pen in &design.pens {
        pen_whole(&PenView::new(design, pen), &mut findings);
    }
    judged(design, None, findings)
}

/// What is looked at of a design, and what is known of it.
#[derive(Default)]
struct Looked<'a> {
    seen: Seen,
    known: Option<&'a KnownParts>,
    noting: Option<&'a mut KnownParts>,
    pen: Option<&'a str>,
    unseen: bool,
}

fn within(
    design: &Design,
    looked: &mut Looked<'_>,
    called_off: &dyn Fn() -> bool,
) -> Option<CheckReport> {
    let mut findings = Findings::default();
    if design.is_merging() {
        return Some(CheckReport {
            findings: design.findings.clone(),
            ..CheckReport::default()
        });
    }
    for finding in &design.findings {
        let slipped = match finding.rule == RuleId::OUT_OF_RANGE {
            true => propose::slipped(design, finding),
            false => Vec::new(),
        };
        findings.push(propose::with(finding.clone(), slipped));
    }
    whole(design, &mut findings);
    benches(design, &mut findings);
    let pens_parts = design.pens.iter().flat_map(|pen| &pen.parts);
    let in_pens: BTreeSet<&str> = pens_parts.map(|part| &*part.name.text).collect();
    for part in &design.parts {
        if called_off() {
            return None;
        }
        if !in_pens.contains(&*part.name.text) {
            let view = PartView::new(design, None, part).shown(!looked.unseen);
            one_part(&view, &mut findings);
        }
    }
    let wanted = looked.pen;
    for pen in asked(design, wanted) {
        let pen = PenView::new(design, pen);
        for index in pen.pen.parts.ids() {
            if called_off() {
                return None;
            }
            pen_part(&pen, index, looked, &mut findings);
        }
        pen_whole(&pen, &mut findings);
    }
    (!called_off()).then(|| judged(design, wanted, findings))
}

/// What is found of a pen put together.
fn pen_whole(pen: &PenView<'_>, findings: &mut Findings) {
    findings.about = Subject {
        pen: Some(pen.pen.name.text.clone()),
        ..Subject::default()
    };
    one_pen(pen, findings);
    findings.about = Subject::default();
}

/// What was raised, with what is wanted judged, of one pen's alone where it is given, and what is accepted
/// put aside.
fn judged(design: &Design, pen: Option<&str>, mut findings: Findings) -> CheckReport {
    let mut wants = wants::judge(design, pen, &mut findings);
    let raised = made::told(design, findings.raised);
    let mut judged = accept::judge(design, raised);
    for (want, because) in std::mem::take(&mut judged.wants) {
        wants[want].accepted = Some(because);
    }
    CheckReport {
        wants,
        findings: merge::merge(design, follows::without(design, judged.open)),
        accepted: judged.accepted,
    }
}

fn whole(design: &Design, findings: &mut Findings) {
    limits::check(design, findings);
    classes::check(design, findings);
    for rule in RULES {
        if let Run::Design(run) = rule.run {
            run(&DesignView { design }, findings);
        }
    }
}

fn benches(design: &Design, findings: &mut Findings) {
    for bench in &design.benches {
        for rule in RULES {
            if let Run::Bench(run) = rule.run {
                run(&BenchView { design, bench }, findings);
            }
        }
    }
}

/// What is left of a part when a line of it cannot be read is a guess; that line is told of.
fn one_part(view: &PartView<'_>, findings: &mut Findings) {
    if view.part.is_bought() || !view.part.whole {
        return;
    }
    findings.about = Subject {
        pen: view.pen.map(|pen| pen.name.text.clone()),
        part: Some(view.part.name.text.clone()),
        joint: None,
    };
    for rule in RULES {
        if let Run::Part(run) | Run::PartAndJoint(run, _) | Run::PartAndPen(run, _) = rule.run {
            run(view, findings);
        }
    }
    findings.about = Subject::default();
}

/// What could not be read is told of already; what it would do in a pen is a guess.
fn one_pen(pen: &PenView<'_>, findings: &mut Findings) {
    let whole = pen.is_whole();
    for rule in RULES {
        match rule.run {
            Run::Pen(run) | Run::PartAndPen(_, run) if whole => run(pen, findings),
            Run::Joint(run) | Run::PartAndJoint(_, run) => {
                let joints = pen.joints();
                let read = joints.filter(|it| it.male.whole && it.female.whole);
                for joint in read {
                    findings.about.joint = Some(joint.id);
                    run(&joint, findings);
                }
                findings.about.joint = None;
            }
            _ => {}
        }
    }
}

/// Parts that were looked at, by the part, its bench and the joints it is in: several pens may see
/// and join one alike. The keys tell one from another, and nothing goes by their order.
type Seen = BTreeMap<(*const Part, Option<*const Bench>, Vec<Span>), PartFindings>;

/// What is worked out once.
#[derive(Default)]
struct PartFindings {
    worked: Rc<PartCache>,
    /// What was found, by thresholds that are not a pen's own.
    raised: Option<Vec<RaisedFinding>>,
}

fn pen_part(pen: &PenView<'_>, index: PartId, looked: &mut Looked<'_>, findings: &mut Findings) {
    let part = &pen.pen.parts[index];
    let view = PartView::new(pen.design, Some(pen.pen), part).shown(!looked.unseen);
    let joints = pen.pen.joints.iter();
    let joined = joints
        .filter(|it| [it.male.part, it.female.part].contains(&index))
        .map(|it| it.head)
        .collect();
    let key = (
        Arc::as_ptr(part),
        view.bench.map(std::ptr::from_ref),
        joined,
    );
    let once = looked.seen.entry(key).or_default();
    // A pen with limits of its own may judge the part otherwise.
    let alike = pen.pen.limits.0.is_empty();
    let around = || Around::of(pen.pen, index, view.bench);
    let known = || looked.known?.get(&around());
    let before = once.raised.as_deref().or_else(known);
    if let Some(before) = before.filter(|_| alike) {
        let about = Subject {
            pen: Some(pen.pen.name.text.clone()),
            part: Some(part.name.text.clone()),
            joint: None,
        };
        let again = before.iter().map(|raised| RaisedFinding {
            about: about.clone(),
            ..raised.clone()
        });
        findings.raised.extend(again);
        return;
    }
    let around = around();
    let from = findings.raised.len();
    if let Some(walls) = looked.known.and_then(|it| it.walls(part)) {
        once.worked.has_walls(walls);
    }
    one_part(&view.sharing(once.worked.clone()), findings);
    if let (Some(noting), Some(walls)) = (&mut looked.noting, once.worked.known_walls()) {
        noting.note_walls(part, walls);
    }
    if alike {
        let raised = &findings.raised[from..];
        once.raised = Some(raised.to_vec());
        if let Some(noting) = &mut looked.noting {
            noting.note(around, raised);
        }
    }
}
