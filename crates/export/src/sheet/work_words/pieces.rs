//! What is done to the pieces of a blank before they are one.

use quillet_model::{Part, PieceId, Units};
use quillet_plan::Work;

/// What is done to a piece of the blank before all are one.
#[expect(
    clippy::too_many_lines,
    reason = "an arm an operation: it is read as a table"
)]
pub(super) fn piece(part: &Part, work: &Work, units: Units) -> String {
    let pieces = part.blanks();
    let piece = |index: PieceId| {
        let of = pieces
            .get(index)
            .map_or("blank", |piece| &piece.stock.material.name);
        match pieces.len() > 1 {
            true => format!("piece {} ({of})", index.number()),
            false => format!("the {of} blank"),
        }
    };
    match work {
        Work::Saw {
            piece: index,
            length,
        } => format!("saw {} to {}", piece(*index), units.plain(*length)),
        Work::FacePiece(face) => {
            let to = face.to.map_or_else(
                || "until clean".to_owned(),
                |to| format!("to station {}", units.plain(to)),
            );
            format!("face {} square for the joint, {to}", piece(face.piece))
        }
        Work::Socket {
            piece: index,
            dia,
            depth,
            leads,
        } => {
            let what = if *leads { "drill first for" } else { "bore" };
            format!(
                "{what} the socket in {}: Ø{}, {} deep",
                piece(*index),
                units.plain(*dia),
                units.plain(*depth)
            )
        }
        Work::Spigot {
            piece: index,
            dia,
            length,
        } => {
            format!(
                "turn the spigot of {}: Ø{} for {}",
                piece(*index),
                units.plain(*dia),
                units.plain(*length)
            )
        }
        Work::GlueUp {
            piece: index,
            gap,
            rubbed,
        } => {
            let rubbed = if *rubbed {
                ", its face rubbed flat on a plate"
            } else {
                ""
            };
            let gap = gap.map_or_else(String::new, |it| {
                format!(", gap {} on diameter", units.plain(it))
            });
            format!("glue {} to what is before it{gap}{rubbed}", piece(*index))
        }
        // Polished before it is glued: all else is done to the whole blank.
        _ => "sand and polish before it is glued".into(),
    }
}
