//! Where the work stands in its picture.

use super::super::stock::StockProfile;
use super::JAW_MM;
use crate::scene::{Layer, Path, Scene, Xy};

/// How the work lies on the paper.
pub(super) struct WorkPlacement {
    /// Where station 0 lies.
    pub(super) x: f64,
    /// The axis.
    pub(super) y: f64,
    pub(super) scale: f64,
    /// 1 where stations run to the right.
    pub(super) way: f64,
}

impl WorkPlacement {
    pub(super) fn place(&self, station: f64, radius: f64) -> Xy {
        Xy::new(
            self.x + self.way * station * self.scale,
            self.y + radius * self.scale,
        )
    }

    /// Both halves of what is left of the work.
    pub(super) fn region(&self, stock: &StockProfile) -> [Path; 2] {
        self.mirrored(&stock.outline())
    }

    /// An outline above the axis and below it.
    pub(super) fn mirrored(&self, outline: &[(f64, f64)]) -> [Path; 2] {
        [1.0, -1.0].map(|side| {
            let places: Vec<Xy> = outline
                .iter()
                .map(|(z, r)| self.place(*z, side * r))
                .collect();
            Path::polygon(&places)
        })
    }

    /// Solid jaws over a stretch, their noses towards the free end.
    pub(super) fn jaws(&self, scene: &mut Scene, (from, to): (f64, f64), radius: f64) {
        let (back, nose) = if self.way > 0.0 {
            (from, to)
        } else {
            (to, from)
        };
        let taper = (to - from).min(4.0) * self.way;
        for side in [1.0, -1.0] {
            let places = [
                (back, radius),
                (nose, radius),
                (nose, radius + JAW_MM * 0.35),
                (nose - taper, radius + JAW_MM),
                (back, radius + JAW_MM),
            ];
            let places = places.map(|(z, r)| self.place(z, side * r));
            scene.fill(Layer::Solid, vec![Path::polygon(&places)]);
        }
    }
}
