//! `Flats`: alike flats along a stretch of a turned outside, and what they take from it.

use std::f64::consts::PI;

use super::chord::Chord;
use super::{Flat, Plane, Section, evenly};
use crate::chain::SAME;
use crate::crossing::crossings;
use crate::envelope::smallest;
use crate::{Chain, Curve, Moments, Point, Segment, Tag, gauss};

/// How far from the axis flats lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Apothem {
    /// Straight from one apothem, at the beginning of the stretch, to another at its end.
    Straight {
        /// Half of what it measures across flats where they begin, mm.
        from_mm: f64,
        /// The same where they end, mm.
        to_mm: f64,
    },
    /// So far below the outside, wherever that is, mm.
    Below(f64),
    /// So that neighbours meet on the outside: r cos(π/N).
    Meeting,
}

/// A set of alike flats, evenly spaced round a stretch of the outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flats {
    /// Where they begin, mm.
    pub from_mm: f64,
    /// Where they end, after that, mm.
    pub to_mm: f64,
    /// How far from the axis they lie.
    pub apothem: Apothem,
    /// How many.
    pub count: u32,
    /// Where the middle of the first one faces, degrees clockwise of the mark, looking at the
    /// first end.
    pub clock_deg: f64,
}

/// The outside at a place of its outline with all the flats there.
///
/// None where a flat leaves no axis, or a size is no number.
pub fn section_at(place: Point, sets: &[Flats]) -> Option<Section> {
    let flats: Vec<Flat> = sets.iter().flat_map(|set| set.at(place)).collect();
    Section::cut(place.r, &flats)
}

/// What all sets of flats together take from a turned outside, its bore not counted.
///
/// Exact in each section, and by Gauss along the axis on stretches cut where a flat comes through
/// the outside and where neighbours begin to meet: within 1e-9 of closed forms. A place where a
/// flat reaches the axis counts for nothing.
pub fn cut_away<'a>(outside: impl IntoIterator<Item = &'a Chain>, sets: &[Flats]) -> Moments {
    outside
        .into_iter()
        .flat_map(Chain::segments)
        .filter(|segment| !segment.curve.is_vertical())
        .map(|segment| cut_from(&segment.curve, sets))
        .sum()
}

fn cut_from(curve: &Curve, sets: &[Flats]) -> Moments {
    let (start, end) = (curve.start().z, curve.end().z);
    let mut stations: Vec<f64> = sets.iter().flat_map(|set| set.stations(curve)).collect();
    stations.retain(|z| start < *z && *z < end);
    stations.extend([start, end]);
    stations.sort_by(f64::total_cmp);
    let pieces = stations
        .windows(2)
        .filter(|pair| pair[1] - pair[0] > SAME)
        .filter_map(|pair| curve.between(pair[0], pair[1]));
    pieces
        .map(|piece| {
            let middle = (piece.start().z + piece.end().z) / 2.0;
            let here: Vec<Flats> = sets
                .iter()
                .filter(|set| set.from_mm <= middle && middle <= set.to_mm)
                .copied()
                .collect();
            cut_from_piece(&piece, &here, end - start)
        })
        .sum()
}

/// From a piece, of a curve of some length, on which the same sets of flats cut all along.
fn cut_from_piece(piece: &Curve, sets: &[Flats], length: f64) -> Moments {
    let fattest = piece.bounds().max.r;
    if sets.is_empty() || fattest.is_nan() || fattest <= 0.0 {
        return Moments::default();
    }
    let start = piece.start().z;
    let volume = PI * fattest * fattest * length;
    let scale = [
        1.0,
        fattest,
        fattest,
        length,
        length * length,
        fattest * fattest,
    ];
    let swept = piece.swept();
    let found = gauss::smoothly(scale.map(|each| each * volume), |part| {
        let (place, step) = swept(part);
        let cut = match sets {
            [set] if set.count > 2 => set.cut_alone(place),
            _ => section_at(place, sets).map_or(Plane::default(), |it| it.cut_away()),
        };
        let z = place.z - start;
        [
            cut.area_mm2,
            cut.x_mm3,
            cut.y_mm3,
            cut.area_mm2 * z,
            cut.area_mm2 * z * z,
            cut.xx_mm4 + cut.yy_mm4,
        ]
        .map(|value| value * step.z)
    });
    Moments::counted_from(start, found)
}

impl Flats {
    /// From the axis to the flats at a place of the outside, mm.
    pub fn apothem_mm(&self, place: Point) -> f64 {
        match self.apothem {
            Apothem::Straight { from_mm, to_mm } => {
                let part = (place.z - self.from_mm) / (self.to_mm - self.from_mm);
                from_mm + (to_mm - from_mm) * part.clamp(0.0, 1.0)
            }
            Apothem::Below(deep_mm) => place.r - deep_mm,
            Apothem::Meeting => place.r * self.half_angle().cos(),
        }
    }

    /// The same so much farther along the axis.
    pub fn moved(&self, by_mm: f64) -> Flats {
        Flats {
            from_mm: self.from_mm + by_mm,
            to_mm: self.to_mm + by_mm,
            ..*self
        }
    }

    /// The same turned end for end, what was at 0 now at `end_mm`: as the mark is turned over with it, the
    /// clock runs the other way.
    pub fn reversed(&self, end_mm: f64) -> Flats {
        let apothem = match self.apothem {
            Apothem::Straight { from_mm, to_mm } => Apothem::Straight {
                from_mm: to_mm,
                to_mm: from_mm,
            },
            other => other,
        };
        Flats {
            from_mm: end_mm - self.to_mm,
            to_mm: end_mm - self.from_mm,
            apothem,
            clock_deg: -self.clock_deg,
            ..*self
        }
    }

    /// The flats at a place of the outside, none of them beside the stretch.
    pub fn at(&self, place: Point) -> impl Iterator<Item = Flat> + use<> {
        let here = self.from_mm <= place.z && place.z <= self.to_mm;
        let first = Flat {
            apothem_mm: self.apothem_mm(place),
            clock_deg: self.clock_deg,
        };
        evenly(first, if here { self.count } else { 0 })
    }

    /// The outside with these flats at its least radius: what walls are left under, and what
    /// measures across flats.
    pub fn low(&self, outside: &Chain, tag: Tag) -> Vec<Chain> {
        self.lowered(outside, tag, 1.0)
    }

    /// The outside with these flats at its greatest radius: what passes, and what measures across
    /// corners. One or two flats leave it as it is.
    ///
    /// Several sets on one stretch may leave less than the least of what each leaves alone.
    pub fn high(&self, outside: &Chain, tag: Tag) -> Vec<Chain> {
        if self.count < 3 {
            return vec![outside.clone()];
        }
        self.lowered(outside, tag, 1.0 / self.half_angle().cos())
    }

    /// The least of the outside and of the apothem times a factor.
    fn lowered(&self, outside: &Chain, tag: Tag, factor: f64) -> Vec<Chain> {
        let edge = match self.apothem {
            Apothem::Straight { from_mm, to_mm } => {
                let start = Point::new(self.from_mm, from_mm * factor);
                let end = Point::new(self.to_mm, to_mm * factor);
                Some(Chain::single(tag, Curve::line(start, end)))
            }
            Apothem::Below(deep_mm) => {
                let edge = |r: f64| ((r - deep_mm).max(0.0) * factor, factor);
                self.carried(outside, tag, &edge)
            }
            Apothem::Meeting => {
                let share = self.half_angle().cos() * factor;
                self.carried(outside, tag, &|r| (r * share, share))
            }
        };
        edge.map_or_else(
            || vec![outside.clone()],
            |edge| smallest(&[outside.clone(), edge]),
        )
    }

    fn carried(&self, outside: &Chain, tag: Tag, of: &dyn Fn(f64) -> (f64, f64)) -> Option<Chain> {
        let stretch = outside.between(self.from_mm, self.to_mm)?;
        let raised = |place: Point| Point::new(place.z, of(place.r).0);
        Chain::new(stretch.segments().iter().flat_map(|segment| {
            let curves = if segment.curve.is_vertical() {
                let ends = (segment.curve.start(), segment.curve.end());
                vec![Curve::line(raised(ends.0), raised(ends.1))]
            } else {
                segment.curve.with_radii(of)
            };
            curves.into_iter().map(move |curve| Segment { curve, tag })
        }))
    }

    /// Where along a curve of the outside the kind of its section changes.
    pub fn stations(&self, curve: &Curve) -> Vec<f64> {
        let (from, to) = (self.from_mm, self.to_mm);
        let cos = self.half_angle().cos();
        let line = |one: f64, other: f64| Curve::line(Point::new(from, one), Point::new(to, other));
        let edges = match self.apothem {
            Apothem::Straight { from_mm, to_mm } if self.count > 2 => {
                vec![line(from_mm, to_mm), line(from_mm / cos, to_mm / cos)]
            }
            Apothem::Straight { from_mm, to_mm } => vec![line(from_mm, to_mm)],
            Apothem::Below(deep_mm) if self.count > 2 => {
                let meeting = deep_mm / (1.0 - cos);
                vec![line(meeting, meeting)]
            }
            Apothem::Below(_) | Apothem::Meeting => Vec::new(),
        };
        let crossed = edges.iter().flat_map(|edge| crossings(curve, edge));
        crossed.chain([from, to]).collect()
    }

    /// What three or more of them cut away where no others are, by symmetry from one.
    fn cut_alone(&self, place: Point) -> Plane {
        let apothem = self.apothem_mm(place);
        // Written so that what is not a number cuts nothing.
        if !(0.0 < apothem && apothem < place.r) {
            return Plane::default();
        }
        let chord = Chord::alone(place.r, apothem, 0.0).between_likes(self.half_angle().tan());
        let (one, many) = (chord.beyond(place.r), f64::from(self.count));
        let half = (one.xx_mm4 + one.yy_mm4) / 2.0 * many;
        Plane {
            area_mm2: one.area_mm2 * many,
            xx_mm4: half,
            yy_mm4: half,
            ..Plane::default()
        }
    }

    /// Half the angle between neighbours.
    fn half_angle(&self) -> f64 {
        PI / f64::from(self.count)
    }
}
