//! How many pens of those that a hand makes pass, and what they come to.
//!
//! Each size is drawn by itself, the parts are cut anew, the pen is put together anew and judged by the rules of
//! joints and of pens, every size of it being what it is. The rules of a part by itself are left to what is
//! drawn: their thresholds hold what is to be spared of a drawn wall, and their tools are those of drawn sizes.

mod cause;
mod draw;
mod share;
mod tally;

pub use cause::{Cause, Way};
pub use share::Share;
pub use tally::{Failure, MeasureSpread, Spread};

use crate::probe::counts;
use draw::Draw;
use quillet_check::{CheckReport, examine_made, is_mended_in_fitting};
use quillet_model::{Design, Dimension, HandSize, HandSizes, Part, Pen};
use quillet_syntax::{Finding, RuleId, Severity, Span};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// So many cases are looked at, at most.
pub const MOST_CASES: u32 = 100_000;
/// So many are made where nothing else is said.
pub const USUAL_CASES: u32 = 2000;
/// What the draws begin from where nothing else is said.
pub const USUAL_SEED: u64 = 1;

/// A pen that is made again and again, by a hand.
#[derive(Debug)]
pub struct Hands<'d> {
    sizes: HandSizes<'d>,
    draws: Vec<Draw>,
    cases: u32,
    seed: u64,
    until: Severity,
    /// The pen by itself, made as it is drawn.
    base: Design,
    /// How often each thing is found of it as drawn, each size what it is.
    known: BTreeMap<FoundAt, usize>,
    /// What its wants measure.
    asked: Vec<Asked>,
    rings: Vec<Arc<Part>>,
}

/// A measure as it is wanted, and what it measures; none where that is not known.
type Asked = (String, Option<Dimension>);

/// What is found, and where in the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FoundAt {
    /// The rule.
    pub rule: RuleId,
    /// The place.
    pub span: Span,
}

/// One pen that a hand made.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// What is found of it that is not found of the pen as drawn, each once, with how grave it is.
    pub found: BTreeMap<FoundAt, Severity>,
    /// What each want's measure comes to, in its own unit.
    pub measured: Vec<Option<f64>>,
}

/// Where one thread of execution makes its pens.
#[derive(Debug)]
pub struct Workplace(Design);

impl<'d> Hands<'d> {
    /// Of a pen of a design, made so many times; findings below `until` fail none.
    ///
    /// # Errors
    ///
    /// A sentence, where there are too few cases or too many, or where what is drawn has errors of its own
    /// already, whatever the hand.
    pub fn of(
        design: &'d Design,
        pen: &'d Pen,
        (cases, seed): (u32, u64),
        until: Severity,
    ) -> Result<Self, String> {
        if !(1..=MOST_CASES).contains(&cases) {
            return Err(format!("{cases} cases; from 1 to {MOST_CASES} are made"));
        }
        let sizes = HandSizes::of(pen);
        let mut hands = Hands {
            draws: Vec::new(),
            cases,
            seed,
            until,
            base: alone(design, pen),
            known: BTreeMap::new(),
            asked: Vec::new(),
            rings: design
                .parts
                .iter()
                .filter(|it| it.ring().is_some())
                .cloned()
                .collect(),
            sizes,
        };
        let mut workplace = hands.workplace();
        let drawn = hands.made(&mut workplace, &vec![0.0; hands.sizes.all().len()]);
        refuse_errors(&drawn.findings)?;
        for it in hands.counting(&drawn) {
            *hands.known.entry(it.0).or_default() += 1;
        }
        let wants = drawn.wants.iter();
        hands.asked = wants
            .map(|it| (it.asked.clone(), it.measured.value.map(|it| it.dimension)))
            .collect();
        let all = hands.sizes.all().iter();
        hands.draws = all.map(|it| Draw::of(it, cases, seed)).collect();
        Ok(hands)
    }

    /// The sizes that come out otherwise than drawn.
    pub fn sizes(&self) -> &[HandSize] {
        self.sizes.all()
    }

    /// What is measured of each pen, as it is wanted.
    pub fn asked(&self) -> impl Iterator<Item = (&str, Option<Dimension>)> {
        self.asked.iter().map(|it| (it.0.as_str(), it.1))
    }

    /// The numbers of the cases.
    pub fn cases(&self) -> std::ops::Range<u32> {
        0..self.cases
    }

    /// Where pens are made, one after the other.
    pub fn workplace(&self) -> Workplace {
        Workplace(self.base.clone())
    }

    /// How far each size of a case is off, mm; of a diameter, half of it.
    pub fn off_mm(&self, case: u32) -> Vec<f64> {
        let draws = self.draws.iter();
        draws.map(|it| it.off_mm[case as usize]).collect()
    }

    /// The pen of a case.
    pub fn pen(&self, off_mm: &[f64]) -> Pen {
        let known = |name: &str| {
            let mut rings = self.rings.iter();
            rings.find(|it| *it.name.text == *name).cloned()
        };
        self.sizes.made(off_mm, &known)
    }

    /// One of the cases, made, put together and checked.
    pub fn case(&self, workplace: &mut Workplace, case: u32) -> Case {
        let examined = self.made(workplace, &self.off_mm(case));
        let mut counts: BTreeMap<FoundAt, usize> = BTreeMap::new();
        let mut found = BTreeMap::new();
        for (at, severity) in self.counting(&examined) {
            let count = counts.entry(at).or_default();
            *count += 1;
            if *count > self.known.get(&at).copied().unwrap_or(0) {
                let gravest = found.entry(at).or_insert(severity);
                *gravest = severity.max(*gravest);
            }
        }
        for part in workplace.0.pens.iter().flat_map(|it| it.parts.iter()) {
            if !part.shaped {
                let at = FoundAt {
                    rule: RuleId::new("broken-through"),
                    span: part.name.span,
                };
                found.insert(at, Severity::Error);
            }
        }
        let wants = examined.wants.iter();
        Case {
            found,
            measured: wants.map(|it| Some(it.measured.value?.to_f64())).collect(),
        }
    }

    /// What is found of the pen with its sizes so much off.
    fn made(&self, workplace: &mut Workplace, off_mm: &[f64]) -> CheckReport {
        let pen = self.pen(off_mm);
        let design = &mut workplace.0;
        let own = pen.parts.len().min(design.parts.len());
        design.parts.splice(..own, pen.parts.iter().cloned());
        design.pens = vec![pen];
        examine_made(design)
    }

    fn counting<'r>(
        &self,
        examined: &'r CheckReport,
    ) -> impl Iterator<Item = (FoundAt, Severity)> + use<'r> {
        let until = self.until;
        let findings = examined.findings.iter();
        let counting =
            findings.filter(move |it| counts(it, until) && !is_mended_in_fitting(it.rule));
        counting.map(|it| {
            let (rule, span) = (it.rule, it.span);
            (FoundAt { rule, span }, it.severity)
        })
    }
}

/// A design with one of its pens alone, and what is bought that no pen names: first the pen's own parts.
fn alone(design: &Design, pen: &Pen) -> Design {
    let own: BTreeSet<&str> = pen.parts.iter().map(|it| &*it.name.text).collect();
    let others = design.parts.iter();
    let others = others.filter(|it| it.is_bought() && !own.contains(&*it.name.text));
    Design {
        parts: pen.parts.iter().chain(others).cloned().collect(),
        pens: Vec::new(),
        ..design.clone()
    }
}

fn refuse_errors(findings: &[Finding]) -> Result<(), String> {
    let errors = findings.iter().filter(|it| it.severity == Severity::Error);
    let rules: BTreeSet<&str> = errors.map(|it| it.rule.code()).collect();
    match rules.is_empty() {
        true => Ok(()),
        false => Err(format!(
            "this pen has errors as it is drawn, so none that a hand makes will do: {}; quillet check \
             says what is wrong",
            rules.into_iter().collect::<Vec<_>>().join(", ")
        )),
    }
}
