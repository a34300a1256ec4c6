//! Every wall of a sample against the worst that is stated.

use super::Tally;
use quillet_check::{Role, Wall, walls};
use quillet_geometry::Length;
use quillet_model::{Part, PartId, Pen};

/// A part's walls as drawn, each with what is left of it at worst.
type Stated = Vec<(PartId, Vec<(Wall, Length)>)>;

/// The worst cases of the walls of all parts that are cut.
pub(super) fn stated(pen: &Pen) -> Stated {
    let cut = pen.parts.with_ids().filter(|(_, part)| !part.is_bought());
    let each = cut.map(|(id, part)| {
        let worst = |wall: Wall| (wall, wall.worst(part, &pen.hands[id]));
        (id, told(part).map(worst).collect())
    });
    each.collect()
}

/// Every wall of every part is compared with the worst that is stated between its two surfaces, and
/// with the least that is stated of its part.
pub(super) fn compare(tally: &mut Tally, pen: &Pen, stated: &Stated, made: &Pen) {
    for (id, stated) in stated {
        for it in told(&made.parts[*id]) {
            let surfaces = |wall: &Wall| (wall.outer, wall.inner, wall.role == Role::End);
            let same = stated
                .iter()
                .find(|(wall, _)| surfaces(wall) == surfaces(&it));
            let least = stated.iter().min_by_key(|(_, worst)| *worst);
            for (wall, worst) in same.into_iter().chain(least) {
                let found = (it.least.to_mm(), worst.to_mm(), SLACK_MM);
                let name = || &pen.parts[*id].name.text;
                tally.hold(found, || {
                    format!("{}: {worst:?} {wall:#?}\n{it:#?}", name())
                });
            }
        }
    }
}

/// What lies further apart than to the axis is no wall.
fn told(part: &Part) -> impl Iterator<Item = Wall> {
    let told = |wall: &Wall| wall.role == Role::End || wall.least <= wall.outer_dia.half();
    walls(part).into_iter().filter(told)
}

/// Places and walls are kept to the nanometre.
const SLACK_MM: f64 = 2e-6;
