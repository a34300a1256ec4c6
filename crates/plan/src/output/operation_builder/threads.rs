//! Threads: tap, die or single point, how far, how fast, where they begin.

use super::OperationBuilder;
use crate::tools::speed::{SpeedClass, speed};
use crate::tools::toolbox::thread_tool;
use crate::{Depth, Note, Operation, PlanProblem, SinglePoint, ThreadCut, Threading};
use quillet_geometry::Length;
use quillet_model::{CutId, End};
use quillet_standards::thread::Hand;

impl OperationBuilder<'_, '_, '_> {
    pub(super) fn thread(
        &mut self,
        operation: &mut Operation,
        cut: ThreadCut,
        feature: Option<CutId>,
        problems: &mut Vec<PlanProblem>,
    ) {
        let form = cut.thread.thread;
        operation.tool = Some(thread_tool(&cut, feature, self.bench_tools, problems));
        let lead = match cut.method {
            Threading::Tap => Some(self.bench_tools.tap(&form).and_then(|it| it.lead)),
            Threading::Die => Some(self.bench_tools.die(&form).and_then(|it| it.lead)),
            Threading::SinglePoint => None,
        };
        // Where the lead-in is not said, three pitches: form C of DIN 2197.
        let lead = lead.map(|it| it.unwrap_or(form.pitch() * 3));
        operation.depth = Some(Depth {
            from: cut.end,
            to_corner: cut.to,
            to_point: lead.filter(|_| cut.inside).map(|lead| cut.to + lead),
        });
        operation.by_hand = cut.method != Threading::SinglePoint;
        if cut.method == Threading::SinglePoint {
            let around = (cut.end, cut.from, cut.to);
            self.single_point(operation, &cut, around);
            if form.starts() > 1 {
                operation.notes.push(Note::IndexStarts {
                    starts: form.starts(),
                    pitch: form.pitch(),
                    turn_deg: form.start_spacing().to_deg(),
                });
            }
        }
        let written = feature.and_then(|index| self.feature_map.part.features.get(index));
        if let Some(clockwise) = written.and_then(|it| it.clock) {
            operation.notes.push(Note::BeginsAt { clockwise });
        }
        if form.starts() > 1 && !cut.inside {
            operation.notes.push(Note::Clock {
                positions: form.starts(),
                per_ten_deg: Length::mm(form.lead_mm() * 10.0 / 360.0),
            });
        }
        if form.hand() == Hand::Left {
            operation.notes.push(Note::LeftHandThread);
        }
    }

    /// A single point is cut no faster than leaves time to stop.
    fn single_point(
        &self,
        operation: &mut Operation,
        cut: &ThreadCut,
        around: (End, Length, Length),
    ) {
        let found = SinglePoint::of(self.feature_map, cut, &self.holes);
        operation.single_point = Some(found);
        let major = cut.thread.thread.major();
        let quarter = speed(
            SpeedClass::Thread,
            major,
            self.materials(around),
            self.bench_tools.bench,
        );
        let lathe = self
            .bench_tools
            .bench
            .and_then(|bench| bench.lathe.as_ref());
        operation.speed = lathe
            .zip(quarter)
            .and_then(|(lathe, quarter)| found.on(lathe, &quarter));
        if operation.speed.is_none() {
            operation.notes.push(Note::ByCrank);
        }
    }
}
