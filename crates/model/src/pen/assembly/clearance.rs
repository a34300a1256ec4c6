//! What is left between parts that do not touch.

use super::chain::{Drift, Link, Size, WorstCase};
use super::contact::{Member, RawContact, meetings};
use super::drift::{AxisDrifts, gap};
use super::radial_clearance::RadialClearance;
use super::settle::{Bodies, SeatedJoint};
use super::tolerance::around;
use super::{AtRest, SurfacePoint, TOUCHING_MM};
use crate::{Cut, FitRequest, Joint, Origin};
use quillet_geometry::Length;

mod passing;

pub(super) use passing::{Tightest, threads, tightest};

/// A clearance between a place of a male and a place of a female, as drawn and at worst.
#[derive(Clone, Debug, PartialEq)]
pub struct Clearance {
    /// Which way it is measured.
    pub kind: ClearanceKind,
    /// The place on what goes in.
    pub male: SurfacePoint,
    /// The place on what receives it.
    pub female: SurfacePoint,
    /// As drawn, mm.
    pub nominal_mm: f64,
    /// With every size of its chain at its worst, mm.
    pub least_mm: f64,
    /// Whether the one comes as far as the other as drawn; where not, it does so at worst.
    pub drawn: bool,
    /// The sizes it is the sum of, those that take most of it first.
    pub chain: Vec<Link>,
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
    RadialClearance,
}

impl ClearanceKind {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            ClearanceKind::Ahead => "ahead",
            ClearanceKind::Corner => "corner",
            ClearanceKind::RadialClearance => "throat",
        }
    }
}

/// Further than this, mm, nobody asks how much further a part could go.
const FAR_MM: f64 = 15.0;
/// Of two worst cases that differ by less, mm, one is enough.
const TELLING_MM: f64 = 1e-6;
/// Every clearance of a joint at rest, tightest first within each kind, those first that are there
/// as drawn; `throats` are where its own two parts are tightest.
pub(crate) fn all(
    bodies: &Bodies,
    joint: &Joint,
    rest: &SeatedJoint,
    drifts: AxisDrifts,
    throats: &[RadialClearance],
) -> Vec<Clearance> {
    let seen = DriftingJoint {
        bodies,
        joint,
        rest,
        drifts,
        throats,
    };
    let mut found = Vec::new();
    for male in &rest.males {
        for female in &rest.females {
            let trapped = rest.trapped.iter().any(|it| it.part == female.part);
            if trapped && bodies.parts[female.part].length_free > bodies.parts[female.part].length {
                continue;
            }
            found.extend(seen.ahead(male, female));
            found.extend(seen.passing(male, female));
        }
    }
    let front = |member: &Member| member.plain().foremost_z();
    if let Some(tip) = rest
        .males
        .iter()
        .max_by(|a, b| front(a).total_cmp(&front(b)))
    {
        found.extend(
            rest.females
                .iter()
                .filter_map(|female| seen.corner(tip, female)),
        );
    }
    found.sort_by(|a, b| {
        (a.kind, !a.drawn)
            .cmp(&(b.kind, !b.drawn))
            .then(a.nominal_mm.total_cmp(&b.nominal_mm))
    });
    found
}

impl AtRest {
    /// Of one kind, the clearance that is tightest as drawn and, where another leaves less at worst
    /// by more than shows, that one too; none where nothing of the kind is left. What does not
    /// pass, or holds by friction, has nothing to tell of.
    pub fn tightest(&self, kind: ClearanceKind) -> Option<(&Clearance, Option<&Clearance>)> {
        let of_kind = self.clearances.iter().filter(|it| it.kind == kind);
        let mut left = of_kind.filter(|it| it.nominal_mm > SHOWS_MM);
        let tightest = left.next()?;
        let worse = left.min_by(|a, b| a.least_mm.total_cmp(&b.least_mm));
        let shows = |it: &&Clearance| it.least_mm < tightest.least_mm - SHOWS_MM;
        Some((tightest, worse.filter(shows)))
    }
}

/// Two figures of two decimals differ by this, mm.
const SHOWS_MM: f64 = 5e-3;

/// A joint at rest, and how far each of its parts moves.
struct DriftingJoint<'a, 'p> {
    bodies: &'a Bodies<'p>,
    joint: &'a Joint,
    rest: &'a SeatedJoint,
    drifts: AxisDrifts<'a>,
    throats: &'a [RadialClearance],
}

impl DriftingJoint<'_, '_> {
    /// What these two would touch next, beyond what touches already; and where another of their
    /// places may come first at worst, that one.
    fn ahead(&self, male: &Member, female: &Member) -> Vec<Clearance> {
        let ((rear, front), (near, far)) = (male.plain().reach(), female.plain().reach());
        if near - front >= FAR_MM || far - rear <= TOUCHING_MM {
            return Vec::new();
        }
        let pair = (std::slice::from_ref(male), std::slice::from_ref(female));
        let met = meetings(self.bodies.parts, pair.0, pair.1, self.rest.own, FAR_MM);
        let next = |it: &&RawContact| it.travel_mm > TOUCHING_MM && it.travel_mm < FAR_MM;
        let mut left = met.iter().filter(next).map(|it| {
            let sum = gap(self.bodies, self.drifts, it);
            let ends = (it.touch.male, it.touch.female);
            self.clearance(ClearanceKind::Ahead, ends, it.travel_mm, &sum)
        });
        let Some(next) = left.next() else {
            return Vec::new();
        };
        let sooner = left.filter(|it| it.least_mm < next.least_mm - TELLING_MM);
        let sooner = sooner.reduce(|a, b| if b.least_mm < a.least_mm { b } else { a });
        std::iter::once(next).chain(sooner).collect()
    }

    /// From the foremost of what goes in to where a blind hole stops being full diameter.
    fn corner(&self, male: &Member, female: &Member) -> Option<Clearance> {
        let part = &self.bodies.parts[female.part];
        let tip = male
            .plain()
            .pieces()
            .max_by(|a, b| a.to_z.total_cmp(&b.to_z))?;
        let at = tip.curve.end().z.max(tip.curve.start().z);
        let (near, far) = female.plain().reach();
        if near - at >= FAR_MM || far - at < -FAR_MM {
            return None;
        }
        let point = female
            .plain()
            .pieces()
            .find_map(|piece| match piece.origin {
                // One that looks the other way is come to from behind, through solid.
                Origin::DrillPoint(index)
                    if !piece.faces_up && piece.from_z > 0.0 && piece.least_r < 1e-6 =>
                {
                    Some((piece, index))
                }
                _ => None,
            })?;
        let (piece, index) = point;
        let Cut::Drill { dia, .. } = part.features.get(index)?.cut else {
            return None;
        };
        let nominal_mm = piece.from_z - at;
        if piece.most_r < dia.to_mm() / 2.0 - 1e-6 || !(-FAR_MM..FAR_MM).contains(&nominal_mm) {
            return None;
        }
        let spot = |member: &Member, origin, z: f64, radius_mm| SurfacePoint {
            part: member.part,
            origin,
            station_mm: member.place.station(z),
            radius_mm,
        };
        let tip_r = tip.curve.end().r.min(tip.curve.start().r);
        let one = spot(male, tip.origin, at, tip_r);
        let other = spot(female, Origin::Feature(index), piece.from_z, piece.most_r);
        let plane = |member: &Member, spot: &SurfacePoint, inside: bool| {
            let plane = self
                .bodies
                .surface(member.part)
                .plane(inside, Length::mm(spot.station_mm));
            let way = if member.place.reversed { -1.0 } else { 1.0 };
            self.drifts.of(member.part).plus(way, &plane)
        };
        let sum = plane(female, &other, true).plus(-1.0, &plane(male, &one, false));
        Some(self.clearance(ClearanceKind::Corner, (one, other), nominal_mm, &sum))
    }

    fn clearance(
        &self,
        kind: ClearanceKind,
        (male, female): (SurfacePoint, SurfacePoint),
        nominal_mm: f64,
        sum: &Drift,
    ) -> Clearance {
        let mut sum = sum.clone();
        if kind != ClearanceKind::RadialClearance {
            for spot in [&male, &female] {
                sum = self.set_by_hand(spot, sum);
            }
        }
        let mut chain: Vec<Link> = sum
            .iter()
            .map(|(size, factor)| self.bodies.link(size, factor))
            .collect();
        if kind == ClearanceKind::RadialClearance {
            self.fitted(&male, &female, &mut chain);
        }
        let worst = WorstCase::of(nominal_mm, chain, |part| &self.bodies.parts[part]);
        Clearance {
            kind,
            male,
            female,
            nominal_mm,
            least_mm: worst.least_mm,
            drawn: true,
            chain: worst.chain,
        }
    }

    /// Where a nib that only goes with the joint's own two stands is known no better than it is
    /// set, however well its own sizes are.
    fn set_by_hand(&self, spot: &SurfacePoint, sum: Drift) -> Drift {
        let nib = self.rest.carries(spot.part) && self.bodies.is_nib(spot.part);
        if !nib || !sum.iter().any(|(size, _)| size.part() == spot.part) {
            return sum;
        }
        let others = sum.iter().filter(|(size, _)| size.part() != spot.part);
        // The further out it is set, the less is left.
        others.fold(
            Drift::of(Size::Nib { part: spot.part }).times(-1.0),
            |sum, (size, factor)| sum.plus(factor, &Drift::of(size)),
        )
    }

    /// What a joint's fit asks of its own two surfaces stands over how a hand keeps them.
    fn fitted(&self, male: &SurfacePoint, female: &SurfacePoint, chain: &mut [Link]) {
        let Some((FitRequest::Fit(fit), _)) = &self.joint.asks else {
            return;
        };
        let own = (male.part, female.part) == (self.joint.male.part, self.joint.female.part);
        let dia = |spot: &SurfacePoint| Length::mm(spot.radius_mm).twice();
        let Some(limits) = fit.at(dia(female)).ok().filter(|_| own) else {
            return;
        };
        for link in chain {
            let Size::Radius { part, .. } = link.size else {
                continue;
            };
            let (drawn, zone) = match part == male.part {
                true => (dia(male), limits.shaft),
                false => (dia(female), limits.hole),
            };
            if !self.bodies.parts[part].is_bought() {
                link.range_mm = around(drawn, zone.limits);
            }
        }
    }
}
