//! What is not round on a part as it looks: its flats, each in the light that falls on it, and its
//! openings.

use super::facets::Facets;
use super::seen::Seen;
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Paint, Path, Scene, darker, facing};
use quillet_geometry::Point;
use quillet_model::{Part, Profiles, Solid};
use quillet_standards::Colour;

/// The line between two faces, mm, and how much darker it is.
const EDGE_MM: f64 = 0.1;
const EDGE: f64 = 0.45;
/// How dark the inside of an opening is.
const INSIDE: f64 = 0.08;

/// Paints them, in the colour of each place.
pub(super) fn paint(
    scene: &mut Scene,
    (part, solid): (&Part, &Solid),
    view: ViewTransform,
    seen: &Seen,
    colour: &dyn Fn(f64) -> Colour,
) {
    for it in shapes(part, solid, view, seen) {
        let own = colour(it.at_mm);
        let (fill, edge) = match it.upward {
            Some(upward) => (facing(own, upward), facing(own, upward)),
            None => (darker(own, INSIDE), own),
        };
        scene.paint(Paint {
            paths: vec![it.outline],
            fill: Some(fill),
            line: Some((darker(edge, EDGE), EDGE_MM)),
        });
    }
}

/// Draws their outlines.
pub(super) fn lines(
    scene: &mut Scene,
    shown: (&Part, &Solid),
    view: ViewTransform,
    seen: &Seen,
    layer: Layer,
) {
    for it in shapes(shown.0, shown.1, view, seen) {
        scene.stroke(layer, it.outline);
    }
}

/// A face or a mouth on the paper.
struct Shape {
    outline: Path,
    /// A station within it.
    at_mm: f64,
    /// How far a face looks up; none of a mouth.
    upward: Option<f64>,
}

fn shapes(part: &Part, solid: &Solid, view: ViewTransform, seen: &Seen) -> Vec<Shape> {
    let profiles: Option<&Profiles> = part.profiles.as_ref();
    let Some(profiles) = profiles.filter(|it| !it.not_round.is_empty()) else {
        return Vec::new();
    };
    let hidden = |z: f64| {
        let radius = solid.outer.greatest_at(z).unwrap_or(0.0);
        (seen.hides)(Point::new(z, radius))
    };
    let shape = |places: &[Point], upward: Option<f64>| {
        // Below the axis alone nothing is left of what lies over it.
        let low = places.iter().map(|it| it.r).fold(f64::INFINITY, f64::min);
        let cut = |at: &Point| match seen.is_half {
            true => Point::new(at.z, at.r.min(0.0)),
            false => *at,
        };
        let on_paper = |at: Point| view.place(Half::Upper, at);
        let corners: Vec<_> = places.iter().map(cut).map(on_paper).collect();
        let middle = places.iter().map(|it| it.z).sum::<f64>() / places.len().max(1) as f64;
        let shown = places.len() > 2 && !(seen.is_half && low >= 0.0);
        shown.then(|| Shape {
            outline: Path::polygon(&corners),
            at_mm: middle,
            upward,
        })
    };
    let facets = Facets::of(profiles);
    let faces = facets.faces().flat_map(|face| {
        let [one, other] = &face.edges;
        let pairs: Vec<[Point; 2]> = one.iter().zip(other).map(|it| [*it.0, *it.1]).collect();
        let runs = pairs.split(|it| hidden(it[0].z));
        let outline = |run: &[[Point; 2]]| {
            let there = run.iter().map(|it| it[0]);
            let back = run.iter().rev().map(|it| it[1]);
            shape(&there.chain(back).collect::<Vec<_>>(), Some(face.upward))
        };
        runs.filter(|run| run.len() > 1)
            .filter_map(outline)
            .collect::<Vec<_>>()
    });
    let mouths = facets.mouths().filter_map(|mouth| {
        let open = mouth.iter().all(|it| !hidden(it.z));
        open.then(|| shape(&mouth, None)).flatten()
    });
    faces.chain(mouths).collect()
}
