//! The tool for a cut, and what to say where the bench lacks it.

use crate::tools::bench_tools::BenchTools;
use crate::{
    DrilledHole, Indexed, InsideCut, InsideShape, PlanProblem, Shortfall, ThreadCut, Threading,
    Tool, TurnCut, TurnKind,
};
use quillet_geometry::Length;
use quillet_model::{CircleId, CutId, Part, SideCut, SideCutKind, SideId};
use quillet_standards::drill::point_length;

/// The tool for a hole.
pub(crate) fn hole_tool(
    cut: &InsideCut,
    feature: Option<CutId>,
    bench_tools: BenchTools,
    problems: &mut Vec<PlanProblem>,
) -> Tool {
    let dia = cut.shape.widest();
    let bar = bench_tools.bar(dia, cut.to);
    let tool = match cut.shape {
        InsideShape::Drill { dia, name, .. } => {
            let covered = bar.filter(|_| lacks_drill(bench_tools, dia));
            covered.unwrap_or(Tool::Drill { dia, name })
        }
        InsideShape::Bore { dia } => bar.unwrap_or(Tool::FlatDrill { dia }),
        InsideShape::Ream { dia } => match bench_tools.has_reamer(dia) {
            true => Tool::Reamer { dia },
            false => bar.unwrap_or(Tool::Reamer { dia }),
        },
        InsideShape::Recess { .. } => Tool::RecessingTool,
        InsideShape::Taper { .. } => bar.unwrap_or(Tool::BoringBar { enters: dia }),
        InsideShape::Countersink { angle, .. } => Tool::Countersink {
            angle_mdeg: (angle.to_deg() * 1000.0).round() as i64,
        },
    };
    if let (Some(feature), Some(_)) = (feature, bench_tools.bench) {
        problems.extend(hole_problem(cut, tool, feature, bench_tools));
    }
    tool
}

fn lacks_drill(bench_tools: BenchTools, dia: Length) -> bool {
    bench_tools.lists_drills() && bench_tools.drill(dia).is_none()
}

/// A twist drill is no flat one; where the bench says nothing of flat ones, a drill of the size can be
/// ground.
fn lacks_flat(bench_tools: BenchTools, dia: Length) -> bool {
    match bench_tools.lists_flats() {
        true => !bench_tools.has_flat(dia),
        false => lacks_drill(bench_tools, dia),
    }
}

fn lacks(bench_tools: BenchTools, dia: Length, flat: bool) -> bool {
    flat && lacks_flat(bench_tools, dia) || !flat && lacks_drill(bench_tools, dia)
}

fn hole_problem(
    cut: &InsideCut,
    tool: Tool,
    feature: CutId,
    bench_tools: BenchTools,
) -> Vec<PlanProblem> {
    let mut found = Vec::new();
    let flat = matches!(tool, Tool::FlatDrill { .. });
    match tool {
        Tool::Drill { dia, .. } | Tool::FlatDrill { dia } if lacks(bench_tools, dia, flat) => {
            // A bar that enters but does not reach is the nearer cure.
            let entering = bench_tools.bench.and_then(|it| {
                it.boring
                    .iter()
                    .rev()
                    .find(|bar| bar.enters <= dia)
                    .and_then(|bar| bar.reach)
            });
            found.push(match entering {
                Some(reach) => {
                    let (needed, short) = (cut.to, Shortfall::Bar);
                    PlanProblem::BeyondReach {
                        feature,
                        needed,
                        reach,
                        short,
                    }
                }
                None => no_drill(bench_tools, DrilledHole::Cut(feature), (dia, flat)),
            });
        }
        Tool::Drill { dia, .. } | Tool::FlatDrill { dia } => {
            let point = match cut.shape {
                InsideShape::Drill { dia, point, .. } => point_length(dia, point),
                _ => Length::ZERO,
            };
            let needed = cut.to + point;
            // Of a flat drill's flutes no standard speaks.
            let flutes = bench_tools.drill_reach(dia).filter(|_| !flat);
            for (reach, short) in [
                (flutes, Shortfall::Drill),
                (bench_tools.travel(), Shortfall::Travel),
            ] {
                if let Some(reach) = reach.filter(|reach| *reach < needed) {
                    found.push(PlanProblem::BeyondReach {
                        feature,
                        needed,
                        reach,
                        short,
                    });
                }
            }
        }
        Tool::Reamer { dia } if bench_tools.lists_drills() && !bench_tools.has_reamer(dia) => {
            found.push(PlanProblem::NoReamer {
                feature,
                wanted: dia,
            });
        }
        _ => {}
    }
    found
}

fn no_drill(
    bench_tools: BenchTools,
    hole: DrilledHole,
    (wanted, flat): (Length, bool),
) -> PlanProblem {
    let (below, above) = nearest(bench_tools, wanted, flat);
    PlanProblem::NoDrill {
        hole,
        wanted,
        flat,
        below,
        above,
    }
}

/// The drills on the bench that are nearest to a size, below it and above.
fn nearest(
    bench_tools: BenchTools,
    wanted: Length,
    flat: bool,
) -> (Option<Length>, Option<Length>) {
    let sizes: Vec<Length> = match bench_tools.bench {
        Some(bench) if flat && !bench.flats.is_empty() => bench.flats.clone(),
        Some(bench) => bench.drills.iter().map(|drill| drill.dia).collect(),
        None => Vec::new(),
    };
    let below = sizes.iter().copied().rfind(|dia| *dia < wanted);
    (below, sizes.iter().copied().find(|dia| *dia > wanted))
}

/// What the bench lacks for holes that are drilled while the spindle is locked: no bar does instead.
fn no_drill_beside(cut: Indexed, tool: Tool, bench_tools: BenchTools) -> Option<PlanProblem> {
    let (wanted, flat) = match tool {
        Tool::Drill { dia, .. } => (dia, false),
        Tool::FlatDrill { dia } => (dia, true),
        _ => return None,
    };
    let hole = DrilledHole::Indexed(cut);
    lacks(bench_tools, wanted, flat).then(|| no_drill(bench_tools, hole, (wanted, flat)))
}

/// The tool for a cut from the side, made at so many places round: flats are milled where the bench
/// has cutters, else filed.
pub(crate) fn side_tool(
    part: &Part,
    id: SideId,
    places: u32,
    bench_tools: BenchTools,
    problems: &mut Vec<PlanProblem>,
) -> Option<Tool> {
    let cut = part.side(id)?;
    let tool = side_tool_of(cut, bench_tools);
    // A pattern is cut as the work turns.
    if tool != Tool::PatternTool && !bench_tools.stops_at(places) {
        let cut = Indexed::Side(id);
        problems.push(PlanProblem::NoIndex { cut, places });
    }
    if let (Tool::Cutter { width }, SideCutKind::Slot { .. }) = (tool, &cut.kind) {
        problems.extend(bench_tools.no_cutter(id, width));
    }
    problems.extend(no_drill_beside(Indexed::Side(id), tool, bench_tools));
    Some(tool)
}

/// The tool for holes beside the axis, drilled or sunk flat.
pub(crate) fn beside_tool(
    part: &Part,
    id: CircleId,
    places: u32,
    bench_tools: BenchTools,
    problems: &mut Vec<PlanProblem>,
) -> Option<Tool> {
    let holes = part.circle(id)?;
    if !bench_tools.stops_at(places) {
        let cut = Indexed::Beside(id);
        problems.push(PlanProblem::NoIndex { cut, places });
    }
    let (dia, name) = (holes.dia, holes.tool);
    let tool = match holes.point {
        Some(_) => Tool::Drill { dia, name },
        None => Tool::FlatDrill { dia },
    };
    problems.extend(no_drill_beside(Indexed::Beside(id), tool, bench_tools));
    Some(tool)
}

fn side_tool_of(cut: &SideCut, bench_tools: BenchTools) -> Tool {
    let widest = bench_tools
        .bench
        .and_then(|it| it.cutters.iter().max().copied());
    match cut.kind {
        SideCutKind::Drill { dia, tool, .. } => Tool::Drill { dia, name: tool },
        SideCutKind::Slot { width, .. } => {
            // A slot wider than long is milled by a cutter of its length.
            let length = cut.stretch.to - cut.stretch.from;
            let width = width.min(length);
            Tool::Cutter { width }
        }
        SideCutKind::Pattern { .. } => Tool::PatternTool,
        SideCutKind::Across { .. } | SideCutKind::Deep(_) | SideCutKind::Sharp => {
            widest.map_or(Tool::File, |width| Tool::Cutter { width })
        }
    }
}

/// The tool for the hole that takes a glued piece's spigot, flat at its bottom.
pub(crate) fn socket_tool(dia: Length, depth: Length, bench_tools: BenchTools) -> Tool {
    bench_tools
        .bar(dia, depth)
        .unwrap_or(Tool::FlatDrill { dia })
}

/// The tool for a thread.
pub(crate) fn thread_tool(
    cut: &ThreadCut,
    feature: Option<CutId>,
    bench_tools: BenchTools,
    problems: &mut Vec<PlanProblem>,
) -> Tool {
    let form = cut.thread.thread;
    let (tool, lacking) = match cut.method {
        Threading::SinglePoint => (Tool::ThreadingTool { inside: cut.inside }, false),
        Threading::Tap => (Tool::Tap { thread: form }, bench_tools.tap(&form).is_none()),
        Threading::Die => (Tool::Die { thread: form }, bench_tools.die(&form).is_none()),
    };
    if let (true, Some(feature)) = (lacking && bench_tools.lists_threading(), feature) {
        let thread = cut.thread.clone();
        problems.push(match cut.inside {
            true => PlanProblem::NoTap { feature, thread },
            false => PlanProblem::NoDie { feature, thread },
        });
    }
    tool
}

/// The tool for a cylinder outside: a tenon cutter where its bushing is at hand.
pub(crate) fn turning_tool(
    cut: &TurnCut,
    feature: Option<CutId>,
    bench_tools: BenchTools,
    problems: &mut Vec<PlanProblem>,
) -> Tool {
    if let (TurnKind::Tenon | TurnKind::ThreadLand, Some(bushing)) =
        (cut.kind, bench_tools.bushing(cut.dia))
    {
        return Tool::TenonCutter { bushing };
    }
    match cut.kind {
        TurnKind::Groove | TurnKind::Relief => Tool::PartingTool,
        TurnKind::Tenon | TurnKind::ThreadLand => {
            if let (true, Some(feature), Some(bench)) =
                (bench_tools.lists_bushings(), feature, bench_tools.bench)
                && !bench_tools.screwcutting()
            {
                let nearest = bench
                    .bushings
                    .iter()
                    .copied()
                    .min_by_key(|it| (*it - cut.dia).abs());
                problems.push(PlanProblem::NoBushing {
                    feature,
                    wanted: cut.dia,
                    nearest,
                });
            }
            Tool::TurningTool
        }
    }
}
