//! What meets first when one group of parts slides into another.

use super::placed_outline::PlacedOutline;
use crate::outline::{Outline, OutlinePiece};
use crate::{Origin, PartId, Parts};
use std::sync::Arc;

/// A place on a part's surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfacePoint {
    /// The part.
    pub part: PartId,
    /// What made the surface there.
    pub origin: Origin,
    /// The station on that part, mm.
    pub station_mm: f64,
    /// The radius, mm.
    pub radius_mm: f64,
}

/// Two places that touch, or would if one went further.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touch {
    /// The place on what goes in.
    pub male: SurfacePoint,
    /// The place on what receives it.
    pub female: SurfacePoint,
    /// How much further the male must go for these to touch, mm; 0 for those that stop it.
    pub spare_mm: f64,
    /// Two flat faces meet over a ring of this width, mm; 0 for an edge or a curve.
    pub width_mm: f64,
}

/// One part of a group, as the joint sees it: the male's leading face at zero and the male
/// behind it; the female's face at zero and the female in front of it.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    pub(crate) part: PartId,
    pub(crate) place: super::Placement,
    /// Its outline, as the other two on its own stations.
    pub(super) outline: Arc<Outline>,
    /// With the threads of this joint cut down to their roots, where the part has such.
    pub(super) cored: Option<Arc<Outline>>,
    /// With its radii less by what a press squeezes past, where the joint is one.
    pub(super) squeezed: Option<Arc<Outline>>,
    /// One of the joint's own two parts.
    pub(crate) own: bool,
}

impl Member {
    /// Its outline in its place.
    pub(crate) fn plain(&self) -> PlacedOutline<'_> {
        PlacedOutline::new(&self.outline, self.place)
    }

    /// With the threads of this joint cut down to their roots, where the part has such.
    pub(crate) fn cored(&self) -> Option<PlacedOutline<'_>> {
        Some(PlacedOutline::new(self.cored.as_deref()?, self.place))
    }

    /// What is left to pass once a press has squeezed it.
    fn thinned(&self) -> PlacedOutline<'_> {
        PlacedOutline::new(self.squeezed.as_ref().unwrap_or(&self.outline), self.place)
    }

    /// The same, further along the joint's axis.
    pub(crate) fn moved(&self, by_mm: f64) -> Member {
        Member {
            place: self.place.moved(by_mm),
            ..self.clone()
        }
    }
}

/// How the joint's own two parts meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum OwnContact {
    /// As drawn.
    Counts,
    /// They take each other up: the inside of one is not drawn.
    Passes,
    /// As drawn but for the threads meant for each other, which do not match: that is a fault of
    /// its own, and everything else should still be found.
    Mismatched,
}

/// Contacts within this of the least count as one, mm.
pub const TOUCHING_MM: f64 = 0.05;

/// A meeting before it is told from which rest it is counted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct RawContact {
    pub(crate) travel_mm: f64,
    pub(crate) touch: Touch,
    /// The surface of the male, before it went in.
    pub(crate) male: OutlinePiece,
    /// That of the female.
    pub(crate) female: OutlinePiece,
}

/// The meetings within `within_mm` of the least, least first; each pair of surfaces once.
pub(crate) fn meetings(
    parts: &Parts,
    males: &[Member],
    females: &[Member],
    own: OwnContact,
    within_mm: f64,
) -> Vec<RawContact> {
    let mut met = Vec::new();
    let mut least = f64::INFINITY;
    for male in males {
        for female in females {
            if male.own && female.own && own == OwnContact::Passes {
                continue;
            }
            if female.plain().start_z() - male.plain().end_z() > least + within_mm {
                continue;
            }
            for (one, other) in passes(male, female, own) {
                sweep(male, one, female, other, within_mm, &mut least, &mut met);
            }
        }
    }
    met.retain(|it| it.travel_mm <= least + within_mm);
    met.sort_by(|a, b| {
        let wider = b.touch.width_mm.total_cmp(&a.touch.width_mm);
        a.travel_mm.total_cmp(&b.travel_mm).then(wider)
    });
    let mut kept: Vec<RawContact> = Vec::new();
    for mut it in met {
        if !kept.iter().any(|before| same_place(before, &it)) {
            it.touch.spare_mm = it.travel_mm - least;
            named_by_face(parts, &mut it.touch.male);
            named_by_face(parts, &mut it.touch.female);
            kept.push(it);
        }
    }
    kept
}

/// The least travel of two parts alone, and where they meet.
pub(crate) fn meeting(
    parts: &Parts,
    male: &Member,
    female: &Member,
    own: OwnContact,
) -> Option<RawContact> {
    let met = meetings(
        parts,
        std::slice::from_ref(male),
        std::slice::from_ref(female),
        own,
        0.0,
    );
    met.into_iter().next()
}

/// The outlines that count against each other.
///
/// A male thread passes the female thread that matches it, and nothing else does: so the male
/// without those threads meets the female with its crests, and the male with its crests meets
/// the female without.
fn passes<'a>(
    male: &'a Member,
    female: &'a Member,
    own: OwnContact,
) -> Vec<(PlacedOutline<'a>, PlacedOutline<'a>)> {
    if !(male.own && female.own) {
        return vec![(male.plain(), female.plain())];
    }
    match (male.cored(), female.cored()) {
        (Some(one), Some(other)) if own == OwnContact::Mismatched => vec![(one, other)],
        (Some(one), Some(other)) => vec![(one, female.plain()), (male.thinned(), other)],
        _ => vec![(male.thinned(), female.plain())],
    }
}

fn sweep(
    male: &Member,
    one: PlacedOutline,
    female: &Member,
    other: PlacedOutline,
    within_mm: f64,
    least: &mut f64,
    met: &mut Vec<RawContact>,
) {
    for a in one.facing(true) {
        for b in other.facing(false) {
            if a.shares_mm(&b) <= SAME || b.from_z - a.to_z > *least + within_mm {
                continue;
            }
            let (a, b) = (a.laid(), b.laid());
            let Some(meeting) = a.curve.meeting(&b.curve) else {
                continue;
            };
            if meeting.travel_mm > *least + within_mm {
                continue;
            }
            *least = least.min(meeting.travel_mm);
            let spot =
                |member: &Member, piece: &OutlinePiece, at: quillet_geometry::Point| SurfacePoint {
                    part: member.part,
                    origin: piece.origin,
                    station_mm: member.place.station(at.z),
                    radius_mm: at.r,
                };
            met.push(RawContact {
                travel_mm: meeting.travel_mm,
                touch: Touch {
                    male: spot(male, &a, meeting.one),
                    female: spot(female, &b, meeting.other),
                    spare_mm: 0.0,
                    width_mm: meeting.width_mm,
                },
                male: a,
                female: b,
            });
        }
    }
}

/// Radii and stations that agree within this, mm, are one.
const SAME: f64 = 1e-6;

/// Whether a meeting only names again what `before` named: the same two surfaces, or a corner of
/// what already touches there.
fn same_place(before: &RawContact, it: &RawContact) -> bool {
    let (a, b) = (&before.touch, &it.touch);
    if (a.male.part, a.female.part) != (b.male.part, b.female.part) {
        return false;
    }
    let same_surfaces = (a.male.origin, a.female.origin) == (b.male.origin, b.female.origin);
    let at_once = (before.travel_mm - it.travel_mm).abs() < SAME;
    let ring = a.male.radius_mm - SAME..=a.male.radius_mm + a.width_mm + SAME;
    same_surfaces || at_once && ring.contains(&b.male.radius_mm)
}

/// A flat end is named by its face even where a bore's bottom or a step made it.
fn named_by_face(parts: &Parts, spot: &mut SurfacePoint) {
    let part = &parts[spot.part];
    let length = part.length.to_mm();
    if spot.station_mm.abs() < SAME && is_outside(spot.origin) {
        spot.origin = Origin::Face(crate::End::First);
    } else if (spot.station_mm - length).abs() < SAME && is_outside(spot.origin) {
        spot.origin = Origin::Face(crate::End::Second);
    }
}

/// Neither cut from an end nor from the side.
fn is_outside(origin: Origin) -> bool {
    matches!(origin, Origin::Outside(_) | Origin::Stock | Origin::Tube)
}
