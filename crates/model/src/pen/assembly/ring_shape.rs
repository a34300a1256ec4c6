//! The shape of an O-ring in its groove: as it is stretched, and as its mate squeezes it.

use super::SeatedRing;
use crate::{Configuration, Cut, Part, Pen, Ring, Solid};
use quillet_geometry::{Arc, Chain, Curve, Point, Segment, Tag};
use std::f64::consts::PI;

/// A ring as it lies: flat on what presses it, round between, its volume that of the ring as bought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingShape {
    /// The middle of the groove, a station of its part, mm.
    pub station_mm: f64,
    /// From the axis to the middle of what the ring is made of, mm.
    pub middle_mm: f64,
    /// How thick it is across the axis, mm.
    pub thick_mm: f64,
    /// How wide it is along the axis, mm.
    pub wide_mm: f64,
}

impl SeatedRing {
    /// The ring's shape in a configuration of its pen; none where its groove or its size is not known.
    /// Where the mate is not there, nothing squeezes it.
    pub fn shape(&self, pen: &Pen, configuration: &Configuration) -> Option<RingShape> {
        let part: &Part = pen.parts.get(self.part)?;
        let size = self.ring.ring()?;
        let feature = part.features.get(self.feature)?;
        let (from, to) = feature.stations(part.length);
        let floor_mm = feature.dia()?.to_mm() / 2.0;
        let outward = match feature.cut {
            Cut::Recess { .. } => -1.0,
            _ => 1.0,
        };
        let there = |it: &&super::RingSeal| {
            configuration
                .places
                .get(it.mate)
                .is_some_and(Option::is_some)
        };
        let room_mm = self.seal.as_ref().filter(there).map(|it| it.room_mm);
        let (middle_mm, thick_mm, wide_mm) = lying(size, floor_mm, outward, room_mm);
        Some(RingShape {
            station_mm: (from.to_mm() + to.to_mm()) / 2.0,
            middle_mm,
            thick_mm,
            wide_mm,
        })
    }
}

/// Middle, thickness and width of a ring over a floor, its mate so far from it; mm.
fn lying(size: &Ring, floor_mm: f64, outward: f64, room_mm: Option<f64>) -> (f64, f64, f64) {
    let (inside, cord) = (size.inside.to_mm(), size.cord.to_mm());
    let own = (inside + cord) / 2.0;
    let volume = PI * PI / 2.0 * cord * cord * own;
    // A ring that the groove neither stretches nor presses together lies as it was bought.
    let loose = outward * (own - outward * cord / 2.0 - floor_mm) > 0.0;
    let (middle, radius) = match loose {
        true => (own, cord / 2.0),
        false => stretched(volume, floor_mm, outward, cord / 2.0),
    };
    match room_mm.filter(|room| *room < 2.0 * radius) {
        None => (middle, 2.0 * radius, 2.0 * radius),
        Some(room) => {
            let middle = floor_mm + outward * room / 2.0;
            let section = volume / (2.0 * PI * middle);
            (middle, room, section / room + (1.0 - PI / 4.0) * room)
        }
    }
}

/// The middle and the radius of a round cord on a floor, its volume kept.
fn stretched(volume: f64, floor_mm: f64, outward: f64, cord_mm: f64) -> (f64, f64) {
    let mut radius = cord_mm;
    // Each step shrinks what it is off by at least half.
    for _ in 0..60 {
        let middle = (floor_mm + outward * radius).max(radius);
        radius = (volume / (2.0 * PI * PI * middle)).sqrt();
    }
    (floor_mm + outward * radius, radius)
}

impl RingShape {
    /// What it is made of, mm³, by Pappus: its section carried round the axis.
    pub fn volume_mm3(&self) -> f64 {
        let (thick, wide) = (self.thick_mm, self.wide_mm);
        2.0 * PI * self.middle_mm * (PI / 4.0 * thick * thick + (wide - thick) * thick)
    }

    /// It as a solid over its part's stations; none where it has no width.
    pub fn solid(&self) -> Option<Solid> {
        Some(Solid {
            outer: self.side(1.0)?,
            inner: vec![self.side(-1.0)?],
        })
    }

    /// From end to end on the one side or the other.
    fn side(&self, way: f64) -> Option<Chain> {
        let (half, round) = (self.wide_mm / 2.0, self.thick_mm / 2.0);
        let at = |z: f64, r: f64| Point::new(self.station_mm + z, self.middle_mm + way * r);
        let places = [
            at(-half, 0.0),
            at(round - half, round),
            at(half - round, round),
            at(half, 0.0),
        ];
        let piece = |curve: Curve| Segment { curve, tag: Tag(0) };
        let bow = |from, to| {
            Arc::circular(from, to, round, way > 0.0)
                .map(Curve::Arc)
                .map(piece)
        };
        let flat = (half - round > 1e-6).then(|| piece(Curve::line(places[1], places[2])));
        let near = bow(places[0], places[1])?;
        // Without a flat both bows meet in one place.
        let far = bow(flat.map_or(places[1], |_| places[2]), places[3])?;
        Chain::new([Some(near), flat, Some(far)].into_iter().flatten())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quillet_geometry::Length;

    fn ring() -> Ring {
        Ring {
            inside: Length::mm(6.9),
            cord: Length::mm(1.0),
            span: quillet_syntax::Span::default(),
        }
    }

    /// A torus of 6.9 by 1 holds π²/4 · 1² · 7.9 mm³ (Pappus), however it lies.
    #[test]
    fn a_ring_keeps_its_volume_however_it_lies() {
        let torus = PI * PI / 4.0 * 7.9;
        for (floor, outward, room) in [
            (3.5, 1.0, None),
            (3.5, 1.0, Some(0.8)),
            (3.45, 1.0, Some(0.7)),
            (3.3, 1.0, None),
            (4.3, -1.0, Some(0.85)),
            (4.3, -1.0, None),
            (3.5, 1.0, Some(2.0)),
        ] {
            let (middle_mm, thick_mm, wide_mm) = lying(&ring(), floor, outward, room);
            let shape = RingShape {
                station_mm: 5.0,
                middle_mm,
                thick_mm,
                wide_mm,
            };
            let off = shape.volume_mm3() / torus - 1.0;
            assert!(off.abs() < 1e-9, "{floor} {outward} {room:?}: {off}");
            assert!(room.is_none_or(|room| thick_mm <= room), "{thick_mm}");
        }
    }

    #[test]
    fn a_squeezed_ring_lies_on_the_floor_and_on_its_mate() {
        let (middle, thick, wide) = lying(&ring(), 3.5, 1.0, Some(0.8));
        assert_eq!((middle, thick), (3.9, 0.8));
        assert!(wide > 1.0, "{wide}");
        // Free and not stretched: as bought.
        assert_eq!(lying(&ring(), 3.3, 1.0, None), (3.95, 1.0, 1.0));
    }

    #[test]
    fn its_sides_meet_at_its_ends() {
        for wide in [1.0, 1.3] {
            let shape = RingShape {
                station_mm: 5.0,
                middle_mm: 3.9,
                thick_mm: 1.0,
                wide_mm: wide,
            };
            let Solid { outer, inner } = shape.solid().expect("it has a width");
            let inner = &inner[0];
            assert_eq!((outer.start(), outer.end()), (inner.start(), inner.end()));
            let reach = (outer.greatest_at(5.0), inner.least_at(5.0));
            assert_eq!(reach, (Some(4.4), Some(3.4)), "{wide}");
        }
    }
}
