//! Words and figures of a row, and what they are taken from.

use super::words;
use quillet_geometry::{Length, Limits};
use quillet_model::{Bench, DrillName, Units};
use quillet_plan::{MandrelId, Measured, Note, Operation, Plan, Route, Tool, TrialFit, Work};
use quillet_standards::thread::ThreadForm;

/// The route that rows are of.
pub(super) struct RowContext<'a> {
    pub(super) plan: &'a Plan,
    pub(super) route: &'a Route,
    pub(super) bench: Option<&'a Bench>,
    pub(super) units: Units,
    /// The mandrel that holds the work unscrews in reverse, or in forward rotation.
    pub(super) unscrews: Option<Note>,
}

/// A diameter as the sheet writes it: the sign before the figure.
pub(super) fn dia_of(units: Units, dia: Length) -> String {
    format!("⌀{}", units.plain(dia))
}

/// A thread and its starts: `M13×0.8` and `×3`.
pub(super) fn thread_name(form: &ThreadForm) -> (String, String) {
    let text = form.without_classes().to_string();
    let starts = match form.starts() {
        1 => String::new(),
        count => format!("×{count}"),
    };
    // `M13xPh2.4P0.8`: the sheet says pitch and starts, as the file does.
    let short = text.split_once("xPh").and_then(|(major, rest)| {
        let (_, pitch) = rest.split_once('P')?;
        Some(format!("{major}×{pitch}"))
    });
    (short.unwrap_or_else(|| text.replace('x', "×")), starts)
}

impl RowContext<'_> {
    /// As drills are called.
    pub(super) fn drilled(&self, dia: Length, name: DrillName) -> String {
        words::drilled(dia, name, self.units).replace('Ø', "⌀")
    }

    /// A reading of a scale.
    pub(super) fn tenth(&self, length: Length) -> String {
        match self.units {
            Units::Millimetres => format!("{:.1}", length.to_mm()),
            Units::Inches => format!("{:.2}", length.to_inches()),
        }
    }

    /// Rounded down, as far as a drill may go at most.
    pub(super) fn whole(&self, length: Length) -> String {
        match self.units {
            Units::Millimetres => format!("{:.0}", (length.to_mm() + 1e-6).floor()),
            Units::Inches => format!("{:.2}", (length.to_inches() * 100.0 + 1e-6).floor() / 100.0),
        }
    }

    /// Limits of a size: tenths where tenths say it, else hundredths; a fit to the micrometre.
    pub(super) fn limits(&self, limits: Limits, nominal: Length) -> String {
        let (least, most) = (limits.min(), limits.max());
        if self.units == Units::Inches {
            return format!("{:.3}–{:.3}", least.to_inches(), most.to_inches());
        }
        let tenths = |it: Length| it.nm() % 100_000 == 0;
        let narrow = most - least < Length::mm(0.05);
        let hundredths = |it: Length| it.nm() % 10_000 == 0;
        let places = match (tenths(least) && tenths(most), narrow) {
            (true, _) => 1,
            (false, true) if !(hundredths(least) && hundredths(most)) => 3,
            _ => 2,
        };
        let _ = nominal;
        format!("{:.places$}–{:.places$}", least.to_mm(), most.to_mm())
    }

    /// One number of the lathe: that nearest to what the material asks; without a lathe the cutting
    /// speed.
    pub(super) fn speed(&self, operation: &Operation) -> String {
        if operation.by_hand {
            return "hand".into();
        }
        let Some(speed) = &operation.speed else {
            return String::new();
        };
        match self.bench.and_then(|it| it.lathe.as_ref()) {
            None => {
                let (low, high) = speed.cutting_m_min;
                format!("{:.0} m/min", (low * high).sqrt())
            }
            Some(_) => {
                let set = speed.set_rev_min.unwrap_or(speed.low_rev_min);
                format!("{set:.0}")
            }
        }
    }

    /// The tool, where the verb does not say it.
    pub(super) fn tool_of(&self, operation: &Operation) -> Option<String> {
        let tool = operation.tool?;
        if let Work::Thread(_) = operation.work {
            let plug = self.plug_before(operation)?;
            return Some(format!("over plug {}", words::letter(plug)));
        }
        if names_tool(&operation.work, tool) {
            return None;
        }
        Some(match tool {
            Tool::TenonCutter { bushing } => format!("bushing {}", self.units.plain(bushing)),
            Tool::FlatDrill { .. } => "flat drill".into(),
            Tool::BoringBar { .. } => "boring bar".into(),
            Tool::PatternTool => "pattern tool".into(),
            other => words::tool(other, self.units),
        })
    }

    /// The plug that was put in for a die.
    fn plug_before(&self, operation: &Operation) -> Option<MandrelId> {
        let Some(Tool::Die { .. }) = operation.tool else {
            return None;
        };
        let own = |it: &Operation| std::ptr::eq(it, operation);
        let at = self.route.operations.iter().position(own)?;
        match self.route.operations.get(at.checked_sub(1)?)?.work {
            Work::Support { plug } => Some(plug),
            _ => None,
        }
    }

    /// What a stop tries.
    pub(super) fn mate(&self, gate: &TrialFit) -> String {
        let part = &self.route.part.name.text;
        let copies = |it: &quillet_plan::Mandrel| {
            let of = it.copy_of.as_ref();
            of.is_some_and(|of| of.0 == gate.mate)
                && it
                    .serves
                    .iter()
                    .any(|(own, end)| own == part && *end == gate.end)
        };
        let index = self.plan.mandrels.position(copies);
        match (gate.copy, index) {
            (true, Some(index)) => format!("mandrel {}", words::letter(index)),
            (true, None) => format!("the {}’s mandrel", gate.mate),
            (false, _) => format!("the {}", gate.mate),
        }
    }

    /// What sanding comes to, and where it is measured.
    pub(super) fn polished(&self, operation: &Operation) -> (String, String) {
        let to_the_hole = operation.notes.iter().find_map(|it| match it {
            Note::ToTheHole { drawn, .. } => Some(*drawn),
            _ => None,
        });
        if let Some(drawn) = to_the_hole {
            return (dia_of(self.units, drawn), String::new());
        }
        let outside = operation.checks.iter().rev().find_map(|it| match it.what {
            Measured::Outside { at, .. } => Some((it.nominal, at)),
            _ => None,
        });
        match outside {
            Some((dia, at)) => (
                dia_of(self.units, dia),
                format!("at {}", self.units.plain(at)),
            ),
            None => (String::new(), "through the grits, polish".into()),
        }
    }
}

/// Whether a verb says its tool.
pub(super) fn names_tool(work: &Work, tool: Tool) -> bool {
    let plain_cut = !matches!(work, Work::Outside(_) | Work::Turn(_));
    match tool {
        Tool::TenonCutter { .. }
        | Tool::FlatDrill { .. }
        | Tool::BoringBar { .. }
        | Tool::PatternTool => false,
        Tool::PartingTool | Tool::TurningTool | Tool::ThreadingTool { .. } => plain_cut,
        _ => true,
    }
}
