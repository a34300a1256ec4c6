//! Benches.

mod runs;

use super::Resolver;
use super::frame::Frame;
use super::lines::stated_twice;
use crate::{
    Bench, BenchDrill, BenchThreading, BoringBar, DrillName, Hand, Lathe, Limits, Quantity,
    ThreadDef,
};
use quillet_geometry::Length;
use quillet_standards::thread::tap_leads;
use quillet_syntax::ast::{self, LatheOptionKind, LeadForm, SizedTools, ThreadTools, ToolLineKind};
use quillet_syntax::{Finding, Span, text};

/// Nobody works less closely than this.
const LOOSEST: Length = Length::from_nm(2_000_000);

impl<'a> Resolver<'a> {
    #[expect(
        clippy::too_many_lines,
        reason = "an arm a line: it is read as a table"
    )]
    pub(super) fn bench_item(&mut self, item: &'a ast::Bench, span: Span, frame: &mut Frame<'a>) {
        let mut bench = Bench {
            name: item.name.clone(),
            title: item.title.clone(),
            span,
            block: item.block.unwrap_or(item.name.span),
            drills: Vec::new(),
            flats: Vec::new(),
            boring: Vec::new(),
            reamers: Vec::new(),
            collets: Vec::new(),
            bushings: Vec::new(),
            pilot: None,
            mandrels: Vec::new(),
            index: Vec::new(),
            cutters: Vec::new(),
            taps: Vec::new(),
            dies: Vec::new(),
            kerf: None,
            lathe: None,
            hand: Hand::default(),
            limits: Limits::default(),
        };
        for line in &item.tools {
            match &line.kind {
                ToolLineKind::Sizes {
                    tools: SizedTools::Index,
                    runs,
                    ..
                } => {
                    for run in runs {
                        bench.index.extend(self.stops(run, frame));
                    }
                }
                ToolLineKind::Sizes {
                    tools,
                    runs,
                    reach,
                    pilot,
                } => {
                    if let Some(pilot) = pilot {
                        bench.pilot = self.positive(pilot, "a pilot", frame);
                    }
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
                    let made = self.threading(forms, lead.as_ref(), line.span, frame);
                    match tools {
                        ThreadTools::Taps => bench.taps.extend(made),
                        ThreadTools::Dies => bench.dies.extend(made),
                    }
                }
                ToolLineKind::Saw { kerf } => {
                    bench.kerf = self.positive(kerf, "a kerf", frame);
                }
                ToolLineKind::Lathe { speeds, options } => {
                    let lathe = self.lathe(speeds, options, line.span, frame);
                    // Without a speed that could be read the lathe would stand still.
                    bench.lathe = (!lathe.speeds_rev_min.is_empty()).then_some(lathe);
                }
                ToolLineKind::Keeps { kept, within } => {
                    if let Some(within) = self.accuracy(within, frame)
                        && bench.hand.keep(*kept, within).is_err()
                    {
                        self.emit(stated_before(item, line));
                    }
                }
                ToolLineKind::Caliper { within } => {
                    if let Some(within) = self.accuracy(within, frame)
                        && bench.hand.measure(within).is_err()
                    {
                        self.emit(stated_before(item, line));
                    }
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

    /// Taps or dies of these threads.
    fn threading(
        &mut self,
        forms: &'a [ast::ThreadRef],
        lead: Option<&LeadForm>,
        span: Span,
        frame: &mut Frame<'a>,
    ) -> Vec<BenchThreading> {
        let mut made = Vec::new();
        for form in forms {
            if let Some(thread) = self.thread(form, frame) {
                let lead = lead.and_then(|lead| self.lead(lead, &thread, frame));
                made.push(BenchThreading { thread, lead, span });
            }
        }
        made
    }

    /// A lathe by its speeds and by what else is said of it.
    fn lathe(
        &mut self,
        speeds: &[ast::SumSpan],
        options: &[ast::LatheOption],
        span: Span,
        frame: &mut Frame<'a>,
    ) -> Lathe {
        let mut read = Vec::new();
        for speed in speeds {
            let from = self.speed(&speed.from, frame);
            let to = speed.to.as_ref().map_or(from, |to| self.speed(to, frame));
            read.extend(from.zip(to).map(|(a, b)| (a.min(b), a.max(b))));
        }
        read.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut lathe = Lathe {
            speeds_rev_min: read,
            bore: None,
            centres: None,
            travel: None,
            screwcutting: false,
            span,
        };
        for option in options {
            let mut length = |sum| self.positive(sum, "a length", frame);
            match &option.kind {
                LatheOptionKind::Bore(sum) => lathe.bore = length(sum),
                LatheOptionKind::Centres(sum) => lathe.centres = length(sum),
                LatheOptionKind::Travel(sum) => lathe.travel = length(sum),
                LatheOptionKind::Screwcutting => lathe.screwcutting = true,
            }
        }
        lathe
    }

    /// How closely something is kept: from nothing to what no hand misses.
    fn accuracy(&mut self, sum: &ast::Expr, frame: &mut Frame<'a>) -> Option<Length> {
        let within = self.length(sum, frame)?;
        if (Length::ZERO..=LOOSEST).contains(&within) {
            return Some(within);
        }
        let message = text!(
            "{} is no accuracy; from 0 to {} either way is expected",
            within,
            LOOSEST
        );
        self.out_of_run(sum.span, message);
        None
    }

    fn speed(&mut self, sum: &ast::Expr, frame: &mut Frame<'a>) -> Option<f64> {
        let speed = self.amount(sum, "a speed", Quantity::as_number, frame)?;
        if speed > 0.0 {
            return Some(speed);
        }
        self.out_of_run(
            sum.span,
            "a lathe that stands still cuts nothing; more than 0 rev/min is expected",
        );
        None
    }

    /// The length of a tool's lead-in: as measured, or the longest its form has (DIN 2197).
    fn lead(
        &mut self,
        lead: &ast::LeadForm,
        thread: &ThreadDef,
        frame: &mut Frame<'a>,
    ) -> Option<Length> {
        let (span, letter) = match lead {
            LeadForm::Length(sum) => return self.positive(sum, "a lead-in", frame),
            LeadForm::Form { span, letter } => (*span, *letter),
        };
        let mut forms = tap_leads().iter();
        let form = forms.find(|form| form.form() == letter.to_string());
        if form.is_none() {
            let message = "a form of lead-in is a letter from A to E; C is two to three pitches";
            self.out_of_run(span, message);
        }
        Some(form?.length(&thread.thread).max())
    }
}

/// The finding for a line of a bench that says what one before it said.
fn stated_before(bench: &ast::Bench, line: &ast::ToolLine) -> Finding {
    let alike = |other: &&ast::ToolLine| match (&other.kind, &line.kind) {
        (ToolLineKind::Keeps { kept: a, .. }, ToolLineKind::Keeps { kept: b, .. }) => a == b,
        (ToolLineKind::Caliper { .. }, ToolLineKind::Caliper { .. }) => true,
        _ => false,
    };
    let first = bench.tools.iter().find(alike).unwrap_or(line);
    stated_twice(line.span, first.span)
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
            SizedTools::Flats => self.flats.push(dia),
            SizedTools::Boring => self.boring.push(BoringBar {
                enters: dia,
                reach,
                span,
            }),
            SizedTools::Reamers => self.reamers.push(dia),
            SizedTools::Collets => self.collets.push(dia),
            SizedTools::Bushings => self.bushings.push(dia),
            SizedTools::Mandrels => self.mandrels.push(dia),
            SizedTools::Cutters => self.cutters.push(dia),
            // Counts, read by themselves.
            SizedTools::Index => {}
        }
    }

    fn put_in_order(&mut self) {
        self.drills.sort_by_key(|drill| drill.dia);
        self.boring.sort_by_key(|bar| bar.enters);
        self.index.sort_unstable();
        self.index.dedup();
        for sizes in [
            &mut self.flats,
            &mut self.reamers,
            &mut self.collets,
            &mut self.bushings,
            &mut self.mandrels,
            &mut self.cutters,
        ] {
            sizes.sort();
            sizes.dedup();
        }
    }
}
