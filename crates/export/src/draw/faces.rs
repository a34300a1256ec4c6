//! What is seen of a part that is not round: the edges of its flats, the diagonals that mark a
//! plane face (ISO 128-3, from memory), and the outlines of its openings.

use super::facets::{Face, Facets};
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Scene, Xy};
use quillet_geometry::Point;
use quillet_model::Profiles;

/// Draws on the half that is seen from outside what is not round there.
pub(super) fn faces(scene: &mut Scene, view: ViewTransform, half: Half, profiles: &Profiles) {
    let paper = Paper { view, half };
    let facets = Facets::of(profiles);
    facets.faces().for_each(|it| paper.flat(scene, &it));
    let mouths = facets.mouths();
    mouths.for_each(|it| paper.stroke(scene, Layer::Outline, &it));
}

/// A half of the view.
struct Paper {
    view: ViewTransform,
    half: Half,
}

impl Paper {
    /// Strokes what of a line, stations and heights over the axis, lies on this half.
    fn stroke(&self, scene: &mut Scene, layer: Layer, line: &[Point]) {
        let over = |at: Point| Point::new(at.z, at.r * self.half.sign());
        for pair in line.windows(2) {
            let (mut from, mut to) = (over(pair[0]), over(pair[1]));
            if from.r < 0.0 && to.r < 0.0 {
                continue;
            }
            let on_axis = |low: Point, high: Point| low + (high - low) * (low.r / (low.r - high.r));
            match (from.r < 0.0, to.r < 0.0) {
                (true, false) => from = on_axis(from, to),
                (false, true) => to = on_axis(to, from),
                _ => {}
            }
            let [from, to]: [Xy; 2] = [from, to].map(|at| self.view.place(self.half, at));
            scene.line(layer, from, to);
        }
    }

    /// A flat that faces the reader: its two edges, its ends, and its diagonals.
    fn flat(&self, scene: &mut Scene, face: &Face) {
        for edge in &face.edges {
            self.stroke(scene, Layer::Outline, edge);
        }
        let [one, other] = &face.edges;
        let (Some([a, b]), Some([c, d])) = (ends(one), ends(other)) else {
            return;
        };
        for end in [[a, c], [b, d]] {
            self.stroke(scene, Layer::Outline, &end);
        }
        for diagonal in [[a, d], [c, b]] {
            self.stroke(scene, Layer::Dimension, &diagonal);
        }
    }
}

fn ends(line: &[Point]) -> Option<[Point; 2]> {
    Some([*line.first()?, *line.last()?])
}
