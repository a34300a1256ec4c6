//! The narrowest that one part passes on its way into another.

use super::{Clearance, ClearanceKind, DriftingJoint, TELLING_MM};
use crate::pen::assembly::chain::Drift;
use crate::pen::assembly::contact::Member;
use crate::pen::assembly::placed_outline::PlacedOutline;
use crate::pen::assembly::radial_clearance::{
    ClearanceSide, NearlyPassing, RadialClearance, Reach, nearly, throats,
};
use crate::pen::assembly::settle::{Bodies, SeatedJoint};
use crate::pen::assembly::{Placement, SurfacePoint};
use crate::{CutId, Origin};
use quillet_geometry::Length;

/// Wider than this, mm on the radius, nobody asks whether it passes.
const WIDE_MM: f64 = 3.0;
/// Nothing is pressed further than this, mm on the radius.
const MOST_PRESSED_MM: f64 = 0.5;

/// What passes what, and which way round.
struct Passage<'m> {
    male: &'m Member,
    female: &'m Member,
    /// The female lies the other way round, and goes into what carries it.
    turned: bool,
    /// The tightest places as drawn.
    throats: Vec<RadialClearance>,
}

impl DriftingJoint<'_, '_> {
    /// The narrowest that the one passes on its way into the other; and where it may come at worst
    /// into what is narrower, what is left there.
    pub(super) fn passing(&self, male: &Member, female: &Member) -> Vec<Clearance> {
        if male.plain().end_z() <= female.plain().start_z() {
            return Vec::new();
        }
        let passage = self.passage(male, female);
        // Of places as tight, the one that leaves least at worst.
        let least = |a: Clearance, b: Clearance| if b.least_mm < a.least_mm { b } else { a };
        let found = passage.throats.iter();
        let found = found.filter_map(|it| self.throat(it, &passage));
        let found = found.reduce(least);
        let least_mm = found.as_ref().map_or(f64::INFINITY, |it| it.least_mm);
        let nearly = self.nearly(&passage).into_iter();
        let nearly = nearly.filter(|it| it.least_mm < least_mm - TELLING_MM);
        found.into_iter().chain(nearly.reduce(least)).collect()
    }

    /// Parts that only go with the joint's own two may lie the other way round: a converter that is
    /// pushed onto a heel goes into the section that carries it.
    fn passage<'m>(&self, male: &'m Member, female: &'m Member) -> Passage<'m> {
        let ahead = |throats| Passage {
            male,
            female,
            turned: false,
            throats,
        };
        if male.own && female.own {
            return ahead(self.throats.to_vec());
        }
        let into = |it: &Member, other: &Member, way: fn(Placement) -> Placement| {
            let male = PlacedOutline::new(&it.outline, way(it.place));
            let female = PlacedOutline::new(&other.outline, way(other.place));
            throats(male.radii(), female.radii(), &[], |_| false)
        };
        let gap = |found: &[RadialClearance]| found.first().map(|it| it.gap_mm);
        let found = into(male, female, |place| place);
        if gap(&found).is_some_and(|it| it >= 0.0) {
            return ahead(found);
        }
        let back = into(female, male, Placement::mirrored);
        match gap(&back) > gap(&found) {
            true => Passage {
                male: female,
                female: male,
                turned: true,
                throats: back,
            },
            false => ahead(found),
        }
    }

    /// What is narrower than what is passed as drawn, and lies so little further in that it may be
    /// come to at worst.
    fn nearly(&self, passage: &Passage) -> Vec<Clearance> {
        let Some(drawn) = passage.throats.first() else {
            return Vec::new();
        };
        let (male, female) = (passage.male, passage.female);
        let own = male.own && female.own;
        let threads = match own {
            true => threads(self.bodies, self.rest, male, female),
            false => Vec::new(),
        };
        let way = |place: Placement| {
            if passage.turned {
                place.mirrored()
            } else {
                place
            }
        };
        let [one, other] = [male, female].map(|it| PlacedOutline::new(&it.outline, way(it.place)));
        let found = nearly(one.radii(), other.radii(), &threads, drawn.gap_mm);
        let reached = found.iter().filter(|it| self.may_reach(it, passage));
        reached
            .filter_map(|it| {
                let found = self.throat(&it.at, passage)?;
                Some(Clearance {
                    drawn: false,
                    ..found
                })
            })
            .collect()
    }

    /// Whether at worst the male comes as far as the female's place.
    fn may_reach(&self, it: &NearlyPassing, passage: &Passage) -> bool {
        let turned = if passage.turned { -1.0 } else { 1.0 };
        let (male, female) = it.ends;
        let of = |member: &Member, station_mm: f64, inside: bool| {
            self.along(member, station_mm, inside).times(turned)
        };
        let far = of(passage.female, female, true);
        let sum = far.plus(-1.0, &of(passage.male, male, false));
        let links = sum
            .iter()
            .map(|(size, factor)| self.bodies.link(size, factor));
        let takes: f64 = links.map(|link| link.takes_mm()).sum();
        takes > it.short_mm + TELLING_MM
    }

    /// How a plane of a part moves on the joint's axis.
    fn along(&self, member: &Member, station_mm: f64, inside: bool) -> Drift {
        let surface = self.bodies.surface(member.part);
        let plane = surface.plane(inside, Length::mm(station_mm));
        self.drifts.of(member.part).plus(way(member), &plane)
    }

    /// What is left where a place of the one passes a place of the other.
    fn throat(&self, found: &RadialClearance, passage: &Passage) -> Option<Clearance> {
        let bodies = self.bodies;
        // Where neither goes into the other, nothing passes.
        if !(-MOST_PRESSED_MM..=WIDE_MM).contains(&found.gap_mm) {
            return None;
        }
        let spot = |member: &Member, side: &ClearanceSide| SurfacePoint {
            part: member.part,
            origin: bodies.origin(member.part, side.tag),
            station_mm: side.station_mm,
            radius_mm: side.radius_mm,
        };
        let (male, female) = (passage.male, passage.female);
        let ends = (spot(male, &found.male), spot(female, &found.female));
        let sides = [
            (ends.0, &found.male, male, false),
            (ends.1, &found.female, female, true),
        ];
        // Of a slope, the radius is that of its own end, or of where the other's place lies on it.
        let across = |own: usize| {
            let (spot, side, member, inside) = sides[own];
            let surface = bodies.surface(spot.part);
            let (slope, ends) = surface.slope(side.tag, side.station_mm);
            let across = surface.across(spot.origin, side.station_mm, slope);
            match (slope == 0.0, ends && !side.beyond) {
                (true, _) => across,
                (_, true) => {
                    let plane = surface.plane(inside, Length::mm(side.station_mm));
                    across.plus(slope, &plane)
                }
                (_, false) => {
                    let (spot, _, other, inside) = sides[1 - own];
                    let other = self.along(other, spot.station_mm, inside);
                    let apart = other.plus(-1.0, &self.drifts.of(member.part));
                    across.plus(slope * way(member), &apart)
                }
            }
        };
        let sum = across(1).plus(-1.0, &across(0));
        Some(self.clearance(ClearanceKind::RadialClearance, ends, found.gap_mm, &sum))
    }
}

fn way(member: &Member) -> f64 {
    if member.place.reversed { -1.0 } else { 1.0 }
}

/// A joint's own two parts, and where what goes in is tightest.
pub(crate) struct Tightest<'r> {
    pub(crate) male: &'r Member,
    pub(crate) female: &'r Member,
    pub(crate) at: RadialClearance,
    /// All places as tight.
    pub(crate) throats: Vec<RadialClearance>,
}

/// Of a joint at rest; none where nothing of the one lies in the other.
pub(crate) fn tightest<'r>(bodies: &Bodies, rest: &'r SeatedJoint) -> Option<Tightest<'r>> {
    let own = |it: &&Member| it.own;
    let (male, female) = (rest.males.iter().find(own)?, rest.females.iter().find(own)?);
    if male.plain().end_z() <= female.plain().start_z() {
        return None;
    }
    let throats = own_throats(bodies, rest, male, female);
    let at = *throats.first()?;
    Some(Tightest {
        male,
        female,
        at,
        throats,
    })
}

/// The tightest places of the joint's own two parts, threads passing the threads that match them.
fn own_throats(
    bodies: &Bodies,
    rest: &SeatedJoint,
    male: &Member,
    female: &Member,
) -> Vec<RadialClearance> {
    let outlines = match male.cored().zip(female.cored()) {
        Some((one, other)) => vec![(one, female.plain()), (male.plain(), other)],
        None => vec![(male.plain(), female.plain())],
    };
    let threads = threads(bodies, rest, male, female);
    // On the cone of a drill's point what goes in comes to rest: how it fits is said by the hole.
    let stops = |tag| matches!(bodies.origin(female.part, tag), Origin::DrillPoint(_));
    let mut found: Vec<RadialClearance> = outlines
        .into_iter()
        .flat_map(|(one, other)| throats(one.radii(), other.radii(), &threads, stops))
        .collect();
    let least = found.iter().map(|it| it.gap_mm).reduce(f64::min);
    found.retain(|it| least.is_some_and(|least| it.gap_mm - least < 1e-9));
    found
}

/// From where to where the threads lie that match in these two: a thread has its own play in the
/// thread that matches it.
pub(crate) fn threads(
    bodies: &Bodies,
    rest: &SeatedJoint,
    male: &Member,
    female: &Member,
) -> Vec<(Reach, Reach)> {
    if !(male.own && female.own) {
        return Vec::new();
    }
    let reach = |member: &Member, feature: CutId| -> Reach {
        let part = &bodies.parts[member.part];
        let (from, to) = part.features[feature].stations(part.length);
        member.place.span((from.to_mm(), to.to_mm()))
    };
    let mated = rest.mated.iter();
    mated
        .map(|it| (reach(male, it.male), reach(female, it.female)))
        .collect()
}
