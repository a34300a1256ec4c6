//! What opens a hole before it is cut to its size: pilots, the drill below a ream, a bore or a flat.

use super::{InsideTasks, contains, drill, rank};
use crate::id::TaskId;
use crate::tasks::task::Access;
use crate::{InsideCut, InsideShape, PlanProblem, Work};
use quillet_geometry::{Angle, Length};
use quillet_model::CutId;
use quillet_standards::drill::point_length;

/// Smaller holes need no centre of their own, and metal no pilot, below this.
const PILOT_FROM: Length = Length::from_nm(8_000_000);

/// A flat tool sunk no deeper than this needs no hole to lead it (common practice, no published
/// source).
const FLAT_ALONE: Length = Length::from_nm(1_000_000);

/// How far a leading drill's point stays above a flat bottom (common practice, no published source).
const ABOVE_FLAT: Length = Length::from_nm(300_000);

impl InsideTasks<'_, '_, '_> {
    /// A pilot of the drill's web for large holes in solid metal; resin would grab. Of several holes one
    /// pilot leads all: it is the narrowest's, and goes as deep as the deepest.
    pub(super) fn pilots(&mut self, centre: TaskId) {
        let led = self.led();
        let deep = |it: &&(InsideCut, TaskId)| (it.0.through, it.0.to);
        let Some((deepest, _)) = led.iter().max_by_key(deep).copied() else {
            return;
        };
        let narrowest = led.iter().map(|it| it.0.shape.widest()).min();
        let wanted = Length::mm((narrowest.unwrap_or_default().to_mm() * 4.0).round() / 10.0);
        let (Some(pilot), InsideShape::Drill { point, .. }) =
            (self.bench_tools.drill_up_to(wanted), deepest.shape)
        else {
            return;
        };
        let shape = drill(pilot, point);
        let from = led.iter().map(|it| it.0.from).min().unwrap_or(deepest.from);
        let cut = InsideCut {
            shape,
            from,
            ..deepest
        };
        let tasks: Vec<TaskId> = led.iter().map(|it| it.1).collect();
        self.helper(cut, &tasks, centre);
    }

    /// The drills that a pilot leads.
    fn led(&self) -> Vec<(InsideCut, TaskId)> {
        let solid = &self.cuts;
        let leads = |(cut, _): &&(InsideCut, TaskId)| {
            let InsideShape::Drill { dia, .. } = cut.shape else {
                return false;
            };
            let material = self.feature_map.part.material_in(
                self.feature_map.part.station(self.end, cut.from),
                Length::ZERO,
            );
            let metal = material
                .is_some_and(|it| it.kind.family() == quillet_standards::material::Family::Metal);
            let mut others = solid.iter().filter(|(other, _)| other != cut);
            metal
                && dia >= PILOT_FROM
                && !self.is_tube(cut)
                && !others.any(|(other, _)| contains(cut, other))
        };
        solid.iter().filter(leads).copied().collect()
    }

    /// Another cut opens all of this one, narrower than its least.
    fn is_open(&self, cut: &InsideCut, least: Length) -> bool {
        self.cuts.iter().any(|(other, _)| {
            other != cut
                && matches!(
                    other.shape,
                    InsideShape::Drill { .. } | InsideShape::Bore { .. }
                )
                && (cut.through || other.to >= cut.to)
                && other.shape.widest() < least
                || other.through && other != cut && other.shape.widest() < least
        })
    }

    /// Whether a cut widens a tube, which brings the hole that leads it.
    fn is_tube(&self, cut: &InsideCut) -> bool {
        let bore = self.feature_map.part.tube().and_then(|it| it.tube_bore());
        bore.is_some_and(|bore| bore < cut.shape.widest())
    }

    /// A hole for a boring bar or reamer to start in, where no written cut makes one.
    pub(super) fn open(
        &mut self,
        feature: CutId,
        cut: InsideCut,
        centre: TaskId,
        problems: &mut Vec<PlanProblem>,
    ) {
        let Some(&(_, task)) = self.cuts.iter().find(|it| it.0 == cut) else {
            return;
        };
        let (least, allowance_mm) = match cut.shape {
            InsideShape::Bore { dia } => (dia, 0.5),
            InsideShape::Ream { dia } => (dia, 0.2),
            InsideShape::Taper { from_dia, to_dia } => (from_dia.min(to_dia), 0.2),
            InsideShape::Recess { dia } => (dia, 0.0),
            InsideShape::Drill { .. } | InsideShape::Countersink { .. } => return,
        };
        let larger_first = |other: &InsideCut| {
            matches!(other.shape, InsideShape::Drill { .. }) && other.to >= cut.from
        };
        if self.is_open(&cut, least) || self.is_tube(&cut) {
            return;
        }
        if matches!(cut.shape, InsideShape::Recess { .. }) {
            if !self
                .cuts
                .iter()
                .any(|(other, _)| other != &cut && larger_first(other))
            {
                problems.push(PlanProblem::NoOrder {
                    feature: Some(feature),
                    why: crate::Unschedulable::NoWayIn,
                });
            }
            return;
        }
        // A flat drill has no point to lead it.
        let by_bar = self.bench_tools.bar(least, cut.to).is_some();
        if matches!(cut.shape, InsideShape::Bore { .. }) && !by_bar && !cut.from.is_positive() {
            self.before_flat(cut, task, centre);
            return;
        }
        let under = Length::mm(least.to_mm() - allowance_mm);
        let Some(dia) = self
            .bench_tools
            .drill_up_to(under)
            .filter(|dia| dia.is_positive())
        else {
            return;
        };
        let point = Angle::deg(118.0);
        let tip = point_length(dia, point);
        let to = if cut.through {
            cut.to
        } else {
            cut.to - tip - Length::mm(0.1)
        };
        if to.is_positive() {
            let opening = InsideCut {
                from: Length::ZERO,
                to,
                shape: drill(dia, point),
                ..cut
            };
            self.helper(opening, &[task], centre);
        }
    }

    /// A flat tool deeper than a millimetre is led by a hole: where there is none of three fifths of
    /// its size, by the largest drill of nine tenths, whose cone ends above the flat bottom (common
    /// practice, no published source).
    fn before_flat(&mut self, cut: InsideCut, task: TaskId, centre: TaskId) {
        let dia = cut.shape.widest();
        if cut.to <= FLAT_ALONE {
            return;
        }
        let leads = |other: &InsideCut| {
            let (wide, point) = match other.shape {
                InsideShape::Drill { dia, point, .. } => (dia, point_length(dia, point)),
                InsideShape::Bore { dia } | InsideShape::Ream { dia } => (dia, Length::ZERO),
                _ => return false,
            };
            let reach = other.to + point + FLAT_ALONE;
            wide < dia && wide.ratio(dia) >= 0.6 && (other.through || reach >= cut.to)
        };
        if self.cuts.iter().any(|(other, _)| leads(other)) {
            return;
        }
        let most = Length::mm((dia.to_mm() * 9.0).floor() / 10.0);
        let Some(pilot) = self
            .bench_tools
            .drill_up_to(most)
            .filter(|it| it.is_positive())
        else {
            return;
        };
        let point = Angle::deg(118.0);
        let to = cut.to - point_length(pilot, point) - ABOVE_FLAT;
        if to.is_positive() {
            let shape = drill(pilot, point);
            self.helper(InsideCut { to, shape, ..cut }, &[task], centre);
        }
    }

    fn helper(&mut self, cut: InsideCut, before: &[TaskId], centre: TaskId) {
        let task = self.tasks.put(
            Work::Inside(cut),
            Access::End(self.end),
            rank(self.stage, &cut),
            vec![centre],
        );
        for later in before {
            self.tasks.before(task, *later);
        }
        self.cuts.push((cut, task));
    }
}
