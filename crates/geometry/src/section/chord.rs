//! `Chord`: what is left of one flat's edge between its neighbours and the disc.

use super::{Flat, FlatSide, Plane};
use crate::side::{Height, Strip};

/// The straight edge that one flat leaves on a section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Chord {
    /// Which flat of those given.
    nth: usize,
    apothem_mm: f64,
    /// Of the flat's middle.
    clock: f64,
    /// Where it begins and ends, along the edge from its middle, clockwise, mm.
    from_mm: f64,
    to_mm: f64,
}

/// Another flat as it lies to one: its angle from that, its apothem, and whether it came before.
struct Neighbour {
    sin: f64,
    cos: f64,
    apothem_mm: f64,
    first: bool,
}

impl Chord {
    /// Of each of the flats that cut a disc, where the others leave something of it; each with its number.
    pub(super) fn all(radius_mm: f64, flats: &[(usize, Flat)]) -> Vec<Chord> {
        let ways: Vec<(f64, f64)> = flats
            .iter()
            .map(|(_, flat)| flat.clock_deg.to_radians().sin_cos())
            .collect();
        let left =
            |nth: usize| {
                let ((given, flat), way) = (flats.get(nth)?, ways.get(nth)?);
                let others = flats.iter().zip(&ways).enumerate();
                let alone = Chord::alone(radius_mm, flat.apothem_mm, flat.clock_deg);
                let numbered = Chord {
                    nth: *given,
                    ..alone
                };
                numbered.between(others.filter(|(at, _)| *at != nth).map(
                    |(at, ((_, other), to))| Neighbour {
                        sin: to.0 * way.1 - to.1 * way.0,
                        cos: to.0 * way.0 + to.1 * way.1,
                        apothem_mm: other.apothem_mm,
                        first: at < nth,
                    },
                ))
            };
        (0..flats.len()).filter_map(left).collect()
    }

    /// What others leave of it: places s along the edge with s sin φ ≤ b - a cos φ. Of two that
    /// are the same within 1e-12 the first is left.
    fn between(mut self, others: impl Iterator<Item = Neighbour>) -> Option<Chord> {
        for other in others {
            let room = other.apothem_mm - self.apothem_mm * other.cos;
            if other.sin.abs() >= 1e-12 {
                let end = room / other.sin;
                if other.sin > 0.0 {
                    self.to_mm = self.to_mm.min(end);
                } else {
                    self.from_mm = self.from_mm.max(end);
                }
            } else if other.cos > 0.0 {
                let same = room.abs() <= 1e-12 * self.apothem_mm;
                if (same && other.first) || (!same && room < 0.0) {
                    return None;
                }
            }
        }
        (self.from_mm < self.to_mm).then_some(self)
    }

    /// Of a flat that no other touches; its apothem is less than the radius.
    pub(super) fn alone(radius_mm: f64, apothem_mm: f64, clock_deg: f64) -> Chord {
        let half = ((radius_mm - apothem_mm) * (radius_mm + apothem_mm)).sqrt();
        Chord {
            nth: 0,
            apothem_mm,
            clock: clock_deg.to_radians(),
            from_mm: -half,
            to_mm: half,
        }
    }

    /// Cut off by like flats at this share of the apothem on both sides.
    pub(super) fn between_likes(self, tan: f64) -> Chord {
        let half = self.apothem_mm * tan;
        Chord {
            from_mm: self.from_mm.max(-half),
            to_mm: self.to_mm.min(half),
            ..self
        }
    }

    /// The integrals over what it cuts off the disc: the sector over the edge less the triangle
    /// under it, both from the axis (Green's theorem, in closed form).
    pub(super) fn beyond(&self, radius_mm: f64) -> Plane {
        let (a, s, t) = (self.apothem_mm, self.from_mm, self.to_mm);
        let [low, high] = self.angles();
        let (sin_low, cos_low) = low.sin_cos();
        let (sin_high, cos_high) = high.sin_cos();
        let (square, cube) = (radius_mm.powi(2), radius_mm.powi(3));
        let fourth = square * square / 8.0;
        let double = sin_high * cos_high - sin_low * cos_low;
        // Along the flat's own direction (n) and along its edge (t).
        let area = square * (high - low) / 2.0 - a * (t - s) / 2.0;
        let n = cube / 3.0 * (sin_high - sin_low) - a * a * (t - s) / 3.0;
        let along = cube / 3.0 * (cos_low - cos_high) - a * (t * t - s * s) / 6.0;
        let nn = fourth * (high - low + double) - a.powi(3) * (t - s) / 4.0;
        let tt = fourth * (high - low - double) - a * (t.powi(3) - s.powi(3)) / 12.0;
        let nt = fourth * (sin_high.powi(2) - sin_low.powi(2)) - a * a * (t * t - s * s) / 8.0;
        let (sin, cos) = self.clock.sin_cos();
        Plane {
            area_mm2: area,
            x_mm3: n * cos - along * sin,
            y_mm3: n * sin + along * cos,
            xx_mm4: nn * cos * cos - 2.0 * nt * sin * cos + tt * sin * sin,
            yy_mm4: nn * sin * sin + 2.0 * nt * sin * cos + tt * cos * cos,
            xy_mm4: (nn - tt) * sin * cos + nt * (cos * cos - sin * sin),
        }
    }

    /// From the axis to its two ends, mm.
    pub(super) fn ends_mm(&self) -> [f64; 2] {
        [self.from_mm, self.to_mm].map(|along| self.apothem_mm.hypot(along))
    }

    /// From the axis to its nearest place, mm.
    pub(super) fn nearest_mm(&self) -> f64 {
        let along = 0.0_f64.clamp(self.from_mm, self.to_mm);
        self.apothem_mm.hypot(along)
    }

    /// From the axis to its line in a direction; none where they never meet.
    pub(super) fn at_mm(&self, clock_deg: f64) -> Option<f64> {
        let cos = (clock_deg.to_radians() - self.clock).cos();
        (cos > 0.0).then(|| self.apothem_mm / cos)
    }

    /// The same along a line beside the axis, `y_mm` to its clockwise side.
    pub(super) fn reach_mm(&self, clock_deg: f64, y_mm: f64) -> Option<f64> {
        let (sin, cos) = (self.clock - clock_deg.to_radians()).sin_cos();
        (cos > 1e-12).then(|| ((self.apothem_mm - y_mm * sin) / cos).max(0.0))
    }

    /// Its line as a bound of what is seen from a direction.
    pub(super) fn bound(&self, clock_deg: f64, strip: &mut Strip) {
        let (sin, cos) = (self.clock - clock_deg.to_radians()).sin_cos();
        if cos.abs() < 1e-12 {
            let [from, to] = &mut strip.beside_mm;
            if sin > 0.0 {
                *to = to.min(self.apothem_mm);
            } else {
                *from = from.max(-self.apothem_mm);
            }
            return;
        }
        let edge = Height::Straight {
            at_mm: self.apothem_mm / cos,
            slope: -sin / cos,
        };
        if cos > 0.0 {
            strip.under.push(edge);
        } else {
            strip.over.push(edge);
        }
    }

    /// The angle it takes up at the axis.
    pub(super) fn angle(&self) -> f64 {
        let [low, high] = self.angles();
        high - low
    }

    /// As a side of the section's outline.
    pub(super) fn side(&self) -> FlatSide {
        let [low, high] = self.angles();
        let first = (self.clock + low).to_degrees().rem_euclid(360.0);
        FlatSide {
            nth: self.nth,
            length_mm: self.to_mm - self.from_mm,
            ends_deg: [first, first + (high - low).to_degrees()],
        }
    }

    /// The directions of its two ends, degrees in 0..360.
    pub(super) fn directions_deg(&self) -> [f64; 2] {
        self.angles()
            .map(|angle| (self.clock + angle).to_degrees().rem_euclid(360.0))
    }

    /// The directions of its two ends from its middle's.
    fn angles(&self) -> [f64; 2] {
        [self.from_mm, self.to_mm].map(|along| along.atan2(self.apothem_mm))
    }
}

#[cfg(test)]
mod tests {
    use super::super::Section;
    use super::*;

    fn flat(apothem_mm: f64, clock_deg: f64) -> Flat {
        Flat {
            apothem_mm,
            clock_deg,
        }
    }

    fn close(found: f64, wanted: f64) {
        assert!((found - wanted).abs() < 1e-9, "{found}, {wanted} wanted");
    }

    /// Sides of a hexagon are as long as from the axis to its corners; a flat outside the disc keeps its number to
    /// itself.
    #[test]
    fn the_sides_of_a_section_are_those_of_its_flats() {
        let hexagon = (0..6).map(|nth| flat(6.0, 60.0 * f64::from(nth) - 50.0));
        let flats: Vec<Flat> = [flat(9.0, 0.0)].into_iter().chain(hexagon).collect();
        let sides = Section::cut(8.0, &flats).unwrap().flat_sides();
        let order: Vec<usize> = sides.iter().map(|side| side.nth).collect();
        // Those that face 70°, 130°, ..., 310° and 10°; the last begins at 340°.
        assert_eq!(order, [3, 4, 5, 6, 1, 2]);
        for (side, next) in sides.iter().zip(sides.iter().cycle().skip(1)) {
            close(side.length_mm, 6.0 / 30_f64.to_radians().cos());
            close(side.ends_deg[1] - side.ends_deg[0], 60.0);
            let behind = (next.ends_deg[0] - side.ends_deg[1]).rem_euclid(360.0);
            assert!(behind.min(360.0 - behind) < 1e-9, "{behind}");
        }
    }
}
