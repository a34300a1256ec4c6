//! `quillet tools`: every tool a pen is made with, and what of it is to be had.

use crate::choice::PenChoice;
use crate::listing::{Listing, columns};
use crate::{disk, plans, warn};
use quillet_export::sheet::tool_name;
use quillet_plan::{Plan, Standing, ToolList};
use serde::Serialize;
use std::path::PathBuf;
use std::process::ExitCode;

/// What `quillet tools` may be asked.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// The file
    file: PathBuf,
    #[command(flatten)]
    pen: PenChoice,
    #[command(flatten)]
    listing: Listing,
}

/// Lists; 0, or 2 with the reason where nothing could be listed.
pub(crate) fn run(args: &Args) -> ExitCode {
    warn::ended(write(args))
}

fn write(args: &Args) -> Result<(), String> {
    let design = disk::design(&args.file)?;
    warn::errors(&design);
    let plans = plans::plans(&design, &args.pen)?;
    let lists = plans
        .iter()
        .map(|it| List::of(&it.title, &it.plan, it.bench));
    let lists = Lists {
        lists: lists.collect(),
    };
    args.listing.give(&args.file, &lists, Lists::text)
}

#[derive(Serialize)]
struct Lists {
    lists: Vec<List>,
}

/// The tools of a pen, or of a part that is in none.
#[derive(Serialize)]
struct List {
    of: String,
    bench: Option<String>,
    /// Distinct sizes of drilled, bored and reamed holes, largest first.
    hole_sizes_mm: Vec<f64>,
    tools: Vec<Listed>,
}

#[derive(Serialize)]
struct Listed {
    tool: String,
    standing: &'static str,
    /// Parts with the numbers of their operations.
    uses: Vec<Use>,
}

#[derive(Serialize)]
struct Use {
    part: String,
    operations: Vec<usize>,
}

impl List {
    fn of(title: &str, plan: &Plan, bench: Option<&quillet_model::Bench>) -> Self {
        let list = ToolList::of(plan, bench);
        let listed = |it: &quillet_plan::ListedTool| {
            let mut uses: Vec<Use> = Vec::new();
            for at in &it.uses {
                let part = plan.routes[at.route].part.name.text.to_string();
                let operation = at.operation + 1;
                match uses.last_mut().filter(|it| it.part == part) {
                    Some(last) => last.operations.push(operation),
                    None => uses.push(Use {
                        part,
                        operations: vec![operation],
                    }),
                }
            }
            Listed {
                tool: tool_name(it.tool),
                standing: standing(it.standing),
                uses,
            }
        };
        Self {
            of: title.to_owned(),
            bench: bench.map(|bench| bench.name.text.to_string()),
            hole_sizes_mm: list.hole_sizes.iter().map(|it| it.to_mm()).collect(),
            tools: list.tools.iter().map(listed).collect(),
        }
    }
}

const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::OnBench => "on the bench",
        Standing::ToBuy => "to buy",
        Standing::ToMake => "to make",
        Standing::Needed => "needed",
    }
}

impl Lists {
    fn text(&self) -> String {
        let each = self.lists.iter().map(|list| {
            let bench = match &list.bench {
                Some(bench) => format!("at the bench {bench}"),
                None => "no bench is named: nothing is taken as owned".to_owned(),
            };
            let sizes: Vec<String> = list.hole_sizes_mm.iter().map(f64::to_string).collect();
            let rows: Vec<Vec<String>> = list.tools.iter().map(Listed::row).collect();
            format!(
                "{}, {bench}\n{}  {} sizes of hole: {}\n",
                list.of,
                columns(&["tool", "", "where (operation)"], &rows),
                sizes.len(),
                sizes.join(", ")
            )
        });
        each.collect::<Vec<_>>().join("\n")
    }
}

impl Listed {
    fn row(&self) -> Vec<String> {
        let uses = self.uses.iter().map(|it| {
            let numbers: Vec<String> = it.operations.iter().map(usize::to_string).collect();
            format!("{} {}", it.part, numbers.join(", "))
        });
        let uses = uses.collect::<Vec<_>>().join("; ");
        vec![self.tool.clone(), self.standing.to_owned(), uses]
    }
}
