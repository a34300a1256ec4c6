//! Every tool a plan uses, where, and whether it stands on the bench.

use crate::tools::bench_tools::BenchTools;
use crate::{InsideShape, OperationRef, Plan, Tool, Work, Workholding};
use quillet_geometry::Length;
use quillet_model::Bench;
use std::collections::{BTreeMap, BTreeSet};

/// The tools of a plan, in the order of [`Tool`].
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ToolList {
    /// Each tool once.
    pub tools: Vec<ListedTool>,
    /// The distinct sizes of round, flat-bottomed and stepped holes, largest first: drilled,
    /// bored and reamed alike, whatever tool makes them. Helpers that only open the way for
    /// another cut are not counted.
    pub hole_sizes: Vec<Length>,
}

/// A tool with where it is used.
#[derive(Clone, Debug, PartialEq)]
pub struct ListedTool {
    /// The tool.
    pub tool: Tool,
    /// Whether it is at hand.
    pub standing: Availability,
    /// What does it, more or less, where the bench lacks it.
    pub substitute: Option<Substitute>,
    /// Where it is used, in the order of the routes.
    pub uses: Vec<OperationRef>,
}

/// Whether a tool is at hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Availability {
    /// The bench has it.
    OnBench,
    /// The bench does not list it: to be bought or borrowed.
    ToBuy,
    /// It is made for the job.
    ToMake,
    /// Every bench has one, or no bench is known.
    Needed,
}

/// What does the work of a tool that is not at hand, and at what cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Substitute {
    /// Another drill: the hole comes out wider by so much, narrower where it is below zero.
    Drill {
        /// Its size.
        dia: Length,
        /// On diameter.
        wider: Length,
    },
    /// A twist drill ground flat across: that drill is lost for other work.
    GroundFlat {
        /// Its size.
        dia: Length,
        /// On diameter.
        wider: Length,
    },
    /// A chuck with jaws: it marks the stock and runs less true.
    Chuck,
}

impl ToolList {
    /// The tools of a plan.
    pub fn of(plan: &Plan, bench: Option<&Bench>) -> ToolList {
        let bench_tools = BenchTools { bench };
        let mut uses: BTreeMap<Tool, Vec<OperationRef>> = BTreeMap::new();
        let mut sizes = BTreeSet::new();
        for (index, route) in plan.routes.with_ids() {
            for (operation, it) in route.operations.iter().enumerate() {
                if let Some(tool) = it.tool {
                    uses.entry(tool).or_default().push(OperationRef {
                        route: index,
                        operation,
                    });
                }
                // What is joined is gripped by one part's nub: no operation of its own takes hold.
                if let (Workholding::Joined { collet, .. }, Work::Outside(_)) = (it.hold, &it.work)
                {
                    let tool = Tool::Collet { dia: collet };
                    uses.entry(tool).or_default().push(OperationRef {
                        route: index,
                        operation,
                    });
                }
                sizes.extend(hole_size(&it.work));
            }
        }
        let listed = uses.into_iter().map(|(tool, uses)| {
            let standing = bench_tools.standing(tool);
            let lacks = standing == Availability::ToBuy;
            ListedTool {
                tool,
                standing,
                substitute: lacks.then(|| bench_tools.substitute(tool)).flatten(),
                uses,
            }
        });
        ToolList {
            tools: listed.collect(),
            hole_sizes: sizes.into_iter().rev().collect(),
        }
    }
}

fn hole_size(work: &Work) -> Option<Length> {
    let Work::Inside(cut) = work else { return None };
    match cut.shape {
        InsideShape::Drill {
            dia,
            opening: false,
            ..
        }
        | InsideShape::Bore { dia }
        | InsideShape::Ream { dia } => Some(dia),
        _ => None,
    }
}

impl BenchTools<'_> {
    fn standing(self, tool: Tool) -> Availability {
        let Some(bench) = self.bench else {
            return match tool {
                Tool::Mandrel { .. } => Availability::ToMake,
                _ => Availability::Needed,
            };
        };
        let owned = match tool {
            Tool::Mandrel { .. } => return Availability::ToMake,
            Tool::Drill { dia, .. } => self.drill(dia).is_some(),
            Tool::FlatDrill { dia } => self.has_flat(dia),
            Tool::BoringBar { enters } => bench.boring.iter().any(|bar| bar.enters <= enters),
            Tool::Reamer { dia } => self.has_reamer(dia),
            Tool::Tap { thread } => self.tap(&thread).is_some(),
            Tool::Die { thread } => self.die(&thread).is_some(),
            Tool::TenonCutter { bushing } => self.bushing(bushing).is_some(),
            Tool::Collet { dia } if self.lists_collets() => self.collet(dia).is_some(),
            Tool::Cutter { width } if !bench.cutters.is_empty() => bench.cutters.contains(&width),
            Tool::Saw if bench.kerf.is_some() => true,
            Tool::ThreadingTool { .. } => self.screwcutting(),
            _ => return Availability::Needed,
        };
        if owned {
            Availability::OnBench
        } else {
            Availability::ToBuy
        }
    }

    /// The nearest that would do.
    fn substitute(self, tool: Tool) -> Option<Substitute> {
        let drills = self.bench?.drills.iter().map(|drill| drill.dia);
        let nearest = |dia: Length| drills.min_by_key(|own| (*own - dia).abs());
        match tool {
            Tool::Drill { dia, .. } | Tool::Reamer { dia } => {
                let near = nearest(dia)?;
                let wider = near - dia;
                Some(Substitute::Drill { dia: near, wider })
            }
            Tool::FlatDrill { dia } => {
                let near = nearest(dia)?;
                let wider = near - dia;
                Some(Substitute::GroundFlat { dia: near, wider })
            }
            Tool::Collet { .. } => Some(Substitute::Chuck),
            _ => None,
        }
    }
}
