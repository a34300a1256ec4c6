//! A stop comes after all its mate touches, and when there is a mate to try.

use super::Lathe;
use quillet_geometry::Length;
use quillet_model::End;
use quillet_plan::{TrialFit, Work};

impl Lathe<'_> {
    /// Nothing is cut after a stop that its mate touched or passed.
    pub(super) fn check_tried(&mut self, work: &Work) {
        let length = self.part().length;
        let later = |end: End, inside: bool, (a, b): (Length, Length)| {
            self.tried.iter().any(|(at, tried_inside, depth)| {
                let near = if *at == end { a } else { length - b };
                *tried_inside == inside && near < *depth
            })
        };
        let spoils = match work {
            Work::Inside(cut) => later(cut.end, true, (cut.from, cut.to)),
            Work::Thread(cut) => later(cut.end, cut.inside, (cut.from, cut.to)),
            Work::Turn(cut) => later(cut.end, false, (cut.from, cut.to)),
            _ => false,
        };
        if spoils {
            self.report("a mate was tried before this was cut");
        }
        if let Work::Try(gate) = work {
            self.tried.push((gate.end, !gate.goes_in, gate.depth));
            self.check_mate(gate);
        }
    }

    /// What is tried is bought, made already, or copied by a mandrel.
    fn check_mate(&mut self, gate: &TrialFit) {
        if gate.bought {
            return;
        }
        let own = &self.part().name.text;
        let there = match gate.copy {
            true => self.plan.mandrels.iter().any(|made| {
                let serves = |it: &(_, End)| it.0 == *own && it.1 == gate.end;
                made.copy_of.as_ref().is_some_and(|it| it.0 == gate.mate)
                    && made.serves.iter().any(serves)
            }),
            false => {
                let before = |it: &&quillet_plan::Route| it.part.name.text != *own;
                let mut made = self.plan.routes.iter().take_while(before);
                made.any(|it| it.part.name.text == gate.mate)
            }
        };
        if !there {
            self.report(format!("there is no {} to try yet", gate.mate));
        }
    }
}
