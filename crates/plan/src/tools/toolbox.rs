//! The tool for a cut, and what to say where the bench lacks it.

use crate::tools::kit::Kit;
use crate::{
    InsideCut, InsideShape, Short, ThreadCut, Threading, Tool, Trouble, TurnCut, TurnKind,
};
use quillet_geometry::Length;
use quillet_model::CutId;
use quillet_standards::drill::point_length;

/// The tool for a hole.
pub(crate) fn hole_tool(
    cut: &InsideCut,
    feature: Option<CutId>,
    kit: Kit,
    troubles: &mut Vec<Trouble>,
) -> Tool {
    let dia = cut.shape.widest();
    let bar = kit.bar(dia, cut.to);
    let tool = match cut.shape {
        InsideShape::Drill { dia, name, .. } => {
            let covered = bar.filter(|_| lacks_drill(kit, dia));
            covered.unwrap_or(Tool::Drill { dia, name })
        }
        InsideShape::Bore { dia } => bar.unwrap_or(Tool::FlatDrill { dia }),
        InsideShape::Ream { dia } => match kit.has_reamer(dia) {
            true => Tool::Reamer { dia },
            false => bar.unwrap_or(Tool::Reamer { dia }),
        },
        InsideShape::Recess { .. } => Tool::RecessingTool,
        InsideShape::Taper { .. } => bar.unwrap_or(Tool::BoringBar { enters: dia }),
        InsideShape::Countersink { angle, .. } => Tool::Countersink {
            angle_mdeg: (angle.to_deg() * 1000.0).round() as i64,
        },
    };
    if let (Some(feature), Some(_)) = (feature, kit.bench) {
        troubles.extend(hole_trouble(cut, tool, feature, kit));
    }
    tool
}

fn lacks_drill(kit: Kit, dia: Length) -> bool {
    kit.lists_drills() && kit.drill(dia).is_none()
}

/// A twist drill is no flat one; where the bench says nothing of flat ones, a drill of the size can be
/// ground.
fn lacks_flat(kit: Kit, dia: Length) -> bool {
    match kit.lists_flats() {
        true => !kit.has_flat(dia),
        false => lacks_drill(kit, dia),
    }
}

fn hole_trouble(cut: &InsideCut, tool: Tool, feature: CutId, kit: Kit) -> Vec<Trouble> {
    let mut found = Vec::new();
    let flat = matches!(tool, Tool::FlatDrill { .. });
    let lacks = |dia: Length| match flat {
        true => lacks_flat(kit, dia),
        false => lacks_drill(kit, dia),
    };
    match tool {
        Tool::Drill { dia, .. } | Tool::FlatDrill { dia } if lacks(dia) => {
            // A bar that enters but does not reach is the nearer cure.
            let entering = kit.bench.and_then(|it| {
                it.boring
                    .iter()
                    .rev()
                    .find(|bar| bar.enters <= dia)
                    .and_then(|bar| bar.reach)
            });
            found.push(match entering {
                Some(reach) => {
                    let (needed, short) = (cut.to, Short::Bar);
                    Trouble::BeyondReach {
                        feature,
                        needed,
                        reach,
                        short,
                    }
                }
                None => no_drill(kit, feature, (dia, flat)),
            });
        }
        Tool::Drill { dia, .. } | Tool::FlatDrill { dia } => {
            let point = match cut.shape {
                InsideShape::Drill { dia, point, .. } => point_length(dia, point),
                _ => Length::ZERO,
            };
            let needed = cut.to + point;
            // Of a flat drill's flutes no standard speaks.
            let flutes = kit.drill_reach(dia).filter(|_| !flat);
            for (reach, short) in [(flutes, Short::Drill), (kit.travel(), Short::Travel)] {
                if let Some(reach) = reach.filter(|reach| *reach < needed) {
                    found.push(Trouble::BeyondReach {
                        feature,
                        needed,
                        reach,
                        short,
                    });
                }
            }
        }
        Tool::Reamer { dia } if kit.lists_drills() && !kit.has_reamer(dia) => {
            found.push(Trouble::NoReamer {
                feature,
                wanted: dia,
            });
        }
        _ => {}
    }
    found
}

fn no_drill(kit: Kit, feature: CutId, (wanted, flat): (Length, bool)) -> Trouble {
    let sizes: Vec<Length> = match kit.bench {
        Some(bench) if flat && !bench.flats.is_empty() => bench.flats.clone(),
        Some(bench) => bench.drills.iter().map(|drill| drill.dia).collect(),
        None => Vec::new(),
    };
    Trouble::NoDrill {
        feature,
        wanted,
        flat,
        below: sizes.iter().copied().rfind(|dia| *dia < wanted),
        above: sizes.iter().copied().find(|dia| *dia > wanted),
    }
}

/// The tool for the hole that takes a glued piece's spigot, flat at its bottom.
pub(crate) fn socket_tool(dia: Length, depth: Length, kit: Kit) -> Tool {
    kit.bar(dia, depth).unwrap_or(Tool::FlatDrill { dia })
}

/// The tool for a thread.
pub(crate) fn thread_tool(
    cut: &ThreadCut,
    feature: Option<CutId>,
    kit: Kit,
    troubles: &mut Vec<Trouble>,
) -> Tool {
    let form = cut.thread.thread;
    let (tool, lacking) = match cut.method {
        Threading::SinglePoint => (Tool::ThreadingTool { inside: cut.inside }, false),
        Threading::Tap => (Tool::Tap { thread: form }, kit.tap(&form).is_none()),
        Threading::Die => (Tool::Die { thread: form }, kit.die(&form).is_none()),
    };
    if let (true, Some(feature)) = (lacking && kit.lists_threading(), feature) {
        let thread = cut.thread.clone();
        troubles.push(match cut.inside {
            true => Trouble::NoTap { feature, thread },
            false => Trouble::NoDie { feature, thread },
        });
    }
    tool
}

/// The tool for a cylinder outside: a tenon cutter where its bushing is at hand.
pub(crate) fn turning_tool(
    cut: &TurnCut,
    feature: Option<CutId>,
    kit: Kit,
    troubles: &mut Vec<Trouble>,
) -> Tool {
    if let (TurnKind::Tenon | TurnKind::ThreadLand, Some(bushing)) =
        (cut.kind, kit.bushing(cut.dia))
    {
        return Tool::TenonCutter { bushing };
    }
    match cut.kind {
        TurnKind::Groove | TurnKind::Relief => Tool::PartingTool,
        TurnKind::Tenon | TurnKind::ThreadLand => {
            if let (true, Some(feature), Some(bench)) = (kit.lists_bushings(), feature, kit.bench)
                && !kit.screwcutting()
            {
                let nearest = bench
                    .bushings
                    .iter()
                    .copied()
                    .min_by_key(|it| (*it - cut.dia).abs());
                troubles.push(Trouble::NoBushing {
                    feature,
                    wanted: cut.dia,
                    nearest,
                });
            }
            Tool::TurningTool
        }
    }
}
