//! A design that is checked again and again, each time with a little of it changed.

use crate::findings::RaisedFinding;
use crate::walls::Wall;
use quillet_model::{Bench, Design, Part, PartId, Pen};
use quillet_syntax::Span;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What was found of each part of a design, kept for those that are the very same when it is checked
/// again: the same part at the same bench, joined as before to the same others.
#[derive(Debug, Default)]
pub struct KnownParts {
    parts: BTreeMap<Around, Vec<RaisedFinding>>,
    /// The walls of each part by its address: they are the same whatever it is joined to.
    walls: BTreeMap<usize, Arc<[Wall]>>,
    /// The design that they are of: keeps every address that is known in use.
    _held: Design,
}

/// All that the rules of a part look at, by its address; nothing goes by the order of these.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Around {
    part: usize,
    bench: Option<usize>,
    /// Each joint, whether it closes, and the parts it joins and traps.
    joints: Vec<(Span, bool, Vec<usize>)>,
}

impl Around {
    pub(crate) fn of(pen: &Pen, index: PartId, bench: Option<&Bench>) -> Self {
        let joints = pen.joints.iter().zip(&pen.assembly.joints);
        let address = |it: PartId| Some(Arc::as_ptr(pen.parts.get(it)?).addr());
        let joints = joints.filter_map(|(joint, rest)| {
            let ends = [joint.male.part, joint.female.part];
            let parts = ends.iter().chain(&joint.through).copied();
            parts.clone().any(|it| it == index).then(|| {
                let addresses = parts.filter_map(address).collect();
                (joint.head, rest.verdict.closes(), addresses)
            })
        });
        Around {
            part: Arc::as_ptr(&pen.parts[index]).addr(),
            bench: bench.map(|it| std::ptr::from_ref(it).addr()),
            joints: joints.collect(),
        }
    }
}

impl KnownParts {
    /// The same, with the design whose parts were noted.
    pub(crate) fn holding(self, design: Design) -> Self {
        KnownParts {
            _held: design,
            ..self
        }
    }

    /// Notes what was found of a part.
    pub(crate) fn note(&mut self, around: Around, found: &[RaisedFinding]) {
        self.parts.insert(around, found.to_vec());
    }

    /// Notes what was worked out of a part.
    pub(crate) fn note_walls(&mut self, part: &Arc<Part>, walls: Arc<[Wall]>) {
        self.walls.insert(Arc::as_ptr(part).addr(), walls);
    }

    pub(crate) fn walls(&self, part: &Arc<Part>) -> Option<&Arc<[Wall]>> {
        self.walls.get(&Arc::as_ptr(part).addr())
    }

    pub(crate) fn get(&self, around: &Around) -> Option<&[RaisedFinding]> {
        self.parts.get(around).map(Vec::as_slice)
    }
}
