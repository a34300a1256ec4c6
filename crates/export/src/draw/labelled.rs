//! A part in half section with a label at each cut, for the head of its page.

use super::half::half_section;
use super::outline::edge_places;
use super::part::widest_mm;
use super::spread::spread_wide;
use super::view::{Half, ViewTransform};
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};
use quillet_geometry::{Point, put_in_order};
use quillet_model::Part;

/// What stands at a place of the part.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Label {
    /// The size, in large figures.
    pub(crate) size: String,
    /// What it is and how deep.
    pub(crate) caption: String,
    /// Its place: station and radius, mm.
    pub(crate) at: (f64, f64),
    /// It is cut outside: the label stands below.
    pub(crate) below: bool,
}

/// How large its words are: height of a capital, mm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LabelSizes {
    pub(crate) size_mm: f64,
    pub(crate) caption_mm: f64,
    pub(crate) length_mm: f64,
}

/// The widest that the drawing and its greatest radius may be on paper, mm.
const LONGEST_MM: f64 = 164.0;
const HIGHEST_MM: f64 = 18.0;
/// From a label's rule to the drawing at least.
const DROP_MM: f64 = 3.6;

/// The scales it can be drawn at, the largest first.
pub(crate) fn scales(part: &Part) -> Vec<f64> {
    let Some(profiles) = &part.profiles else {
        return Vec::new();
    };
    let (length, radius) = (part.length.to_mm(), widest_mm(profiles));
    let fits = |it: &f64| length * it <= LONGEST_MM && radius * it <= HIGHEST_MM;
    [5.0, 2.0, 1.0, 0.5, 0.2].into_iter().filter(fits).collect()
}

/// Draws it at a scale, as wide as said; none where its shape is not known.
pub(crate) fn labelled(
    part: &Part,
    labels: &[Label],
    length: &str,
    scale: f64,
    (width, sizes): (f64, LabelSizes),
) -> Option<Scene> {
    let profiles = part.profiles.as_ref().filter(|_| part.shaped)?;
    let (long, radius) = (part.length.to_mm() * scale, widest_mm(profiles) * scale);
    let rows = |below: bool| {
        let any = labels.iter().any(|it| it.below == below);
        if any {
            sizes.size_mm + sizes.caption_mm + 5.4 + DROP_MM
        } else {
            2.0
        }
    };
    let (above, below) = (rows(false), rows(true));
    let height = above + 2.0 * radius + below;
    let mut scene = Scene::new(format!("{}, half section", part.name.text), width, height);
    let origin = Xy::new((width - long) / 2.0, below + radius);
    let view = ViewTransform::new(origin, scale);
    let seen = view.region(Half::Lower, &profiles.crest.outer);
    scene.fill(Layer::View, vec![seen]);
    half_section(&mut scene, view, part, profiles, Half::Upper);
    for lower in [false, true] {
        let own = labels.iter().filter(|it| it.below == lower);
        let mut own: Vec<Label> = own.cloned().collect();
        put_in_order(&mut own, |it| it.at.0);
        let sizes = fitted(&mut own, sizes, width);
        rows_of(&mut scene, view, &own, lower, sizes);
    }
    let outer = &profiles.crest.outer;
    let local = |x: f64| {
        let radii = outer.radii_at(x / scale);
        radii.map_or(0.0, |(one, two)| one.min(two)) * scale
    };
    let edges: Vec<f64> = edge_places(outer).iter().map(|it| it.z * scale).collect();
    let about = Outside {
        local: &local,
        edges: &edges,
    };
    dimension(&mut scene, view, (long, radius), (length, about), sizes);
    Some(scene)
}

/// The same for a narrow screen: no wider than a hand, its words as large as they find room.
pub(crate) fn labelled_small(part: &Part, labels: &[Label], length: &str) -> Option<Scene> {
    const WIDTH_MM: f64 = 92.0;
    let long = part.length.to_mm();
    let scale = [2.0, 1.0, 0.5, 0.2]
        .into_iter()
        .find(|it| long * it <= WIDTH_MM - 8.0)?;
    let sizes = |share: f64| LabelSizes {
        size_mm: 3.2 * share,
        caption_mm: 2.3 * share,
        length_mm: 4.2,
    };
    let room = |below: bool| {
        let own = labels.iter().filter(|it| it.below == below);
        own.map(|it| wide(it, sizes(1.0)) + 2.0).sum::<f64>()
    };
    let share = ((WIDTH_MM - 2.0) / room(false).max(room(true))).min(1.0);
    labelled(part, labels, length, scale, (WIDTH_MM, sizes(share)))
}

/// Labels that do not fit side by side are written closer, and what is still too much smaller.
fn fitted(labels: &mut [Label], sizes: LabelSizes, width: f64) -> LabelSizes {
    let total = |labels: &[Label], sizes: LabelSizes| {
        labels.iter().map(|it| wide(it, sizes) + 2.0).sum::<f64>() - 2.0
    };
    if total(labels, sizes) <= width {
        return sizes;
    }
    for label in labels.iter_mut() {
        let close = label.size.replace(" × ", "×");
        label.size = match close.split_once(", ") {
            Some((size, starts)) => format!("{size} ×{}", starts.trim_end_matches(" starts")),
            None => close,
        };
        label.caption = label
            .caption
            .replace("full form", "full")
            .replace("from the ", "");
    }
    let share = (width / total(labels, sizes)).min(1.0);
    LabelSizes {
        size_mm: sizes.size_mm * share,
        caption_mm: sizes.caption_mm * share,
        ..sizes
    }
}

/// How wide a label is, mm.
fn wide(label: &Label, sizes: LabelSizes) -> f64 {
    let text = |height: f64, words: &str| Text::new(Xy::default(), height, words);
    let size = text(sizes.size_mm, &label.size).bold().width_mm();
    size.max(text(sizes.caption_mm, &label.caption).width_mm()) + 3.0
}

/// Labels side by side above or below, each with a line to its place.
fn rows_of(
    scene: &mut Scene,
    view: ViewTransform,
    labels: &[Label],
    below: bool,
    sizes: LabelSizes,
) {
    let widths: Vec<f64> = labels.iter().map(|it| wide(it, sizes)).collect();
    let wanted: Vec<f64> = labels.iter().map(|it| view.axis(it.at.0).x).collect();
    let half = if below { Half::Lower } else { Half::Upper };
    let middles = spread_wide(&wanted, &widths, 2.0, scene.width_mm);
    let rule = match below {
        false => scene.height_mm - sizes.size_mm - sizes.caption_mm - 5.0,
        true => sizes.size_mm + sizes.caption_mm + 5.0,
    };
    for ((label, width), x) in labels.iter().zip(widths).zip(middles) {
        let (size_y, caption_y) = match below {
            false => (rule + sizes.caption_mm + 3.6, rule + 1.5),
            true => (
                rule - sizes.size_mm - 1.5,
                rule - sizes.size_mm - sizes.caption_mm - 3.4,
            ),
        };
        let put = |height: f64, y: f64, words: &str| {
            Text::new(Xy::new(x, y), height, words).anchored(Anchor::Middle)
        };
        scene.text(put(sizes.size_mm, size_y, &label.size).bold());
        scene.text(put(sizes.caption_mm, caption_y, &label.caption));
        let over = width / 2.0 - 1.0;
        let (left, right) = (Xy::new(x - over, rule), Xy::new(x + over, rule));
        scene.line(Layer::Dimension, left, right);
        let place = view.place(half, Point::new(label.at.0, label.at.1));
        let way = if below { 1.0 } else { -1.0 };
        let leader = Path::open(Xy::new(x, rule));
        let leader = leader.line(Xy::new(x, rule + way * 1.2)).line(place);
        scene.stroke(Layer::Dimension, leader);
        scene.fill(Layer::Dimension, vec![Path::circle(place, 0.55)]);
    }
}

/// The lower half that the length stands on: its radius at a place along the paper, and where its edges are, mm.
#[derive(Clone, Copy)]
struct Outside<'a> {
    local: &'a dyn Fn(f64) -> f64,
    edges: &'a [f64],
}

/// The overall length in the lower half.
fn dimension(
    scene: &mut Scene,
    view: ViewTransform,
    (long, radius): (f64, f64),
    (length, about): (&str, Outside),
    sizes: LabelSizes,
) {
    let text = Text::new(Xy::default(), sizes.length_mm, length).bold();
    let gap = text.width_mm() / 2.0 + 1.2;
    let clear = (long, gap, sizes.length_mm);
    let place = figure_place(clear, [0.52 * radius, sizes.length_mm / 2.0 + 1.0], about);
    let y = view.origin.y - place.map_or(0.52 * radius, |it| it.0);
    let (from, to) = (Xy::new(view.origin.x, y), Xy::new(view.origin.x + long, y));
    let middle = from.towards(to, place.map_or(0.5, |it| it.1));
    let inside = place.is_some();
    let text = Text {
        at: match inside {
            true => middle.moved(0.0, -sizes.length_mm / 2.0),
            false => Xy::new(from.x - gap - 1.5, y - sizes.length_mm / 2.0),
        },
        ..text
    };
    let stops = if inside { gap } else { 0.0 };
    scene.line(Layer::Dimension, from, middle.moved(-stops, 0.0));
    scene.line(Layer::Dimension, middle.moved(stops, 0.0), to);
    for (tip, way) in [(from, 1.0), (to, -1.0)] {
        let back = tip.moved(way * 2.6, 0.0);
        let head = [tip, back.moved(0.0, 0.4), back.moved(0.0, -0.4)];
        scene.fill(Layer::Dimension, vec![Path::polygon(&head)]);
        // Where an end is rounded to a point, its station is drawn out to the line.
        let foot = Xy::new(tip.x, view.origin.y);
        scene.line(Layer::Dimension, foot, tip.moved(0.0, -2.0));
    }
    let text = text.anchored(Anchor::Middle);
    if inside {
        // Figures have nothing below their line.
        let high = sizes.length_mm + 0.8;
        let corner = text.at.moved(-gap + 0.6, -0.4);
        let ground = Path::rectangle(corner, 2.0 * gap - 1.2, high);
        scene.fill(Layer::View, vec![ground]);
    }
    scene.text(text);
}

/// Where a figure stands between axis and outline and covers neither, nor an edge where there is room without:
/// how far below the axis, and at which share of the length, near the middle first; none where the part is fat
/// enough nowhere, for a figure so wide to each side of its middle and so high, mm.
fn figure_place(
    (long, gap, high): (f64, f64, f64),
    below: [f64; 2],
    about: Outside,
) -> Option<(f64, f64)> {
    let fat = |below: f64, share: f64| {
        let x = share * long;
        let mut steps = (0..=12).map(|it| x - gap + gap * f64::from(it) / 6.0);
        // The heads of the arrows have room on both sides.
        let beside = x - gap > 4.0 && x + gap < long - 4.0;
        beside
            && below >= high / 2.0 + 0.5
            && steps.all(|it| (about.local)(it) >= below + high / 2.0 + 0.6)
    };
    // To the right of the middle and to the left, in turn.
    let steps = (0..=8).map(|it| 0.05 * f64::from(it));
    let shares: Vec<f64> = steps.flat_map(|it| [0.5 + it, 0.5 - it]).collect();
    let bare = |share: f64| about.edges.iter().all(|it| (it - share * long).abs() > gap);
    let found = |over_edges: bool| {
        let each = below.into_iter().map(|at| {
            let fits = |it: &&f64| fat(at, **it) && (over_edges || bare(**it));
            Some((at, *shares.iter().find(fits)?))
        });
        each.flatten().next()
    };
    found(false).or_else(|| found(true))
}
