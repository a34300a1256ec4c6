//! A part's outside with its cuts from the side at their deepest, and what stands between them.

use std::f64::consts::PI;

use super::{Floor, SideCut};
use crate::chain::SAME;
use crate::envelope::smallest;
use crate::{Chain, Curve, Point, Tag};

impl SideCut {
    /// The outside at its least radius: the floor where the cuts have one, and nothing where they
    /// open into a room, for there is no wall.
    pub fn low(&self, outside: &Chain, tag: Tag) -> Vec<Chain> {
        match self.floor {
            Floor::Plane(at_mm) => {
                let [start, end] = [self.from_mm, self.to_mm].map(|z| Point::new(z, at_mm));
                smallest(&[outside.clone(), Chain::single(tag, Curve::line(start, end))])
            }
            Floor::Void | Floor::Through => {
                let (from, to) = (outside.start().z, outside.end().z);
                let sides = [(from, self.from_mm.min(to)), (self.to_mm.max(from), to)];
                let left = sides.into_iter().filter(|(from, to)| to - from > SAME);
                left.filter_map(|(from, to)| outside.between(from, to))
                    .collect()
            }
        }
    }

    /// The least metal between neighbours, mm: between the edges where they are deepest, at
    /// `inner_mm` from the axis for cuts that open into a room of that radius. Negative where they
    /// run into each other, none for one alone.
    pub fn between_mm(&self, inner_mm: f64) -> Option<f64> {
        if self.count < 2 {
            return None;
        }
        let half = self.width_mm / 2.0;
        let deep = match self.floor {
            Floor::Plane(at_mm) => at_mm,
            Floor::Void | Floor::Through => ((inner_mm - half) * (inner_mm + half)).max(0.0).sqrt(),
        };
        // Through cuts leave on the other side: an odd number of them comes out between.
        let around = match self.floor {
            Floor::Through if self.count % 2 == 1 => 2 * self.count,
            _ => self.count,
        };
        let (sin, cos) = (PI / f64::from(around)).sin_cos();
        Some(2.0 * (deep * sin - half * cos))
    }
}
