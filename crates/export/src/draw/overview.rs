//! A pen in its configurations, with lengths, balance, contacts and clearances.

use super::callouts::{Callout, CalloutSubject, callouts};
use super::detail::Detail;
use super::figures::LengthFormat;
use super::member::PenView;
use super::spread::spread;
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};
use quillet_model::{Configured, Pen, Units};

/// The picture of a pen, and the legend to its numbers.
#[derive(Clone, Debug)]
pub struct Overview {
    /// One view above the other.
    pub scene: Scene,
    /// What the numbers mean.
    pub callouts: Vec<Callout>,
    /// Paper millimetres for each of the pen's.
    pub scale: f64,
}

/// Room above and below a view for numbers and lengths, mm.
const ABOVE_MM: f64 = 13.0;
const BELOW_MM: f64 = 11.0;
/// Room left and right of a view, mm.
const SIDE_MM: f64 = 8.0;

/// Draws a pen in each of its configurations, at most `width_mm` wide; none where it could not be
/// put together.
pub fn overview(pen: &Pen, width_mm: f64, units: Units) -> Option<Overview> {
    overview_with(pen, width_mm, None, LengthFormat(units))
}

/// The same, with what a detail shows marked on the capped pen.
pub(super) fn overview_with(
    pen: &Pen,
    width_mm: f64,
    detail: Option<&Detail>,
    figures: LengthFormat,
) -> Option<Overview> {
    let views: Vec<(Configured, CalloutSubject)> = [
        (Configured::Capped, CalloutSubject::Capped),
        (Configured::Uncapped, CalloutSubject::Uncapped),
        (Configured::Posted, CalloutSubject::Posted),
    ]
    .into_iter()
    .filter(|(configured, _)| pen.assembly.configuration(*configured).is_some())
    .collect();
    let lengths = views
        .iter()
        .filter_map(|it| Some(pen.assembly.configuration(it.0)?.drawn_mm));
    let longest = lengths.fold(0.0, f64::max);
    if longest <= 0.0 {
        return None;
    }
    let scale = scale_for(longest, 2.0 * SIDE_MM, width_mm)?;
    let view = |configured: Configured| {
        let configuration = pen.assembly.configuration(configured)?;
        Some(PenView {
            pen,
            configuration,
            origin: Xy::default(),
            scale,
        })
    };
    let radii: Vec<f64> = views
        .iter()
        .filter_map(|it| view(it.0))
        .map(|view| view.radius_mm() * scale)
        .collect();
    let height: f64 = radii
        .iter()
        .map(|radius| 2.0 * radius + ABOVE_MM + BELOW_MM)
        .sum();
    let width = longest * scale + 2.0 * SIDE_MM;
    let title = pen.title_or_name();
    let mut scene = Scene::new(format!("{title}, put together"), width, height);
    let (mut all, mut top) = (Vec::new(), height);
    for ((configured, about), radius) in views.into_iter().zip(radii) {
        let Some(mut view) = view(configured) else {
            continue;
        };
        view.origin = Xy::new(SIDE_MM, top - ABOVE_MM - radius);
        view.draw(&mut scene);
        if let Some(detail) = detail.filter(|_| configured == Configured::Capped) {
            detail.mark(&mut scene, &view);
        }
        let numbers = callouts(pen, about, all.len() + 1, figures);
        numbered(&mut scene, &view, &numbers, top);
        measures(&mut scene, &view, configured, (radius, figures));
        all.extend(numbers);
        top -= 2.0 * radius + ABOVE_MM + BELOW_MM;
    }
    Some(Overview {
        scene,
        callouts: all,
        scale,
    })
}

/// The greatest scale of ISO 5455 at which a length and the room beside it fit a width, mm.
pub(super) fn scale_for(length_mm: f64, beside_mm: f64, width_mm: f64) -> Option<f64> {
    let scales = [5.0, 2.0, 1.0, 0.5, 0.2, 0.1];
    scales
        .into_iter()
        .find(|scale| length_mm * scale + beside_mm <= width_mm)
}

/// Numbers above the view, each with a line to its place.
fn numbered(scene: &mut Scene, view: &PenView, callouts: &[Callout], top: f64) {
    let mut places: Vec<(Xy, &Callout)> = callouts
        .iter()
        .filter_map(|callout| {
            let axis = view.axis(callout.spot.part, callout.spot.station_mm)?;
            Some((
                axis.moved(0.0, callout.spot.radius_mm * view.scale),
                callout,
            ))
        })
        .collect();
    places.sort_by(|a, b| a.0.x.total_cmp(&b.0.x).then(a.1.number.cmp(&b.1.number)));
    let wanted: Vec<f64> = places.iter().map(|place| place.0.x).collect();
    let columns = spread(&wanted, 6.0, 4.0, scene.width_mm - 4.0);
    for ((at, callout), x) in places.into_iter().zip(columns) {
        let middle = Xy::new(x, top - 4.0);
        let foot = middle.moved(0.0, -2.5);
        let layer = if callout.touches {
            Layer::Contact
        } else {
            Layer::Dimension
        };
        scene.stroke(layer, Path::open(foot).line(foot.moved(0.0, -1.5)).line(at));
        scene.fill(layer, vec![Path::circle(at, 0.6)]);
        scene.stroke(layer, Path::circle(middle, 2.5));
        let words = callout.number.to_string();
        scene.text(Text::new(middle.moved(0.0, -1.1), 2.2, words).anchored(Anchor::Middle));
    }
}

/// The length below the view, and the place where it balances.
fn measures(
    scene: &mut Scene,
    view: &PenView,
    configured: Configured,
    (radius, figures): (f64, LengthFormat),
) {
    let (origin, scale) = (view.origin, view.scale);
    let y = -radius - 6.5;
    let (from, to) = (
        origin.moved(0.0, y),
        origin.moved(view.configuration.drawn_mm * scale, y),
    );
    scene.line(Layer::Dimension, from, to);
    for (end, way) in [(from, 1.0), (to, -1.0)] {
        let back = end.moved(way * 2.5, 0.0);
        let head = [end, back.moved(0.0, 0.33), back.moved(0.0, -0.33)];
        scene.fill(Layer::Dimension, vec![Path::polygon(&head)]);
        scene.line(Layer::Dimension, end.moved(0.0, -1.0), end.moved(0.0, 5.5));
    }
    let filled = view.configuration.filled;
    if let Some(mass) = filled.filter(|it| it.mass_g > 0.0) {
        let balance = origin.moved(mass.centre_mm * scale, -radius - 1.0);
        let feet = [balance, balance.moved(-1.4, -2.6), balance.moved(1.4, -2.6)];
        scene.fill(Layer::Dimension, vec![Path::polygon(&feet)]);
    }
    let length = match view.configuration.length_mm {
        Some(length_mm) => figures.length(length_mm, 1),
        None => "length not known".to_owned(),
    };
    let weight = match filled {
        Some(mass) => format!(
            "{:.1} g, balances at {}",
            mass.mass_g,
            figures.length(mass.centre_mm, 1)
        ),
        None => "mass not known".to_owned(),
    };
    let caption = format!("{}: {length}, {weight}", configured.word());
    scene.text(Text::new(from.moved(0.5, -3.6), 2.5, caption));
}
