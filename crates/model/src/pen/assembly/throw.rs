//! The pen with what its mechanisms throw drawn back.

use super::group::Groups;
use crate::{ById, End, JointId, PartId, Pen, Throw};

/// Moves what goes into the end of a mechanism further in by what that throws, with all that is joined
/// to it otherwise; whether anything moved. `placing` tells the joints that place their parts, and
/// springs stay where they stand.
pub(super) fn draw_back(pen: &Pen, groups: &mut Groups, placing: &ById<JointId, bool>) -> bool {
    let mut moved = false;
    for (index, joint) in pen.joints.with_ids().filter(|it| placing[it.0]) {
        let mechanism = joint.female;
        let throws = pen.parts[mechanism.part].throws();
        let thrown = |it: &&Throw| it.from == mechanism.end;
        let Some(throw) = throws.iter().find(thrown) else {
            continue;
        };
        let place = groups.place(mechanism.part);
        // Inward from a first end stations rise, from a second they fall.
        let along = place.reversed != (mechanism.end == End::Second);
        let by_mm = throw.travel.to_mm() * if along { -1.0 } else { 1.0 };
        for part in going_along(pen, index, placing) {
            groups.shift(part, by_mm);
            moved = true;
        }
    }
    moved
}

/// What goes in by a joint, with all that hangs on it by other joints.
fn going_along(pen: &Pen, thrown: JointId, placing: &ById<JointId, bool>) -> Vec<PartId> {
    let mut with = vec![pen.joints[thrown].male.part];
    let mut next = 0;
    while let Some(part) = with.get(next).copied() {
        next += 1;
        let ties = pen.joints.with_ids();
        let ties = ties.filter(|(index, _)| *index != thrown && placing[*index]);
        for (_, joint) in ties {
            let pair = [joint.male.part, joint.female.part];
            let other = match pair {
                [one, other] if one == part => other,
                [other, one] if one == part => other,
                _ => continue,
            };
            if !with.contains(&other) {
                with.push(other);
            }
        }
    }
    with
}
