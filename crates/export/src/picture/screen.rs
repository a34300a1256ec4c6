//! Pictures for a screen, however narrow: bare, so that what is said of them stands beside in words of
//! the page's own size.

use super::framed::ROOM_MM;
use crate::draw::{self, Callout, Look};
use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};
use crate::sheet::part_labels;
use quillet_geometry::put_in_order;
use quillet_model::{Configured, Part, Pen, Units};

/// A picture, and what it shows.
#[derive(Clone, Debug)]
pub struct Captioned {
    /// What it shows, with its greatest size: `to write, 126.5 mm`.
    pub says: String,
    /// The picture.
    pub scene: Scene,
}

/// No wider than this is what is shown in a narrow panel; a figure in a ring and the ring are as large as
/// can be read there, mm.
const NARROW_MM: f64 = 92.0;
const NUMBER_MM: f64 = 3.8;
const RING_MM: f64 = 4.0;

/// A pen in its colours, in each way it is held.
pub fn seen(pen: &Pen, units: Units) -> Vec<Captioned> {
    let each = Configured::ALL.into_iter().filter_map(|which| {
        let look = draw::outside(pen, which, f64::MAX)?;
        let known = pen.assembly.configuration(which)?.length_mm;
        let word = match which {
            Configured::Uncapped => "to write",
            other => other.word(),
        };
        let says = known.map_or(word.to_owned(), |mm| format!("{word}, {}", long(mm, units)));
        Some(Captioned {
            says,
            scene: roomy(&look.scene),
        })
    });
    each.collect()
}

/// A pen in section with a number wherever it touches and wherever it must stay clear, and what each
/// number means; none where it could not be put together.
pub fn numbered(pen: &Pen, units: Units) -> Option<(Captioned, Vec<String>)> {
    let Look {
        scene: bare,
        mut spots,
        ..
    } = draw::section(pen, f64::MAX, units)?;
    put_in_order(&mut spots, |it| it.1.x);
    let above = 2.0 * RING_MM + 5.0;
    let wide = bare.width_mm + 2.0 * ROOM_MM;
    let high = bare.height_mm + ROOM_MM + above;
    let mut scene = Scene::new(format!("{}, in section", pen.title_or_name()), wide, high);
    scene.place(&bare, Xy::new(ROOM_MM, ROOM_MM / 2.0));
    // As many as must stand beside each other, stand beside each other.
    let share = (wide / (spots.len() as f64 * (2.0 * RING_MM + 1.0))).min(1.0);
    let widths = vec![2.0 * RING_MM * share; spots.len()];
    let wanted: Vec<f64> = spots.iter().map(|it| it.1.x + ROOM_MM).collect();
    let places = draw::spread_wide(&wanted, &widths, 1.0 * share, wide);
    let mut legend = Vec::new();
    for (at, ((callout, spot), x)) in spots.iter().zip(places).enumerate() {
        let ring = Xy::new(x, high - RING_MM - 0.5);
        let spot = spot.moved(ROOM_MM, ROOM_MM / 2.0);
        one(&mut scene, callout, (at + 1, share), ring, spot);
        legend.push(format!("{} {}", at + 1, callout.caption));
    }
    let says = "in section: red touches, black stays clear".to_owned();
    Some((Captioned { says, scene }, legend))
}

/// A number in its ring, and a line to its spot.
fn one(scene: &mut Scene, callout: &Callout, (number, share): (usize, f64), ring: Xy, spot: Xy) {
    let layer = match callout.touches {
        true => Layer::Contact,
        false => Layer::Dimension,
    };
    let (radius, tall) = (RING_MM * share, NUMBER_MM * share);
    scene.line(layer, ring.moved(0.0, -radius), spot);
    scene.fill(layer, vec![Path::circle(spot, 0.8)]);
    scene.stroke(layer, Path::circle(ring, radius));
    let text = Text::new(ring.moved(0.0, -tall / 2.0), tall, number.to_string());
    scene.text(text.bold().anchored(Anchor::Middle));
}

/// A part as it looks, and in section with its sizes; of a pen where it has one.
pub fn part(pen: Option<&Pen>, part: &Part, units: Units) -> Vec<Captioned> {
    let seen = draw::alone(pen, part).map(|scene| Captioned {
        says: format!("{}, {}", part.name.text, long(part.length.to_mm(), units)),
        scene: roomy(&scene),
    });
    seen.into_iter().chain(sized(part, units)).collect()
}

/// A part in section with its sizes; without them where it is bought.
pub fn sized(part: &Part, units: Units) -> Option<Captioned> {
    let labels = part_labels(part, units);
    let length = units.plain(part.length);
    let labelled = match part.is_bought() {
        true => None,
        false => draw::labelled_small(part, &labels, &length),
    };
    let scene = labelled.or_else(|| draw::preview(part, NARROW_MM))?;
    let says = format!(
        "{}, half section, sizes in {}",
        part.name.text,
        units.suffix()
    );
    Some(Captioned { says, scene })
}

pub(crate) fn long(mm: f64, units: Units) -> String {
    match units {
        Units::Millimetres => format!("{mm:.1} mm"),
        Units::Inches => format!("{:.2} in", mm / 25.4),
    }
}

fn roomy(bare: &Scene) -> Scene {
    let (wide, high) = (bare.width_mm + 4.0, bare.height_mm + 4.0);
    let mut scene = Scene::new(bare.title.clone(), wide, high);
    scene.place(bare, Xy::new(2.0, 2.0));
    scene
}
