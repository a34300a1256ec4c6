//! Holes on a pitch circle: in a section along the part one of them is turned into its plane (ISO 128-3,
//! from memory).

use super::figures::LengthFormat;
use super::seen::Occluders;
use super::view::{Half, ViewTransform};
use crate::scene::{Layer, Path, Scene};
use quillet_geometry::{Circle, Length, Point};
use quillet_model::{CircleHoles, End, Part};

/// How far the axis of a hole is drawn beyond it, mm on the paper.
const PAST_MM: f64 = 2.0;

fn circles(part: &Part) -> impl Iterator<Item = &Circle> {
    part.profiles.iter().flat_map(|it| &it.not_round.circles)
}

/// What is open of a half that is cut, for its hatching.
pub(super) fn regions(view: ViewTransform, half: Half, part: &Part) -> impl Iterator<Item = Path> {
    circles(part).map(move |it| Path::polygon(&it.outline().map(|at| view.place(half, at))))
}

/// Their outlines on the cut half, and their axes.
pub(super) fn outlines(
    scene: &mut Scene,
    view: ViewTransform,
    half: Half,
    part: &Part,
    before: &Occluders,
) {
    for hole in circles(part) {
        let all = hole.outline();
        for (nth, from) in all.iter().enumerate() {
            let to = all[(nth + 1) % all.len()];
            before.line(scene, before.outline, view, half, *from, to);
        }
        let past = PAST_MM / view.scale;
        let [from, to] = [
            hole.from_mm - hole.tips_mm[0] - past,
            hole.to_mm + hole.tips_mm[1] + past,
        ];
        let axis = [from, to].map(|z| Point::new(z, hole.on_mm / 2.0));
        before.line(scene, Layer::Axis, view, half, axis[0], axis[1]);
    }
}

/// Where each set is dimensioned, from which end unless it goes through, and what it is:
/// `6× ⌀2 on ⌀9`.
pub(super) fn dimensions(part: &Part, figures: LengthFormat) -> Vec<(Point, Option<End>, String)> {
    let said = |holes: &CircleHoles| {
        let radius = (holes.on + holes.dia).to_mm() / 2.0;
        let words = words(holes, figures);
        match holes.through {
            true => {
                let middle = part.length.to_mm() / 2.0;
                (Point::new(middle, radius), None, format!("{words} through"))
            }
            false => {
                let floor = part.station(holes.end, holes.to).to_mm();
                (Point::new(floor, radius), Some(holes.end), words)
            }
        }
    };
    part.circles().iter().map(said).collect()
}

/// `6× ⌀2 on ⌀9`.
pub(super) fn words(holes: &CircleHoles, figures: LengthFormat) -> String {
    let count = match holes.around.count {
        1 => String::new(),
        count => format!("{count}× "),
    };
    let size = match holes.point {
        Some(_) => figures.drilled(holes.dia),
        None => dia(holes.dia, figures),
    };
    format!("{count}{size} on {}", dia(holes.on, figures))
}

fn dia(size: Length, figures: LengthFormat) -> String {
    figures.dia(size.to_mm() / 2.0)
}
