//! The air round the nib of a closed pen, what seals it, and what pumps it.

use super::contact::{Member, OwnContact};
use super::radial_clearance::{Reach, tight};
use super::settle::{Bodies, SeatedJoint};
use super::{SurfacePoint, Touch};
use crate::{Origin, PartId, SideId, Solid};
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::side::Floor;
use quillet_geometry::{Chain, Point, Properties, Tag, put_in_order};

/// The space round the nib when the pen is closed.
#[derive(Clone, Debug, PartialEq)]
pub struct Air {
    /// Its volume, mm³: the cap's bore beyond the seal, less all that stands in it.
    pub volume_mm3: f64,
    /// The ring of contact that seals it; none where nothing does.
    pub seal: Option<Touch>,
    /// The cap is open at its far end.
    pub open_ended: bool,
    /// The hole or slot from the side that lets air in and out; none where there is none.
    pub vent: Option<Vent>,
    /// Where body and cap fit so closely that the one pumps in the other while it is drawn off.
    pub pistons: Vec<Piston>,
}

/// A cut from the side that opens the space round the nib.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Vent {
    /// The part that is cut open.
    pub part: PartId,
    /// The cut.
    pub cut: SideId,
    /// Something sits in it, as a clip does: how that is bedded says whether air passes.
    pub filled: bool,
}

impl Vent {
    /// Whether nothing sits in it.
    fn is_open(self) -> bool {
        !self.filled
    }
}

impl Air {
    /// Whether nothing stands in the way of the air through a side of what covers the nib.
    pub fn is_vented(&self) -> bool {
        self.vent.is_some_and(Vent::is_open)
    }
}

/// A close fit along a stretch: while it lasts, drawing the cap off draws air, and ink.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piston {
    /// The place on what goes in.
    pub male: SurfacePoint,
    /// The place on what receives it.
    pub female: SurfacePoint,
    /// For how far the fit lasts while the cap is drawn, mm.
    pub stroke_mm: f64,
    /// The bore's radius, mm.
    pub radius_mm: f64,
}

impl Piston {
    /// How much the free volume grows while the fit lasts, as a share of it.
    pub fn share(&self, air: &Air) -> f64 {
        let swept = std::f64::consts::PI * self.radius_mm.powi(2) * self.stroke_mm;
        if air.volume_mm3 > 0.0 {
            swept / air.volume_mm3
        } else {
            f64::INFINITY
        }
    }
}

/// The air of a cap joint at rest; the cap may be the female or the male.
pub(super) fn round_the_nib(bodies: &Bodies, rest: &SeatedJoint) -> Air {
    let seals = |touch: &&Touch| {
        let of_nib = [touch.male.part, touch.female.part]
            .map(Some)
            .contains(&bodies.nib);
        !of_nib && rest.own == OwnContact::Counts
    };
    let seal = rest.touches.iter().find(seals).copied();
    let from = seal.map_or(0.0, |touch| {
        let member = rest.females.iter().find(|it| it.part == touch.female.part);
        member
            .map_or(0.0, |it| it.place.of(touch.female.station_mm))
            .max(0.0)
    });
    let (volume_mm3, open_ended) = room(bodies, rest, from);
    let vent = vent(bodies, rest, from);
    Air {
        volume_mm3,
        seal,
        open_ended,
        vent,
        // What is open to the outside is not pumped.
        pistons: match vent.is_some_and(Vent::is_open) {
            false => pistons(bodies, rest),
            true => Vec::new(),
        },
    }
}

/// What opens the outermost part from its side beyond a depth on the joint's axis: first what
/// nothing sits in.
fn vent(bodies: &Bodies, rest: &SeatedJoint, from: f64) -> Option<Vent> {
    let outside = |it: &Member, z_mm: f64| {
        let profiles = bodies.parts[it.part].profiles.as_ref()?;
        profiles.crest.outer.greatest_at(it.place.station(z_mm))
    };
    let vents = rest.females.iter().flat_map(|member| {
        let part = &bodies.parts[member.part];
        let openings = part.profiles.iter().flat_map(|it| &it.not_round.openings);
        openings.filter_map(move |(id, cut)| {
            let z_mm = member.place.of((cut.from_mm + cut.to_mm) / 2.0);
            let own = outside(member, z_mm).unwrap_or(0.0);
            let around = rest.females.iter().filter_map(|it| outside(it, z_mm));
            let opens = z_mm > from
                && !matches!(cut.floor, Floor::Plane(_))
                && around.fold(0.0, f64::max) <= own;
            let filled = part.side(*id).is_some_and(|it| it.around.takes.is_some());
            let vent = Vent {
                part: member.part,
                cut: *id,
                filled,
            };
            opens.then_some(vent)
        })
    });
    vents.min_by_key(|it| it.filled)
}

/// The room in the females from a depth on, less the males, mm³; and whether it has no end. Threads
/// by the cylinders of their equal volumes: crest against crest would be less than nothing where
/// they are engaged.
fn room(bodies: &Bodies, rest: &SeatedJoint, from: f64) -> (f64, bool) {
    let far = rest
        .females
        .iter()
        .map(|it| it.plain().foremost_z())
        .fold(from, f64::max);
    let bores: Vec<Chain> = rest
        .females
        .iter()
        .flat_map(|it| bores(bodies, it, from, far))
        .collect();
    // The narrowest of all that lie there; beyond the first bottom there is other air.
    let open = smallest(&bores);
    let Some(room) = open.iter().find(|it| it.start().z <= from + 1e-6) else {
        return (0.0, false);
    };
    let bottom = room
        .segments()
        .iter()
        .find(|it| it.curve.end().r < 1e-6 || it.curve.start().r < 1e-6)
        .map(|it| it.curve.end().z);
    let open_ended = bottom.is_none();
    let bottom = bottom.unwrap_or(room.end().z);
    let Some(room) = room.between(from, bottom) else {
        return (0.0, open_ended);
    };
    let outsides: Vec<Chain> = rest
        .males
        .iter()
        .filter_map(|it| Some(placed(&metal(bodies, it)?.outer, it)))
        .filter_map(|chain| chain.between(from, bottom))
        .collect();
    let taken = greatest(&outsides, from, bottom);
    (
        Properties::between([&room], &taken).volume_mm3.max(0.0),
        open_ended,
    )
}

/// A female's bores on the joint's axis, its solid stretches as bores of nothing.
fn bores(bodies: &Bodies, member: &Member, from: f64, far: f64) -> Vec<Chain> {
    let Some(metal) = metal(bodies, member) else {
        return Vec::new();
    };
    let outer = placed(&metal.outer, member);
    let (start, end) = (outer.start().z, outer.end().z);
    let mut open: Vec<Chain> = metal
        .inner
        .iter()
        .map(|chain| placed(chain, member))
        .collect();
    put_in_order(&mut open, |it| it.start().z);
    let mut reached = start.max(from);
    let mut found = Vec::new();
    let solid =
        |a: f64, b: f64| Chain::polyline(Tag::default(), &[Point::new(a, 0.0), Point::new(b, 0.0)]);
    for bore in open {
        let (a, b) = (bore.start().z, bore.end().z);
        if a > reached + 1e-6 {
            found.extend(solid(reached, a));
        }
        reached = reached.max(b);
        found.extend(bore.between(from, far));
    }
    if end > reached + 1e-6 {
        found.extend(solid(reached, end));
    }
    found
}

fn metal<'b>(bodies: &'b Bodies, member: &Member) -> Option<&'b Solid> {
    let profiles = bodies.parts[member.part].profiles.as_ref()?;
    Some(&profiles.metal)
}

fn placed(chain: &Chain, member: &Member) -> Chain {
    match member.place.reversed {
        false => chain.moved(member.place.offset_mm),
        true => chain.reversed(member.place.offset_mm),
    }
}

fn pistons(bodies: &Bodies, rest: &SeatedJoint) -> Vec<Piston> {
    let mut found = Vec::new();
    for male in &rest.males {
        for female in &rest.females {
            if male.plain().end_z() <= female.plain().start_z() {
                continue;
            }
            let threads: Vec<(Reach, Reach)> =
                super::clearance::threads(bodies, rest, male, female);
            let sides = tight(male.plain().radii(), female.plain().radii(), &threads);
            found.extend(sides.into_iter().map(|(one, other, stroke_mm)| {
                let spot =
                    |member: &Member, side: &super::radial_clearance::ClearanceSide| SurfacePoint {
                        part: member.part,
                        origin: bodies.origin(member.part, side.tag),
                        station_mm: side.station_mm,
                        radius_mm: side.radius_mm,
                    };
                Piston {
                    male: spot(male, &one),
                    female: spot(female, &other),
                    stroke_mm,
                    radius_mm: other.radius_mm,
                }
            }));
        }
    }
    found.retain(|it: &Piston| !matches!(it.male.origin, Origin::Axis));
    found
}
