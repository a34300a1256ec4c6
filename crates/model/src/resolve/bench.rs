//! Benches.

use super::Resolver;
use super::frame::Frame;
use crate::{Bench, BenchDrill, BenchThreading, DrillName, Lathe, Limits};
use quillet_geometry::Length;
use quillet_standards::drill;
use quillet_syntax::ast::{self, SizedTools, ThreadTools, ToolLineKind};
use quillet_syntax::{Finding, Severity, Span};

/// More sizes than any drill cabinet holds.
const MOST_IN_A_RUN: i64 = 2000;

impl<'a> Resolver<'a> {
    pub(super) fn bench_item(&mut self, item: &'a ast::Bench, span: Span, frame: &mut Frame<'a>) {
        let mut bench = Bench {
            name: item.name.clone(),
            title: item.title.clone(),
            span,
            block: item.block.unwrap_or(item.name.span),
            drills: Vec::new(),
            reamers: Vec::new(),
            collets: Vec::new(),
            bushings: Vec::new(),
            mandrels: Vec::new(),
            taps: Vec::new(),
            dies: Vec::new(),
            lathe: None,
            limits: Limits::default(),
        };
        for line in &item.tools {
            match &line.kind {
                ToolLineKind::Sizes { tools, runs, reach } => {
                    let reach = reach
                        .as_ref()
                        .and_then(|sum| self.positive(sum, "a reach", frame));
                    for run in runs {
                        for (dia, name) in self.run(run, frame) {
                            bench.add_size(*tools, dia, name, reach, line.span);
                        }
                    }
                }
                ToolLineKind::Threads { tools, forms, lead } => {
                    let lead = lead
                        .as_ref()
                        .and_then(|sum| self.positive(sum, "a lead-in", frame));
                    for form in forms {
                        let Some(thread) = self.thread(form, frame) else {
                            continue;
                        };
                        let tool = BenchThreading {
                            thread,
                            lead,
                            span: line.span,
                        };
                        match tools {
                            ThreadTools::Taps => bench.taps.push(tool),
                            ThreadTools::Dies => bench.dies.push(tool),
                        }
                    }
                }
                ToolLineKind::Lathe { speeds, bore } => {
                    let speeds = self.range(&speeds.from, &speeds.to, frame);
                    let bore = bore
                        .as_ref()
                        .and_then(|sum| self.positive(sum, "a bore", frame));
                    let ends = speeds.and_then(|(a, b)| a.as_number().zip(b.as_number()));
                    bench.lathe = ends.map(|(least_rev_min, most_rev_min)| Lathe {
                        least_rev_min,
                        most_rev_min,
                        bore,
                        span: line.span,
                    });
                }
                ToolLineKind::Limit(limit) => {
                    bench.limits.0.extend(self.limit(limit, frame));
                }
                ToolLineKind::Bad => {}
            }
        }
        bench.put_in_order();
        self.design.benches.push(std::sync::Arc::new(bench));
    }

    /// The sizes of one run, smallest first.
    fn run(&mut self, run: &ast::Run, frame: &mut Frame<'a>) -> Vec<(Length, DrillName)> {
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

    fn out_of_run(&mut self, at: Span, message: &str) {
        self.say(Finding::new("out-of-range", Severity::Error, at, message));
    }
}

impl Bench {
    fn add_size(
        &mut self,
        tools: SizedTools,
        dia: Length,
        name: DrillName,
        reach: Option<Length>,
        span: Span,
    ) {
        match tools {
            SizedTools::Drills => self.drills.push(BenchDrill {
                dia,
                name,
                reach,
                span,
            }),
            SizedTools::Reamers => self.reamers.push(dia),
            SizedTools::Collets => self.collets.push(dia),
            SizedTools::Bushings => self.bushings.push(dia),
            SizedTools::Mandrels => self.mandrels.push(dia),
        }
    }

    fn put_in_order(&mut self) {
        self.drills.sort_by_key(|drill| drill.dia);
        for sizes in [
            &mut self.reamers,
            &mut self.collets,
            &mut self.bushings,
            &mut self.mandrels,
        ] {
            sizes.sort();
            sizes.dedup();
        }
    }
}
