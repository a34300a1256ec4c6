//! Holes: tool, depth to the corner and to the point, pecks, what to mind.

use super::OperationBuilder;
use crate::tools::speed::SpeedClass;
use crate::tools::toolbox::hole_tool;
use crate::{Depth, InsideCut, InsideShape, Note, Operation, PlanProblem, Tool, Work, peck};
use quillet_geometry::Length;
use quillet_model::CutId;
use quillet_standards::drill::point_length;

/// A drill that breaks through goes this far beyond.
const BREAKS_THROUGH: Length = Length::from_nm(1_000_000);

impl OperationBuilder<'_, '_, '_> {
    pub(super) fn hole(
        &mut self,
        operation: &mut Operation,
        cut: InsideCut,
        feature: Option<CutId>,
        problems: &mut Vec<PlanProblem>,
    ) {
        let cut = self.to_break_through(cut);
        operation.work = Work::Inside(cut);
        let tool = hole_tool(&cut, feature, self.bench_tools, problems);
        operation.tool = Some(tool);
        let tip = match (cut.shape, tool) {
            // A countersink's own point never gets there: its depth is that of the cone.
            (InsideShape::Countersink { .. }, _) => None,
            (InsideShape::Drill { dia, point, .. }, Tool::Drill { .. }) => {
                Some(cut.to + point_length(dia, point))
            }
            _ => None,
        };
        operation.depth = Some(Depth {
            from: cut.end,
            to_corner: self.cone_depth(&cut).unwrap_or(cut.to),
            to_point: tip,
        });
        let dia = cut.shape.widest();
        let pace = match tool {
            Tool::Reamer { .. } => SpeedClass::Ream,
            Tool::BoringBar { .. } | Tool::RecessingTool => SpeedClass::Turn,
            _ => SpeedClass::Drill,
        };
        let around = (cut.end, cut.from, cut.to);
        self.pace(operation, pace, dia, around, feature, problems);
        let deepest = tip.unwrap_or(cut.to);
        let from_tailstock = matches!(
            tool,
            Tool::Drill { .. } | Tool::FlatDrill { .. } | Tool::Reamer { .. }
        );
        if from_tailstock {
            operation.peck = peck(dia, deepest);
            operation.tailstock = Some(self.tailstock(deepest));
        }
        self.hole_notes(operation, &cut, tool);
        self.holes.push(cut);
    }

    /// A hole right through stops where the other end's hole begins, or goes on till its
    /// full diameter is out.
    fn to_break_through(&self, cut: InsideCut) -> InsideCut {
        if !cut.through {
            return cut;
        }
        let length = self.feature_map.part.length;
        let wide = |hole: &&InsideCut| {
            hole.end != cut.end
                && !hole.from.is_positive()
                && hole.shape.widest() >= cut.shape.widest()
                && matches!(
                    hole.shape,
                    InsideShape::Drill { .. } | InsideShape::Bore { .. } | InsideShape::Ream { .. }
                )
        };
        let opened = self.holes.iter().filter(wide).map(|hole| hole.to).max();
        let to = match opened {
            Some(opened) => length - opened,
            None => length + BREAKS_THROUGH,
        };
        InsideCut { to, ..cut }
    }

    /// How deep a countersink goes until its cone reaches its diameter over the hole there is.
    fn cone_depth(&self, cut: &InsideCut) -> Option<Length> {
        let InsideShape::Countersink { dia, angle } = cut.shape else {
            return None;
        };
        let at_face = |hole: &&InsideCut| hole.end == cut.end && !hole.from.is_positive();
        let holes = self
            .holes
            .iter()
            .filter(at_face)
            .map(|hole| hole.shape.widest());
        let hole = holes.filter(|hole| *hole < dia).max().unwrap_or_default();
        let wider = (dia - hole).to_mm() / 2.0;
        Some(Length::mm(angle.cone_depth_mm(wider)))
    }

    fn hole_notes(&self, operation: &mut Operation, cut: &InsideCut, tool: Tool) {
        let within = self.holes.iter().any(|hole| {
            hole.end == cut.end && hole.shape.widest() < cut.shape.widest() && hole.to > cut.from
        });
        let soft = !self.metal_in((cut.end, cut.from, cut.to));
        if matches!(tool, Tool::Drill { .. }) && within && soft {
            operation.notes.push(Note::DubLips);
        }
        if matches!(tool, Tool::FlatDrill { .. }) {
            operation.notes.push(Note::FlatBottomed);
        }
        if cut.through {
            operation.notes.push(Note::BreaksThrough);
        }
        if operation.peck.is_some() {
            operation.notes.push(Note::LetCool);
        }
        let dia = cut.shape.widest();
        let opened = self.holes.iter().any(|hole| {
            let at_mouth = match hole.end == cut.end {
                true => !hole.from.is_positive(),
                false => hole.through,
            };
            at_mouth && hole.shape.widest() > dia
        });
        let coned = matches!(cut.shape, InsideShape::Countersink { .. });
        let narrows = |hole: &&InsideCut| hole.end == cut.end || hole.through;
        let mouth = self.holes.iter().filter(narrows);
        let mouth = mouth.filter(|it| !it.from.is_positive());
        let mouth = mouth.map(|it| it.shape.widest()).max();
        if let Some(mouth) = mouth.filter(|it| *it < dia && cut.from.is_positive()) {
            let depth = (dia - mouth).half();
            operation.notes.push(Note::FeedFromTouch { depth });
        } else if (opened || cut.from.is_positive()) && !coned {
            let stays_out = None;
            operation.notes.push(Note::ShankGoesHome { dia, stays_out });
        }
    }
}
