//! How the work is held, in a maker's words.

use super::words::{gripper, letter};
use quillet_model::{Bench, Part, Units};
use quillet_plan::{Grip, TailSupport, Workholding};

/// How the work is held: `on mandrel A by the mouth, tail centre up`.
pub(super) fn hold(part: &Part, bench: Option<&Bench>, hold: Workholding, units: Units) -> String {
    match hold {
        Workholding::Bench => "at the bench".into(),
        Workholding::Pieces(held) => {
            let what = match held.from == held.to {
                true => format!("piece {} by itself", held.to.number()),
                false => format!(
                    "pieces {} to {}, glued, by piece {}",
                    held.from.number(),
                    held.to.number(),
                    held.gripped.number()
                ),
            };
            let rod = if held.on_rod {
                ", still on its rod and sawn off after"
            } else {
                ""
            };
            format!(
                "{what} in a collet or chuck of {}: {} gripped, {} standing out{rod}",
                units.plain(held.size),
                units.plain(held.grip),
                units.plain(held.overhang)
            )
        }
        Workholding::Centres => "between centres".into(),
        Workholding::Collet(grip) => collet(part, bench, &grip, units),
        Workholding::Mandrel(mount) => {
            let centre = tail(mount.tail);
            format!(
                "on mandrel {} by the {}{centre}",
                letter(mount.mandrel),
                part.end_name(mount.end)
            )
        }
        Workholding::Joined {
            collet,
            tail: support,
        } => format!(
            "joined with its mate, the nub in a collet of Ø{}{}",
            units.plain(collet),
            tail(support)
        ),
    }
}

/// What supports the far end.
fn tail(support: TailSupport) -> String {
    match support {
        TailSupport::Free => String::new(),
        TailSupport::Centre => ", tail centre up".into(),
        TailSupport::BullNose => ", a bull-nose centre in the mouth".into(),
        TailSupport::Plug(plug) => format!(", tail centre in plug {}", letter(plug)),
    }
}

fn collet(part: &Part, bench: Option<&Bench>, grip: &Grip, units: Units) -> String {
    format!(
        "in a {} of Ø{}: {} gripped, {} free, {} standing out",
        gripper(bench, grip.dia),
        units.plain(grip.dia),
        units.plain(grip.length()),
        part.end_name(grip.free),
        units.plain(grip.overhang)
    )
}
