//! Every tool a pen is made with, and what of it is to be had.

use super::table::columns;
use crate::sheet::tool_name;
use quillet_geometry::Length;
use quillet_model::Units;
use quillet_pen::Planned;
use quillet_plan::{Availability, ToolList};
use serde::Serialize;

/// The tools of a pen, or of a part that is in none.
#[derive(Serialize)]
pub struct ToolReport {
    of: String,
    bench: Option<String>,
    /// Distinct sizes of drilled, bored and reamed holes, largest first.
    hole_sizes_mm: Vec<f64>,
    tools: Vec<ListedToolReport>,
}

#[derive(Serialize)]
struct ListedToolReport {
    tool: String,
    standing: &'static str,
    /// Parts with the numbers of their operations.
    uses: Vec<ToolUseReport>,
}

#[derive(Serialize)]
struct ToolUseReport {
    part: String,
    operations: Vec<usize>,
}

impl ToolReport {
    /// Of a plan; tools are named in `units`.
    pub fn of(planned: &Planned<'_>, units: Units) -> Self {
        let Planned { plan, bench, .. } = planned;
        let list = ToolList::of(plan, *bench);
        let listed = |it: &quillet_plan::ListedTool| {
            let mut uses: Vec<ToolUseReport> = Vec::new();
            for at in &it.uses {
                let part = plan.routes[at.route].part.name.text.to_string();
                let operation = at.operation + 1;
                match uses.last_mut().filter(|it| it.part == part) {
                    Some(last) => last.operations.push(operation),
                    None => uses.push(ToolUseReport {
                        part,
                        operations: vec![operation],
                    }),
                }
            }
            ListedToolReport {
                tool: tool_name(it.tool, units),
                standing: standing(it.standing),
                uses,
            }
        };
        Self {
            of: planned.counted_title(),
            bench: bench.map(|bench| bench.name.text.to_string()),
            hole_sizes_mm: list.hole_sizes.iter().map(|it| it.to_mm()).collect(),
            tools: list.tools.iter().map(listed).collect(),
        }
    }

    /// For people.
    pub fn text(&self, units: Units) -> String {
        let bench = match &self.bench {
            Some(bench) => format!("at the bench {bench}"),
            None => "no bench is named: nothing is taken as owned".to_owned(),
        };
        let sizes: Vec<String> = self
            .hole_sizes_mm
            .iter()
            .map(|mm| match (units, Length::mm(*mm)) {
                (Units::Millimetres, size) => units.plain(size),
                (Units::Inches, size) => units.drill(size),
            })
            .collect();
        let rows: Vec<Vec<String>> = self.tools.iter().map(ListedToolReport::row).collect();
        let sizes = match sizes.len() {
            0 => String::new(),
            1 => format!("  1 size of hole: {}\n", sizes[0]),
            count => format!("  {count} sizes of hole: {}\n", sizes.join(", ")),
        };
        format!(
            "{}, {bench}\n{}{sizes}",
            self.of,
            columns(&["tool", "", "where (operation)"], &rows),
        )
    }
}

const fn standing(standing: Availability) -> &'static str {
    match standing {
        Availability::OnBench => "on the bench",
        Availability::ToBuy => "to buy",
        Availability::ToMake => "to make",
        Availability::Needed => "needed",
    }
}

impl ListedToolReport {
    fn row(&self) -> Vec<String> {
        let uses = self.uses.iter().map(|it| {
            let numbers: Vec<String> = it.operations.iter().map(usize::to_string).collect();
            format!("{} {}", it.part, numbers.join(", "))
        });
        let uses = uses.collect::<Vec<_>>().join("; ");
        vec![self.tool.clone(), self.standing.to_owned(), uses]
    }
}
