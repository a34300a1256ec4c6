//! What is left between parts that do not touch.

use super::contact::{Member, Met, meetings};
use super::settle::{Bodies, Settled};
use super::throat::{Reach, Side, Throat, throat};
use super::tolerance::{NIB_MM, tolerance};
use super::{Place, Spot, TOUCHING_MM};
use crate::{Cut, Origin};

/// A clearance between a place of a male and a place of a female, as drawn and at worst.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// Which way it is measured.
    pub kind: ClearanceKind,
    /// The place on what goes in.
    pub male: Spot,
    /// The place on what receives it.
    pub female: Spot,
    /// As drawn, mm.
    pub nominal_mm: f64,
    /// With every size at its worst, mm.
    pub least_mm: f64,
}

/// Which way a clearance is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClearanceKind {
    /// Along the axis: how much further the one could go before these two touch.
    Ahead,
    /// Along the axis, from the foremost of the male to where a drilled hole stops being full
    /// diameter.
    Corner,
    /// Across the axis: the narrowest that the one passes on its way in, on the radius.
    Throat,
}

impl ClearanceKind {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            ClearanceKind::Ahead => "ahead",
            ClearanceKind::Corner => "corner",
            ClearanceKind::Throat => "throat",
        }
    }
}

/// Further than this, mm, nobody asks how much further a part could go.
const FAR_MM: f64 = 15.0;
/// Wider than this, mm on the radius, nobody asks whether it passes.
const WIDE_MM: f64 = 3.0;

/// Nothing is pressed further than this, mm on the radius.
const MOST_PRESSED_MM: f64 = 0.5;

/// Every clearance of a joint at rest, tightest first within each kind.
pub(crate) fn all(bodies: &Bodies, rest: &Settled) -> Vec<Clearance> {
    let mut found = Vec::new();
    for male in &rest.males {
        for female in &rest.females {
            let trapped = rest.trapped.iter().any(|it| it.part == female.part);
            if trapped && bodies.parts[female.part].length_free > bodies.parts[female.part].length {
                continue;
            }
            found.extend(ahead(bodies, rest, male, female));
            found.extend(passing(bodies, rest, male, female));
        }
    }
    let front = |member: &Member| {
        member
            .plain
            .pieces
            .iter()
            .map(|it| it.to_z)
            .fold(f64::NEG_INFINITY, f64::max)
    };
    if let Some(tip) = rest
        .males
        .iter()
        .max_by(|a, b| front(a).total_cmp(&front(b)))
    {
        found.extend(
            rest.females
                .iter()
                .filter_map(|female| corner(bodies, rest, tip, female)),
        );
    }
    found.sort_by(|a, b| {
        a.kind
            .cmp(&b.kind)
            .then(a.nominal_mm.total_cmp(&b.nominal_mm))
    });
    found
}

/// What these two would touch next, beyond what touches already.
fn ahead(bodies: &Bodies, rest: &Settled, male: &Member, female: &Member) -> Option<Clearance> {
    let pair = (std::slice::from_ref(male), std::slice::from_ref(female));
    let met = meetings(bodies.parts, pair.0, pair.1, rest.own, FAR_MM);
    let near = |it: &&Met| it.travel_mm > TOUCHING_MM && it.travel_mm < FAR_MM;
    let next = met.iter().find(near)?;
    let (one, other) = (next.touch.male, next.touch.female);
    Some(axial(
        bodies,
        rest,
        ClearanceKind::Ahead,
        one,
        other,
        next.travel_mm,
    ))
}

/// From the foremost of what goes in to where a blind hole stops being full diameter.
fn corner(bodies: &Bodies, rest: &Settled, male: &Member, female: &Member) -> Option<Clearance> {
    let part = &bodies.parts[female.part];
    let tip = male
        .plain
        .pieces
        .iter()
        .max_by(|a, b| a.to_z.total_cmp(&b.to_z))?;
    let at = tip.curve.end().z.max(tip.curve.start().z);
    let point = female
        .plain
        .pieces
        .iter()
        .find_map(|piece| match piece.origin {
            Origin::DrillPoint(index) if piece.from_z > 0.0 && piece.least_r < 1e-6 => {
                Some((piece, index))
            }
            _ => None,
        })?;
    let (piece, index) = point;
    let Cut::Drill { dia, .. } = part.features.get(index)?.cut else {
        return None;
    };
    let gap = piece.from_z - at;
    if piece.most_r < dia.to_mm() / 2.0 - 1e-6 || !(-FAR_MM..FAR_MM).contains(&gap) {
        return None;
    }
    let spot = |member: &Member, origin, z: f64, radius_mm| Spot {
        part: member.part,
        origin,
        station_mm: member.place.station(z),
        radius_mm,
    };
    let tip_r = tip.curve.end().r.min(tip.curve.start().r);
    let male = spot(male, tip.origin, at, tip_r);
    let female = spot(female, Origin::Feature(index), piece.from_z, piece.most_r);
    Some(axial(
        bodies,
        rest,
        ClearanceKind::Corner,
        male,
        female,
        gap,
    ))
}

fn axial(
    bodies: &Bodies,
    rest: &Settled,
    kind: ClearanceKind,
    male: Spot,
    female: Spot,
    nominal_mm: f64,
) -> Clearance {
    let of = |spot: &Spot| tolerance(&bodies.parts[spot.part], spot).axial_mm;
    let nib = [&male, &female]
        .into_iter()
        .any(|spot| rest.carries(spot.part) && bodies.is_nib(spot.part));
    let worst = of(&male).max(of(&female)) + if nib { NIB_MM } else { 0.0 };
    Clearance {
        kind,
        male,
        female,
        nominal_mm,
        least_mm: nominal_mm - worst,
    }
}

/// The narrowest that the one passes on its way into the other. Parts that only go with the
/// joint's own two may lie the other way round: a converter that is pushed onto a heel goes into
/// the section that carries it.
fn passing(bodies: &Bodies, rest: &Settled, male: &Member, female: &Member) -> Option<Clearance> {
    if male.plain.to_z <= female.plain.from_z {
        return None;
    }
    let (found, (male, female)) = match male.own && female.own {
        true => (own_throat(bodies, rest, male, female)?, (male, female)),
        false => {
            let into = |it: &Member, other: &Member, way: fn(Place) -> Place| {
                let female = (&*other.plain.radii, way(other.place));
                throat((&it.plain.radii, way(it.place)), female, &[])
            };
            let ahead = into(male, female, |place| place).map(|it| (it, (male, female)));
            match ahead.filter(|it| it.0.gap_mm >= 0.0) {
                Some(fits) => fits,
                None => {
                    let back = into(female, male, Place::mirrored);
                    let back = back.map(|it| (it, (female, male)));
                    let wider = |a: (Throat, _), b: (Throat, _)| {
                        if b.0.gap_mm > a.0.gap_mm { b } else { a }
                    };
                    ahead.into_iter().chain(back).reduce(wider)?
                }
            }
        }
    };
    // Where neither goes into the other, nothing passes.
    if !(-MOST_PRESSED_MM..=WIDE_MM).contains(&found.gap_mm) {
        return None;
    }
    let spot = |member: &Member, side: &Side| Spot {
        part: member.part,
        origin: bodies.origin(member.part, side.tag),
        station_mm: side.station_mm,
        radius_mm: side.radius_mm,
    };
    let (male, female) = (spot(male, &found.male), spot(female, &found.female));
    let of = |spot: &Spot| tolerance(&bodies.parts[spot.part], spot).radial_mm;
    Some(Clearance {
        kind: ClearanceKind::Throat,
        male,
        female,
        nominal_mm: found.gap_mm,
        least_mm: found.gap_mm - of(&male) - of(&female),
    })
}

/// The tightest place of the joint's own two parts, threads passing the threads that match them.
pub(super) fn own_throat(
    bodies: &Bodies,
    rest: &Settled,
    male: &Member,
    female: &Member,
) -> Option<Throat> {
    let outlines = match male.cored.as_ref().zip(female.cored.as_ref()) {
        Some((one, other)) => vec![(one, &female.plain), (&male.plain, other)],
        None => vec![(&male.plain, &female.plain)],
    };
    let threads = threads(bodies, rest, male, female);
    let found = outlines.into_iter().filter_map(|(one, other)| {
        let female = (&*other.radii, female.place);
        throat((&one.radii, male.place), female, &threads)
    });
    found.reduce(|a, b| if b.gap_mm < a.gap_mm { b } else { a })
}

/// From where to where the threads lie that match in these two: a thread has its own play in the
/// thread that matches it.
pub(crate) fn threads(
    bodies: &Bodies,
    rest: &Settled,
    male: &Member,
    female: &Member,
) -> Vec<(Reach, Reach)> {
    if !(male.own && female.own) {
        return Vec::new();
    }
    let reach = |member: &Member, feature: usize| -> Reach {
        let part = &bodies.parts[member.part];
        let (from, to) = part.features[feature].stations(part.length);
        let (a, b) = (member.place.of(from.to_mm()), member.place.of(to.to_mm()));
        (a.min(b), a.max(b))
    };
    let mated = rest.mated.iter();
    mated
        .map(|it| (reach(male, it.male), reach(female, it.female)))
        .collect()
}
