//! `SideCut`: a hole drilled or a slot milled into a part from its side.

mod outline;
mod strip;

pub(crate) use strip::{Height, Strip};

use strip::Sums;

use crate::chain::SAME;
use crate::section::{Flats, section_at};
use crate::{Chain, Curve, Moments, Point, gauss};

/// How far a cut from the side goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Floor {
    /// Into the first room inside, and to the axis beside that or where there is none.
    Void,
    /// To a plane so far from the axis, square to the cut's direction, mm.
    Plane(f64),
    /// Out of the other side.
    Through,
}

/// Alike cuts from the side, evenly spaced round the axis: what stands in the outline
/// `from_mm..to_mm` along the axis by `width_mm` round it, taken out along a radius.
///
/// A drilled hole is as wide as it is long. An end is half-round, by the lesser of the width and
/// the length, unless it is open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideCut {
    /// Where it begins along the axis, mm.
    pub from_mm: f64,
    /// Where it ends, after that, mm.
    pub to_mm: f64,
    /// Its width square to the axis, mm.
    pub width_mm: f64,
    /// Whether it runs out of the part where it begins and where it ends.
    pub open: [bool; 2],
    /// How far it goes.
    pub floor: Floor,
    /// How many.
    pub count: u32,
    /// Where the first one faces, degrees clockwise of the mark, looking at the first end.
    pub clock_deg: f64,
}

/// A part as its cuts find it: its outside, its inside and its flats.
#[derive(Debug, Clone, Copy)]
pub struct Body<'a> {
    /// The turned outside.
    pub outside: &'a [Chain],
    /// The inside, where there is one.
    pub inside: &'a [Chain],
    /// Flats on the outside.
    pub flats: &'a [Flats],
}

impl Body<'_> {
    /// Where its outside, its inside or its flats change, in no order.
    pub(crate) fn stations(&self) -> impl Iterator<Item = f64> {
        let chains = [self.outside, self.inside].into_iter().flatten();
        let segments = chains.flat_map(Chain::segments);
        let ends = segments.flat_map(|it| [it.curve.start().z, it.curve.end().z]);
        let outside = self.outside.iter().flat_map(Chain::segments);
        let flats =
            outside.flat_map(|it| self.flats.iter().flat_map(|set| set.stations(&it.curve)));
        ends.chain(flats)
    }

    /// Its section at a place of the outside, seen from a direction.
    fn towards(&self, place: Point, clock_deg: f64) -> Strip {
        if self.flats.is_empty() {
            return Strip::round(place.r);
        }
        section_at(place, self.flats)
            .map_or_else(|| Strip::round(place.r), |it| it.towards(clock_deg))
    }
}

impl SideCut {
    /// A hole of a diameter drilled at a station.
    pub fn hole(diameter_mm: f64, at_mm: f64, floor: Floor) -> SideCut {
        SideCut {
            from_mm: at_mm - diameter_mm / 2.0,
            to_mm: at_mm + diameter_mm / 2.0,
            width_mm: diameter_mm,
            open: [false; 2],
            floor,
            count: 1,
            clock_deg: 0.0,
        }
    }

    /// What all of them take from a part, as if each were alone.
    ///
    /// In each section in closed form, along the axis by Gauss between the stations where outline,
    /// outside or inside change: within 1e-9 of the box round a cut. Nothing where a size is no
    /// number or none is left between its ends.
    pub fn removed(&self, body: &Body) -> Moments {
        if !self.is_possible() {
            return Moments::default();
        }
        let ways = if self.floor == Floor::Through { 2 } else { 1 };
        let alike = body.flats.is_empty();
        let apart = 360.0 / f64::from(self.count);
        let one = |clock_deg: f64| {
            let there = |way: u32| clock_deg + 180.0 * f64::from(way);
            let each = (0..ways).map(|way| self.one(body, there(way)).turned(there(way)));
            each.sum::<Moments>()
        };
        if alike {
            return one(self.clock_deg).indexed(self.count);
        }
        (0..self.count)
            .map(|nth| one(self.clock_deg + apart * f64::from(nth)))
            .sum()
    }

    /// Half its width at a station, mm; 0 beside it.
    pub fn half_width_mm(&self, z_mm: f64) -> f64 {
        let half = self.width_mm / 2.0;
        if z_mm < self.from_mm || z_mm > self.to_mm {
            return 0.0;
        }
        let round = self.rounding_mm();
        let near = [z_mm - self.from_mm, self.to_mm - z_mm];
        let ends = near.into_iter().zip(self.open);
        let within = ends.filter(|(near, open)| !open && *near < round);
        within.fold(half, |most, (near, _)| {
            let inside = (near * (2.0 * round - near)).max(0.0).sqrt();
            most.min(half - round + inside)
        })
    }

    /// The radius of its round ends, mm.
    pub fn rounding_mm(&self) -> f64 {
        self.width_mm.min(self.to_mm - self.from_mm) / 2.0
    }

    pub(crate) fn is_possible(&self) -> bool {
        let floor = match self.floor {
            Floor::Plane(at_mm) => at_mm,
            Floor::Void | Floor::Through => 0.0,
        };
        let finite = [self.from_mm, self.to_mm, self.clock_deg, floor];
        self.count > 0
            && self.width_mm > 0.0
            && self.width_mm.is_finite()
            && finite.iter().all(|it| it.is_finite())
            && self.to_mm - self.from_mm > SAME
    }

    /// What one takes, with x along its direction.
    fn one(&self, body: &Body, clock_deg: f64) -> Moments {
        let stations = self.stations(body);
        let pairs = stations.windows(2).map(|pair| [pair[0], pair[1]]);
        pairs
            .map(|[from, to]| {
                let middle = (from + to) / 2.0;
                let Some(outer) = spanning(body.outside, middle) else {
                    return Moments::default();
                };
                let inner = spanning(body.inside, middle);
                self.over([from, to], outer, |z, r| {
                    let bore = inner.map_or(0.0, |curve| curve.radius_at(z));
                    body.towards(Point::new(z, r), clock_deg)
                        .over(&self.floors(bore), self.half_width_mm(z))
                })
            })
            .sum()
    }

    /// What one stops at in a section with a bore of a radius.
    fn floors(&self, bore_mm: f64) -> Vec<Height> {
        let at_mm = match self.floor {
            Floor::Plane(at_mm) => at_mm.max(0.0),
            Floor::Void | Floor::Through => 0.0,
        };
        let plane = Height::Straight { at_mm, slope: 0.0 };
        match bore_mm > 0.0 {
            true => vec![plane, Height::Round(bore_mm)],
            false => vec![plane],
        }
    }

    /// The integral along a stretch on which nothing begins or ends.
    fn over(
        &self,
        [from, to]: [f64; 2],
        outer: &Curve,
        sums: impl Fn(f64, f64) -> Sums,
    ) -> Moments {
        let length = to - from;
        let r = outer.bounds().max.r;
        // Smoothly keeps to 1e-13 of this: 1e-10 of the box round the cut.
        let scale = 1e3 * self.width_mm * r * (self.to_mm - self.from_mm);
        let scales = [1.0, r, r, length, length * length, r * r].map(|each| each * scale);
        let found = gauss::smoothly(scales, |part| {
            let z = length * part;
            let here = sums(from + z, outer.radius_at(from + z));
            let (area, along) = (here.area * length, here.area * length * z);
            [
                area,
                here.u * length,
                here.v * length,
                along,
                along * z,
                here.polar * length,
            ]
        });
        Moments::counted_from(from, found)
    }

    /// Where along it outline, outside, inside or flats change.
    fn stations(&self, body: &Body) -> Vec<f64> {
        let round = self.rounding_mm();
        let rounded = [self.from_mm + round, self.to_mm - round];
        let mut stations: Vec<f64> = body.stations().collect();
        // Two half rounds that meet are one circle.
        if rounded[1] - rounded[0] > SAME || self.open != [false; 2] {
            stations.extend(rounded);
        }
        stations.retain(|z| self.from_mm + SAME < *z && *z < self.to_mm - SAME);
        stations.extend([self.from_mm, self.to_mm]);
        stations.sort_by(f64::total_cmp);
        stations.dedup_by(|next, last| *next - *last <= SAME);
        stations
    }
}

/// The curve of the chains that a station lies on.
fn spanning(chains: &[Chain], z_mm: f64) -> Option<&Curve> {
    let found = chains
        .iter()
        .find(|chain| chain.start().z <= z_mm && z_mm <= chain.end().z)?;
    Some(&found.segment_at(z_mm)?.curve)
}

#[cfg(test)]
mod tests;
