//! The bodies that a part is made up of: each piece of a glued stack is one of its own.

use super::shell::Shell;
use super::{Body, BrokenThrough, SolidForm};
use crate::colours;
use quillet_geometry::envelope::smallest;
use quillet_geometry::section::{Apothem, Flats};
use quillet_geometry::{Chain, Tag, put_in_order};
use quillet_model::{Filling, Part, Placement, Profiles, SideCut};

/// Nearer than this, ends lie at one station, mm.
const SAME_MM: f64 = 1e-6;

/// A part as bodies in their colours where it lies, metal as it is left with threads as plain cylinders of
/// equal volume. What is glued of several pieces is a body each, the glue between them too; a part that is
/// bought is one. None where its shape is not known.
///
/// # Errors
/// When a bore reaches the outside; its station on the axis of what is written.
pub fn bodies(part: &Part, name: &str, place: Placement) -> Result<Vec<Body>, BrokenThrough> {
    let mut bodies = turned(part, name, place)?;
    let (lacks, flats) = (left_out(part, SolidForm::Step), flats(part, place));
    for body in &mut bodies {
        body.left_out.clone_from(&lacks);
        body.flats.clone_from(&flats);
    }
    Ok(bodies)
}

/// What is cut of a part and is not in its bodies in a form: nothing that no lathe turns but flats, and those
/// not where it cannot be told what they leave.
pub fn left_out(part: &Part, form: SolidForm) -> Vec<&'static str> {
    let shown = shows_flats(part) && (form != SolidForm::Step || has_surfaces(part));
    let sides = part.sides().iter();
    let sides = sides.filter(|side| !(shown && side.kind.is_flat()));
    let mut lacks: Vec<&str> = sides.map(SideCut::called).collect();
    lacks.extend(part.circles().iter().map(|_| "pitch circle"));
    lacks.dedup();
    lacks
}

/// Whether the bodies of a part whose flats can be shown are known by their surfaces too.
fn has_surfaces(part: &Part) -> bool {
    let place = Placement {
        offset_mm: 0.0,
        reversed: false,
    };
    let flats = flats(part, place);
    turned(part, "", place).is_ok_and(|bodies| {
        let mut runs = bodies.iter().flat_map(|body| &body.runs);
        runs.all(|run| Shell::of(run, &flats).is_some())
    })
}

/// Whether the flats of a part can be shown: where all of its bodies, whichever is outside, are cut by
/// them alike, and none of them is cut through.
fn shows_flats(part: &Part) -> bool {
    let cut = |it: &&Profiles| !it.not_round.flats.is_empty();
    let Some(profiles) = part.profiles.as_ref().filter(cut) else {
        return false;
    };
    let metal = &profiles.metal;
    let sets = || profiles.not_round.flats.iter().map(|(_, set)| set);
    let straight = |set: &Flats| matches!(set.apothem, Apothem::Straight { .. });
    let alike = part.blanks().len() <= 1 || sets().all(straight);
    let mut floors = vec![metal.outer.clone()];
    floors.extend(sets().flat_map(|set| set.low(&metal.outer, Tag(0))));
    let solid = || {
        let least = smallest(&floors).into_iter();
        let each = part.bodies().into_iter().flat_map(|body| body.inner);
        let bores: Vec<Chain> = each.chain(metal.inner.iter().cloned()).collect();
        least
            .into_iter()
            .all(|least| Body::new("", &least, &bores).is_ok())
    };
    alike && solid()
}

/// The flats of a part where it lies.
fn flats(part: &Part, place: Placement) -> Vec<Flats> {
    if !shows_flats(part) {
        return Vec::new();
    }
    let sets = part.profiles.iter().flat_map(|it| &it.not_round.flats);
    let put = |set: &Flats| match place.reversed {
        true => set.reversed(place.offset_mm),
        false => set.moved(place.offset_mm),
    };
    sets.map(|(_, set)| put(set)).collect()
}

/// The bodies as they are turned.
fn turned(part: &Part, name: &str, place: Placement) -> Result<Vec<Body>, BrokenThrough> {
    let Some(profiles) = &part.profiles else {
        return Ok(Vec::new());
    };
    // Where a piece is nothing that stands by itself, the part is shown in one.
    if part.blanks().len() > 1
        && let Some(pieces) = pieces(part, name, place)
    {
        return Ok(pieces);
    }
    let metal = &profiles.metal;
    let body = placed(name, place, &metal.outer, &metal.inner)?;
    Ok(vec![body.coloured(colours::whole(part))])
}

fn pieces(part: &Part, name: &str, place: Placement) -> Option<Vec<Body>> {
    let mut bodies: Vec<Body> = Vec::new();
    for it in part.bodies() {
        let colour = colours::of(part, it.of);
        let named = format!("{name}, {}", words(part, it.of));
        let inner = joined(it.inner);
        for outer in joined(it.outer) {
            let (from, to) = (outer.start().z, outer.end().z);
            let within =
                |bore: &&Chain| bore.start().z > from - SAME_MM && bore.end().z < to + SAME_MM;
            let inner: Vec<Chain> = inner.iter().filter(within).cloned().collect();
            let body = placed(&named, place, &outer, &inner).ok()?;
            bodies.push(body.coloured(colour));
        }
    }
    (!bodies.is_empty()).then_some(bodies)
}

/// `piece 2, reed`; `glue of piece 2`.
fn words(part: &Part, of: Filling) -> String {
    match of {
        Filling::Glue(which) => format!("glue of piece {}", which.number()),
        Filling::Piece(which) => {
            let material = part.blanks().get(which).map(|it| &it.stock.material.name);
            match material {
                Some(material) => format!("piece {}, {material}", which.number()),
                None => format!("piece {}", which.number()),
            }
        }
    }
}

/// Chains of which one begins where another ends, as one.
fn joined(mut chains: Vec<Chain>) -> Vec<Chain> {
    put_in_order(&mut chains, |it| it.start().z);
    let mut out: Vec<Chain> = Vec::new();
    for chain in chains {
        let last = out
            .last()
            .filter(|it| (it.end().z - chain.start().z).abs() < SAME_MM);
        let both =
            last.and_then(|it| Chain::new(it.segments().iter().chain(chain.segments()).copied()));
        match both {
            Some(both) => {
                out.pop();
                out.push(both);
            }
            None => out.push(chain),
        }
    }
    out
}

/// A solid of revolution where it lies.
pub(super) fn placed(
    name: &str,
    place: Placement,
    outer: &Chain,
    inner: &[Chain],
) -> Result<Body, BrokenThrough> {
    let put = |chain: &Chain| match place.reversed {
        true => chain.reversed(place.offset_mm),
        false => chain.moved(place.offset_mm),
    };
    let mut inner: Vec<Chain> = inner.iter().map(put).collect();
    put_in_order(&mut inner, |it| it.start().z);
    Body::new(name, &put(outer), &inner)
}
