//! What of a part is seen where others lie before it.

use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Path, Scene};
use quillet_geometry::{Chain, Curve, Point, Tag};

/// What lies before a part: in the cut, and on the paper.
pub(super) struct Occluders<'a> {
    /// True for places of the part's meridian plane that others hide.
    pub(super) hides: &'a dyn Fn(Point) -> bool,
    /// How its own outline is drawn.
    pub(super) outline: Layer,
    /// The regions of the others on the paper.
    pub(super) covers: &'a [Vec<Path>],
}

/// Nothing lies before it.
pub(super) const ALONE: Occluders<'static> = Occluders {
    hides: &|_| false,
    outline: Layer::Outline,
    covers: &[],
};

impl Occluders<'_> {
    /// Strokes what is seen of a chain.
    pub(super) fn stroke(&self, scene: &mut Scene, view: ViewTransform, half: Half, chain: &Chain) {
        if self.covers.is_empty() {
            return scene.stroke(self.outline, view.path(half, chain));
        }
        for segment in chain.segments() {
            self.curve(scene, self.outline, view, half, &segment.curve);
        }
    }

    /// Strokes what is seen of a straight line.
    pub(super) fn line(
        &self,
        scene: &mut Scene,
        layer: Layer,
        view: ViewTransform,
        half: Half,
        from: Point,
        to: Point,
    ) {
        self.curve(scene, layer, view, half, &Curve::line(from, to));
    }

    fn curve(
        &self,
        scene: &mut Scene,
        layer: Layer,
        view: ViewTransform,
        half: Half,
        curve: &Curve,
    ) {
        for (from, to) in self.stretches(curve) {
            let piece = Chain::single(Tag(0), curve.between_params(from, to));
            scene.stroke(layer, view.path(half, &piece));
        }
    }

    /// The stretches of a curve's parameter that are seen.
    fn stretches(&self, curve: &Curve) -> Vec<(f64, f64)> {
        if self.covers.is_empty() {
            return vec![(0.0, 1.0)];
        }
        let length = curve.start().distance(curve.end());
        let count = ((length / 0.2).ceil() as u32).clamp(8, 800);
        let middle = |step: u32| (f64::from(step) + 0.5) / f64::from(count);
        let hidden = |t: f64| (self.hides)(curve.point(t));
        let mut seen = Vec::new();
        let mut from = (!hidden(middle(0))).then_some(0.0);
        for step in 1..count {
            match (from, hidden(middle(step))) {
                (Some(start), true) => {
                    seen.push((start, turn(&hidden, middle(step - 1), middle(step))));
                    from = None;
                }
                (None, false) => from = Some(turn(&hidden, middle(step - 1), middle(step))),
                _ => {}
            }
        }
        seen.extend(from.map(|start| (start, 1.0)));
        seen
    }
}

/// Where between two parameters a curve goes out of sight or comes into it.
fn turn(hidden: &dyn Fn(f64) -> bool, mut from: f64, mut to: f64) -> f64 {
    let first = hidden(from);
    for _ in 0..30 {
        let middle = (from + to) / 2.0;
        if hidden(middle) == first {
            from = middle
        } else {
            to = middle
        }
    }
    (from + to) / 2.0
}

/// How much of a part is seen.
pub(super) struct Seen<'a> {
    /// True for places of its surface that others hide.
    pub(super) hides: &'a dyn Fn(Point) -> bool,
    /// Only what lies below the axis.
    pub(super) is_half: bool,
}

/// Nothing lies before it.
pub(super) const WHOLE: Seen<'static> = Seen {
    hides: &|_| false,
    is_half: false,
};

impl Seen<'_> {
    pub(super) fn halves(&self) -> &'static [Half] {
        match self.is_half {
            true => &[Half::Lower],
            false => &[Half::Upper, Half::Lower],
        }
    }
}
