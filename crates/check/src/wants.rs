//! Every want of a design, judged once: rules, lists and editors only read what is said here.

use crate::findings::{Findings, Subject};
use crate::measure::{self, Measured};
use crate::rules::want_unmet;
use crate::view::asked;
use quillet_model::{Design, Part, Pen, Want};
use quillet_syntax::{Span, ast};
use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// A want that was judged.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedWant {
    /// The whole statement.
    pub span: Span,
    /// What is measured, as it is written: `mass(uncapped)`.
    pub asked: String,
    /// The pen it is wanted of, or that has the part it is wanted of.
    pub pen: Option<Arc<str>>,
    /// The part, where it is a part's own.
    pub part: Option<Arc<str>>,
    /// What it comes to, and whether that will do.
    pub measured: Measured,
    /// Why the maker accepts that it will not.
    pub accepted: Option<ast::Text>,
}

impl JudgedWant {
    /// `met`, `not met, accepted: the owner likes it so`, `not known: converter says no mass`.
    pub fn verdict(&self) -> String {
        let verdict = self.measured.verdict.words();
        match (&self.accepted, self.measured.missing.as_slice()) {
            (Some(because), _) => format!("{verdict}, accepted: {}", because.text),
            (None, []) => verdict.to_owned(),
            (None, missing) => format!("{verdict}: {}", missing.join(", ")),
        }
    }
}

/// Judges every want: those of parts that are in no pen, then of each pen its own, its joints'
/// and its parts'; of one pen alone where it is given. What is to be told of one is raised with its number.
pub(crate) fn judge(
    design: &Design,
    pen: Option<&str>,
    findings: &mut Findings,
) -> Vec<JudgedWant> {
    let in_pens = design.pens.iter().flat_map(|pen| &pen.parts);
    let in_pens: BTreeSet<&str> = in_pens.map(|part| &*part.name.text).collect();
    let mut judge = Judge {
        design,
        known: BTreeMap::new(),
        wants: Vec::new(),
    };
    for part in &design.parts {
        if !in_pens.contains(&*part.name.text) {
            judge.part(None, part, findings);
        }
    }
    for pen in asked(design, pen) {
        let of_joints = pen.joints.iter().flat_map(|joint| &joint.wants);
        let doubts = OnceCell::new();
        for want in pen.wants.iter().chain(of_joints) {
            let about = Subject {
                pen: Some(pen.name.text.clone()),
                ..Subject::default()
            };
            judge.one(want, about, measure::of_pen(pen, want, &doubts), findings);
        }
        for part in &pen.parts {
            judge.part(Some(pen), part, findings);
        }
    }
    findings.about = Subject::default();
    judge.wants
}

struct Judge<'d> {
    design: &'d Design,
    /// Parts are measured once, however many pens see them alike; nothing goes by the order.
    known: BTreeMap<*const Part, Vec<Measured>>,
    wants: Vec<JudgedWant>,
}

impl Judge<'_> {
    fn part(&mut self, pen: Option<&Pen>, part: &Arc<Part>, findings: &mut Findings) {
        let measured = self.known.entry(Arc::as_ptr(part)).or_insert_with(|| {
            let each = part.wants.iter();
            each.map(|want| measure::of_part(part, want)).collect()
        });
        for (want, measured) in part.wants.iter().zip(measured.clone()) {
            let about = Subject {
                pen: pen.map(|pen| pen.name.text.clone()),
                part: Some(part.name.text.clone()),
                joint: None,
            };
            self.one(want, about, measured, findings);
        }
    }

    fn one(&mut self, want: &Want, about: Subject, measured: Measured, findings: &mut Findings) {
        let asked = self.design.text(want.measure.span).to_owned();
        if let Some(finding) = want_unmet::finding(want.span, &asked, &measured) {
            findings.about = about.clone();
            findings.push_want(finding, self.wants.len());
        }
        self.wants.push(JudgedWant {
            span: want.span,
            asked,
            pen: about.pen,
            part: about.part,
            measured,
            accepted: None,
        });
    }
}
