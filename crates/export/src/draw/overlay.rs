//! An old shape of a part under its new one, and by how much they differ.

mod graph;

use super::difference::{Band, Difference};
use super::figures::LengthFormat;
use super::part::{scale_text, widest_mm, wrapped};
use super::view::{Half, ViewTransform};
use super::{half, outline};
use crate::scene::{Anchor, Hatch, Layer, Path, Scene, Text, Xy, hatch};
use graph::Graph;
use quillet_geometry::Point;
use quillet_model::{Part, Solid, Units};

/// How wide the picture is, and how long and wide the part may be on it, mm.
const WIDTH_MM: f64 = 186.0;
const LONGEST_MM: f64 = 164.0;
const HIGHEST_MM: f64 = 30.0;
/// The difference may stand so high over its line, mm.
const TALL_MM: f64 = 15.0;
/// Heights of a capital: the title, words, figures, mm.
const TITLE_MM: f64 = 3.6;
const WORDS_MM: f64 = 2.4;
const FIGURE_MM: f64 = 2.8;

/// The hatch of what is gone.
pub(super) const PATTERN: Hatch = Hatch {
    angle_deg: 45.0,
    spacing_mm: 1.0,
};

/// True where a part is another shape than it was.
pub fn differs(old: &Part, new: &Part) -> bool {
    match (&old.profiles, &new.profiles) {
        (Some(old), Some(new)) => !Difference::of(&old.crest, &new.crest).is_none(),
        _ => false,
    }
}

/// A part's old shape dashed, its new one solid, what is gone hatched and what has come in ink; below, by
/// how much the outside differs on diameter, and these lines. None where either shape is not known.
///
/// Radii are drawn `stretch` times as high, which the title says.
pub fn overlay(
    old: &Part,
    new: &Part,
    lines: &[String],
    units: Units,
    stretch: f64,
) -> Option<Scene> {
    let (was, is) = (old.profiles.as_ref()?, new.profiles.as_ref()?);
    let long = old.length.to_mm().max(new.length.to_mm());
    let radius = widest_mm(was).max(widest_mm(is));
    let scale = scale_that_fits(long, radius * stretch, stretch)?;
    let half_mm = radius * scale * stretch;
    let figures = LengthFormat(units);
    let graph = Graph::of(was, is, scale, figures);
    let room = WIDTH_MM - (WIDTH_MM - LONGEST_MM) / 2.0 - 4.0;
    let lines: Vec<String> = lines
        .iter()
        .flat_map(|it| wrapped(it, room, WORDS_MM))
        .collect();
    let foot = lines.len() as f64 * 5.2;
    let high = 2.0 * half_mm;
    let height = 6.0 + foot + graph.height_mm() + high + 24.0;
    let name = &new.name.text;
    let mut scene = Scene::new(format!("{name}, old under new"), WIDTH_MM, height);
    scene.scale = scale;
    let left = (WIDTH_MM - LONGEST_MM) / 2.0;
    head(
        &mut scene,
        &format!("{name}, old under new, {}", scale_words(scale, stretch)),
        left,
    );
    let origin = Xy::new(left, height - 18.0 - half_mm);
    let view = ViewTransform::new(origin, scale).stretched(stretch);
    shapes(&mut scene, view, (&was.crest, &is.crest), long);
    let top = origin.y - half_mm - 6.0;
    graph.draw(&mut scene, Xy::new(left, top));
    for (at, line) in lines.iter().enumerate() {
        let y = 6.0 + foot - 5.2 * (at + 1) as f64 + 1.5;
        scene.text(Text::new(Xy::new(left, y), WORDS_MM, line.as_str()));
    }
    Some(scene)
}

/// The greatest scale at which a shape fits the picture; one whose radii are stretched may be higher.
pub(super) fn scale_that_fits(long: f64, radius: f64, stretch: f64) -> Option<f64> {
    let highest = HIGHEST_MM * stretch.min(2.0);
    let fits = |it: &f64| long * it <= LONGEST_MM && radius * it <= highest;
    [5.0, 2.0, 1.0, 0.5, 0.2, 0.1].into_iter().find(fits)
}

/// `2:1`, `1:1, radii 4 times`.
pub(super) fn scale_words(scale: f64, stretch: f64) -> String {
    let scale = scale_text(scale);
    match stretch > 1.0 {
        true => format!("{scale}, radii {stretch} times"),
        false => scale,
    }
}

/// The title, smaller where it would not fit, and what each kind of line and ground means.
pub(super) fn head(scene: &mut Scene, title: &str, left: f64) {
    let base = scene.height_mm - 9.0;
    let mut right = WIDTH_MM - left;
    let middle = base + WORDS_MM / 2.0;
    for (words, layer) in [
        ("come", Layer::Solid),
        ("gone", Layer::Cut),
        ("new", Layer::Outline),
        ("old", Layer::Uncut),
    ] {
        let text = Text::new(Xy::new(right, base), WORDS_MM, words).anchored(Anchor::End);
        let x = right - text.width_mm() - 2.0;
        scene.text(text);
        let sample = Path::rectangle(Xy::new(x - 7.0, middle - 2.0), 7.0, 4.0);
        match layer {
            Layer::Solid => scene.fill(layer, vec![sample]),
            Layer::Cut => gone(scene, &[sample]),
            _ => scene.line(layer, Xy::new(x - 7.0, middle), Xy::new(x, middle)),
        }
        right = x - 12.0;
    }
    let title = |high| Text::new(Xy::new(left, base), high, title).bold();
    let fits = (right - left) / title(TITLE_MM).width_mm();
    scene.text(title(TITLE_MM * fits.min(1.0)));
}

/// Both shapes, above and below the axis.
pub(super) fn shapes(
    scene: &mut Scene,
    view: ViewTransform,
    (old, new): (&Solid, &Solid),
    long: f64,
) {
    let difference = Difference::of(old, new);
    for half in [Half::Upper, Half::Lower] {
        scene.fill(Layer::View, outline::region(view, half, new));
        let path = |band: &Band| ribbon(band, |z, r| view.place(half, Point::new(z, r)));
        let taken: Vec<Path> = difference.gone.iter().map(path).collect();
        gone(scene, &taken);
        let come: Vec<Path> = difference.come.iter().map(path).collect();
        come.into_iter()
            .for_each(|it| scene.fill(Layer::Solid, vec![it]));
        edges(scene, Layer::Uncut, view, half, old);
        edges(scene, Layer::Outline, view, half, new);
    }
    half::axis(scene, view, long);
}

/// The outside, the bores and the faces at both ends.
fn edges(scene: &mut Scene, layer: Layer, view: ViewTransform, half: Half, solid: &Solid) {
    scene.stroke(layer, view.path(half, &solid.outer));
    for bore in &solid.inner {
        scene.stroke(layer, view.path(half, bore));
    }
    for end in [solid.outer.start(), solid.outer.end()] {
        let bored = Point::new(end.z, solid.bore_radius(end.z));
        scene.line(layer, view.place(half, end), view.place(half, bored));
    }
}

/// Ground, hatch and edge of what is gone.
fn gone(scene: &mut Scene, paths: &[Path]) {
    for path in paths {
        let region = vec![path.clone()];
        scene.fill(Layer::CutGround, region.clone());
        scene.lines(Layer::Cut, hatch(&region, None, &[], PATTERN));
        scene.stroke(Layer::Cut, path.clone());
    }
}

/// Forward along the upper edge, back along the lower.
fn ribbon(band: &Band, place: impl Fn(f64, f64) -> Xy) -> Path {
    let upper = band.iter().map(|(z, _, high)| place(*z, *high));
    let lower = band.iter().rev().map(|(z, low, _)| place(*z, *low));
    Path::polygon(&upper.chain(lower).collect::<Vec<_>>())
}
