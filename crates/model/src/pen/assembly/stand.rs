//! What stands in a stand: the pen closed, or open where it stands on its writing end.

use super::group::Groups;
use crate::{Joint, Pen};
use quillet_syntax::ast::Verb;

/// The parts as they lie when a joint that does not last is made: for a stand those of the closed pen,
/// but where what goes in would be under the cap; for all else those of the open one.
pub(super) fn taken<'g>(
    pen: &Pen,
    open: &'g Groups,
    joint: &Joint,
    closed: Option<&'g Groups>,
) -> &'g Groups {
    let cap = pen.joints.iter().find(|it| it.verb == Verb::Close);
    let (Some(closed), Some(cap)) = (closed.filter(|_| joint.verb == Verb::Rest), cap) else {
        return open;
    };
    let (body, stands) = (cap.second(), joint.first());
    if !open.joined(body.part, stands.part) {
        return closed;
    }
    // The end that the cap goes onto looks the way that the writing point does.
    let looks = |end: crate::JointEnd| {
        let reversed = open.place(end.part).reversed;
        reversed != (end.end == crate::End::Second)
    };
    if looks(body) == looks(stands) {
        open
    } else {
        closed
    }
}
