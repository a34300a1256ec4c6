//! Runs of sizes: from, to and by what step.

use super::super::Resolver;
use super::super::frame::Frame;
use crate::DrillName;
use quillet_geometry::Length;
use quillet_standards::drill;
use quillet_syntax::ast::{self, SizeKind};
use quillet_syntax::{Finding, Severity, SizedText, Span};

/// More sizes than any drill cabinet holds.
const MOST_IN_A_RUN: i64 = 2000;

impl<'a> Resolver<'a> {
    /// The sizes of one run, smallest first.
    pub(super) fn run(
        &mut self,
        run: &ast::Run,
        frame: &mut Frame<'a>,
    ) -> Vec<(Length, DrillName)> {
        let Some(first) = self.tool_size(&run.from, frame) else {
            return Vec::new();
        };
        let Some(to) = &run.to else {
            return vec![first];
        };
        let Some(last) = self.tool_size(to, frame) else {
            return Vec::new();
        };
        match (first.1, last.1) {
            (DrillName::Number(a), DrillName::Number(b)) => (a.min(b)..=a.max(b))
                .filter_map(|n| Some((drill::gauge(&format!("#{n}"))?, DrillName::Number(n))))
                .collect(),
            (DrillName::Letter(a), DrillName::Letter(b)) => (a.min(b)..=a.max(b))
                .filter_map(|c| Some((drill::gauge(&format!("letter {c}"))?, DrillName::Letter(c))))
                .collect(),
            (DrillName::Diameter, DrillName::Diameter) => self.stepped(run, first.0, last.0, frame),
            _ => {
                self.out_of_run(
                    run.span,
                    "a run goes from one size to another of the same kind",
                );
                Vec::new()
            }
        }
    }

    /// How many stops the spindle can be locked at, of one run of counts.
    pub(super) fn stops(&mut self, run: &ast::Run, frame: &mut Frame<'a>) -> Vec<u32> {
        let mut count = |size: &ast::Size| match &size.kind {
            SizeKind::Sum(sum) => self.count(sum, frame),
            SizeKind::Gauge(_) | SizeKind::Letter(_) => {
                self.out_of_run(size.span, "an index is a count of stops, as in: 24, 36");
                None
            }
        };
        let from = count(&run.from);
        let to = run.to.as_ref().map_or(from, &mut count);
        let step = match &run.step {
            None => Some(1),
            Some(step) => self.count(step, frame),
        };
        let Some(((from, to), step)) = from.zip(to).zip(step) else {
            return Vec::new();
        };
        (from.min(to)..=from.max(to))
            .step_by(step as usize)
            .collect()
    }

    fn stepped(
        &mut self,
        run: &ast::Run,
        from: Length,
        to: Length,
        frame: &mut Frame<'a>,
    ) -> Vec<(Length, DrillName)> {
        let Some(step) = &run.step else {
            self.out_of_run(
                run.span,
                "say how far apart the sizes are, as in: 1..13 step 0.1",
            );
            return Vec::new();
        };
        let Some(step) = self.positive(step, "a step", frame) else {
            return Vec::new();
        };
        let (low, high) = (from.min(to), from.max(to));
        let count = (high - low).nm() / step.nm() + 1;
        if count > MOST_IN_A_RUN {
            self.out_of_run(
                run.span,
                "this run has thousands of sizes; write a larger step",
            );
            return Vec::new();
        }
        (0..count)
            .map(|n| (low + step * n, DrillName::Diameter))
            .collect()
    }

    pub(super) fn out_of_run(&mut self, at: Span, message: impl Into<SizedText>) {
        self.emit(Finding::new("out-of-range", Severity::Error, at, message));
    }
}
