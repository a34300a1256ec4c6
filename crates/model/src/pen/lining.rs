//! What is joined into a part before its outside is turned.

use super::{Joint, JointEnd, Pen};
use crate::{AtRest, End, JointId, PartId, Placement};
use quillet_geometry::Length;

/// A part that lies wholly within another, into which it is joined before that one is turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lining {
    /// The joint that brings it in.
    pub joint: JointId,
    /// The part.
    pub part: PartId,
    /// Which of its ends is level with each end of the part around it.
    pub ends: [Option<End>; 2],
}

/// Faces nearer than this are level, mm.
const LEVEL_MM: f64 = 1e-3;

impl Pen {
    /// What lines a part when its outside is turned, in the order in which it goes in: what another
    /// stops on first, else by name.
    pub fn linings(&self, around: PartId) -> Vec<Lining> {
        let joints = self.joints.with_ids();
        let own = joints.filter(|(_, joint)| joint.female.part == around);
        let mut left: Vec<Lining> = own.filter_map(|(id, _)| self.lining(id)).collect();
        left.sort_by_key(|it| &self.parts[it.part].name.text);
        let mut lined = Vec::new();
        while !left.is_empty() {
            let waits = |it: &Lining| left.iter().any(|on| self.stops_on(it, on.part));
            let next = left.iter().position(|it| !waits(it)).unwrap_or(0);
            lined.push(left.remove(next));
        }
        lined
    }

    /// What a joint made before turning brings; none where it stands out of the part around it, so
    /// that the outsides of both are one.
    pub fn lining(&self, id: JointId) -> Option<Lining> {
        let joint = self
            .joints
            .get(id)
            .filter(|it| it.before_turning.is_some())?;
        let rest = self.assembly.joints.get(id).filter(|it| !it.redundant)?;
        let [inner, outer] = places(joint, rest)?;
        let (part, around) = (&self.parts[joint.male.part], &self.parts[joint.female.part]);
        let station = |end: End| {
            let at = part.station(end, Length::ZERO).to_mm();
            outer.station(inner.of(at))
        };
        let length = around.length.to_mm();
        let within = |end: End| (-LEVEL_MM..=length + LEVEL_MM).contains(&station(end));
        let both = [End::First, End::Second];
        let level = |end: End| {
            let face = around.station(end, Length::ZERO).to_mm();
            let near = |own: &End| (station(*own) - face).abs() <= LEVEL_MM;
            both.into_iter().find(near)
        };
        both.into_iter().all(within).then(|| Lining {
            joint: id,
            part: joint.male.part,
            ends: both.map(level),
        })
    }

    /// The part whose outside is that of the work at a part's end: itself, or what it lines and is level
    /// with there.
    pub fn around(&self, side: JointEnd) -> JointEnd {
        let mut joints = self.joints.with_ids();
        let outer = joints.find_map(|(id, joint)| {
            let own = joint.male.part == side.part;
            let lining = own.then(|| self.lining(id)).flatten()?;
            let both = [End::First, End::Second];
            let level = |end: &End| lining.ends[end.index()] == Some(side.end);
            let end = both.into_iter().find(level)?;
            Some(JointEnd {
                part: joint.female.part,
                end,
                ..side
            })
        });
        outer.map_or(side, |it| self.around(it))
    }

    fn stops_on(&self, lining: &Lining, other: PartId) -> bool {
        let rest = self.assembly.joints.get(lining.joint);
        let mut touches = rest.into_iter().flat_map(|it| &it.touches);
        lining.part != other && touches.any(|it| it.female.part == other)
    }
}

/// Where the two parts of a joint lie on its axis: what goes in, and what receives it.
fn places(joint: &Joint, rest: &AtRest) -> Option<[Placement; 2]> {
    let male = rest.males.iter().find(|it| it.0 == joint.male.part)?;
    let female = rest.females.iter().find(|it| it.0 == joint.female.part)?;
    Some([male.1, female.1])
}
