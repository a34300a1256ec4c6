//! A ridge that springs past a land: what it overlaps by, and what it takes to draw it back.

use super::Placement;
use super::contact::Member;
use super::elastic::{NEAR_MM, elastic, material_at};
use super::radial_clearance::RadialClearance;
use crate::{End, Joint, JointEnd, Part, PartId, Parts};
use quillet_geometry::side::Floor;
use quillet_geometry::{Chain, Length, Point, put_in_order};
use quillet_standards::mechanics::FRICTION;
use quillet_standards::mechanics::finger::Fingers;
use quillet_standards::mechanics::shell::{Shell, Snap, Sprung};

/// A ridge at rest behind a land.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SnapFit {
    /// How far the two overlap on diameter.
    pub overlap: Length,
    /// How many fingers give; none where it is a closed ring.
    pub fingers: Option<u32>,
    /// The part that is strained most.
    pub strained: PartId,
    /// The force in newtons that draws it back, an estimate good to a factor of two; none where it
    /// locks, or a modulus is not known.
    pub hold_n: Option<f64>,
    /// The strain at each closing, 0 to 1; none where that is not known.
    pub strain: Option<f64>,
}

/// Radii and stations that agree within this, mm, are one.
const SAME: f64 = 1e-6;

/// The ridge of what goes in behind the land of what receives it; none where the fattest that went
/// in does not lie behind what it passed, and so has not sprung back.
pub(super) fn snapped(
    joint: &Joint,
    parts: &Parts,
    (male, female): (&Member, &Member),
    tightest: &RadialClearance,
) -> Option<SnapFit> {
    let overlap_mm = -2.0 * tightest.gap_mm;
    if overlap_mm <= SAME {
        return None;
    }
    let inside = Side::of(parts, joint.male, male.place);
    let around = Side::of(parts, joint.female, female.place);
    let (ridge, ramp_deg) = inside.ridge(tightest.male.station_mm)?;
    let land = around.land(inside.place.of(ridge.z), ridge.r)?;
    let inner = inside.tube(ridge.z, [ridge.r - overlap_mm / 2.0, inside.bore(ridge.z)]);
    let outer = around.tube(land.z, [around.outside(land.z)?, land.r]);
    let way = Way {
        overlap_mm,
        ramp_deg,
        joint_mm: 2.0 * land.r,
    };
    let slit = [(&around, &outer), (&inside, &inner)];
    let slit = slit.into_iter().find_map(|(side, tube)| {
        let (count, sprung) = side.fingers(tube, &way)?;
        Some((Some(count), side.id, sprung))
    });
    let (fingers, strained, sprung) =
        slit.unwrap_or_else(|| (None, around.id, way.closed(&outer, &inner)));
    Some(SnapFit {
        overlap: Length::mm(overlap_mm),
        fingers,
        strained,
        hold_n: sprung.map(|it| it.hold_n),
        strain: sprung.map(|it| it.strain),
    })
}

/// One side of the joint.
struct Side<'a> {
    part: &'a Part,
    id: PartId,
    end: End,
    place: Placement,
}

/// A part as a tube at a station.
struct Tube<'a> {
    part: &'a Part,
    station_mm: f64,
    outside_mm: f64,
    bore_mm: f64,
    /// From the joint's end of the part.
    from_end_mm: f64,
}

/// How the one springs past the other.
struct Way {
    overlap_mm: f64,
    ramp_deg: f64,
    joint_mm: f64,
}

impl<'a> Side<'a> {
    fn of(parts: &'a Parts, end: JointEnd, place: Placement) -> Side<'a> {
        Side {
            part: &parts[end.part],
            id: end.part,
            end: end.end,
            place,
        }
    }

    /// The end of a ridge that looks back out of the joint, and the angle of the flank behind it in
    /// degrees from the axis; none where nothing falls off behind it.
    fn ridge(&self, station_mm: f64) -> Option<(Point, f64)> {
        let profiles = self.part.profiles.as_ref()?;
        let outer = &profiles.crest.outer;
        let top = outer.greatest_at(station_mm)?;
        // Stations run out of the joint from a first end, into it from a second.
        let out = |a: Point, b: Point| match self.end {
            End::First => (a, b),
            End::Second => (b, a),
        };
        let mut pieces: Vec<(Point, Point)> = outer
            .segments()
            .iter()
            .map(|it| out(it.curve.start(), it.curve.end()))
            .filter(|(_, far)| self.depth(far.z) > self.depth(station_mm) + SAME)
            .collect();
        put_in_order(&mut pieces, |it| self.depth(it.0.z));
        let mut at = Point::new(station_mm, top);
        for (near, far) in pieces {
            if near.r < at.r - SAME {
                return Some((at, 90.0));
            }
            if far.r < at.r - SAME {
                let falls = (at.r - far.r).atan2((far.z - near.z).abs());
                let from = if near.r > at.r - SAME && self.depth(near.z) > self.depth(at.z) {
                    near
                } else {
                    at
                };
                return Some((from, falls.to_degrees()));
            }
            if far.r > at.r + SAME {
                return None;
            }
            at = far;
        }
        None
    }

    /// The inner edge of the land before a place on the joint's axis, which something of that radius
    /// has passed; none where it is not free behind it.
    fn land(&self, z_mm: f64, radius_mm: f64) -> Option<Point> {
        let profiles = self.part.profiles.as_ref()?;
        let here = profiles.crest.bore_radius(self.place.station(z_mm));
        if here < radius_mm - SAME {
            return None;
        }
        let pieces = profiles.crest.inner.iter().flat_map(Chain::segments);
        let ends = pieces.flat_map(|it| [it.curve.start(), it.curve.end()]);
        let narrow = ends.filter(|it| it.r < radius_mm - SAME && self.place.of(it.z) < z_mm + SAME);
        narrow.max_by(|a, b| self.place.of(a.z).total_cmp(&self.place.of(b.z)))
    }

    /// How far from the joint's end of the part, mm.
    fn depth(&self, station_mm: f64) -> f64 {
        match self.end {
            End::First => station_mm,
            End::Second => self.part.length.to_mm() - station_mm,
        }
    }

    fn outside(&self, station_mm: f64) -> Option<f64> {
        self.part.profiles.as_ref()?.turned().least_at(station_mm)
    }

    fn bore(&self, station_mm: f64) -> f64 {
        let profiles = self.part.profiles.as_ref();
        profiles.map_or(0.0, |it| it.crest.bore_radius(station_mm))
    }

    /// By the radii outside and inside.
    fn tube(&self, station_mm: f64, [outside, bore]: [f64; 2]) -> Tube<'a> {
        Tube {
            part: self.part,
            station_mm,
            outside_mm: 2.0 * outside,
            bore_mm: 2.0 * bore,
            from_end_mm: self.depth(station_mm),
        }
    }

    /// The fingers that slots open at the joint's end leave, and what springing takes.
    fn fingers(&self, tube: &Tube, way: &Way) -> Option<(u32, Option<Sprung>)> {
        let openings = &self.part.profiles.as_ref()?.not_round.openings;
        let (_, slot) = openings
            .iter()
            .find(|(_, it)| it.open[self.end.index()] && !matches!(it.floor, Floor::Plane(_)))?;
        // A slot right through makes two of an odd number.
        let count = match slot.floor == Floor::Through && !slot.count.is_multiple_of(2) {
            true => 2 * slot.count,
            false => slot.count,
        };
        let root = match self.end {
            End::First => slot.to_mm,
            End::Second => slot.from_mm,
        };
        let length_mm = self.depth(root) - tube.from_end_mm;
        if count < 2 || length_mm <= SAME {
            return None;
        }
        let sprung = || {
            let fingers = Fingers {
                count,
                outside_mm: tube.outside_mm,
                bore_mm: tube.bore_mm,
                slot_mm: slot.width_mm,
                length_mm,
                elastic: tube.elastic()?,
            };
            fingers.sprung(way.overlap_mm, way.ramp_deg, FRICTION)
        };
        Some((count, sprung()))
    }
}

impl Tube<'_> {
    fn elastic(&self) -> Option<quillet_standards::mechanics::Elastic> {
        let amid = (self.outside_mm + self.bore_mm) / 4.0;
        elastic(material_at(self.part, self.station_mm, amid + NEAR_MM)?)
    }

    fn shell(&self) -> Option<Shell> {
        Some(Shell {
            mean_radius_mm: (self.outside_mm + self.bore_mm) / 4.0,
            wall_mm: (self.outside_mm - self.bore_mm) / 2.0,
            from_end_mm: self.from_end_mm,
            elastic: self.elastic()?,
        })
    }
}

impl Way {
    /// Between two closed rings.
    fn closed(&self, outer: &Tube, inner: &Tube) -> Option<Sprung> {
        let snap = Snap {
            outer: outer.shell()?,
            inner: inner.shell()?,
            joint_mm: self.joint_mm,
            overlap_mm: self.overlap_mm,
            ramp_deg: self.ramp_deg,
        };
        snap.sprung(FRICTION)
    }
}
