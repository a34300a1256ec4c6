//! The parts of a pen beside each other at one scale, each with its name and size.

use super::figures::LengthFormat;
use super::half::half_section;
use super::overview::scale_for;
use super::part::widest_mm;
use super::view::ViewTransform;
use crate::scene::{Scene, Text, Xy};
use quillet_model::{Part, Profiles, Units};

/// Room left and right of the parts and between them, so that their axes do not meet, mm.
const LEFT_MM: f64 = 8.0;
const RIGHT_MM: f64 = 4.0;
const BETWEEN_MM: f64 = 10.0;
/// Room above a part, mm.
const ABOVE_MM: f64 = 4.0;
/// Room below a part for its caption, mm.
const BELOW_MM: f64 = 13.0;

/// A part, where it has a shape, with its caption.
struct CaptionedPart<'a> {
    part: &'a Part,
    profiles: &'a Profiles,
    name: Text,
    size: Text,
}

/// Parts in half section, as many beside each other as `width_mm` holds, in their order; none where
/// none has a shape. `scale` is paper millimetres for each of the part's, of ISO 5455 where none is
/// given.
pub fn parts(parts: &[&Part], scale: Option<f64>, width_mm: f64, units: Units) -> Option<Scene> {
    let shown: Vec<CaptionedPart> = parts
        .iter()
        .filter_map(|part| CaptionedPart::of(part, LengthFormat(units)))
        .collect();
    let longest = shown
        .iter()
        .map(|it| it.part.length.to_mm())
        .fold(0.0, f64::max);
    let scale = match scale {
        Some(scale) => scale,
        None => scale_for(longest, LEFT_MM + RIGHT_MM, width_mm)?,
    };
    let rows = rows(&shown, scale, width_mm);
    let height: f64 = rows.iter().map(|row| height_mm(row, scale)).sum();
    let mut scene = Scene::new("the parts", width_mm, height);
    let mut top = height;
    for row in rows {
        let radius = widest(&row) * scale;
        let mut left = LEFT_MM;
        for it in &row {
            let origin = Xy::new(left, top - ABOVE_MM - radius);
            half_section(
                &mut scene,
                ViewTransform::new(origin, scale),
                it.part,
                it.profiles,
            );
            for (text, down) in [(&it.name, 5.0), (&it.size, 9.5)] {
                let at = origin.moved(0.0, -radius - down);
                scene.text(Text { at, ..text.clone() });
            }
            left += it.width_mm(scale) + BETWEEN_MM;
        }
        top -= height_mm(&row, scale);
    }
    (!shown.is_empty()).then_some(scene)
}

impl<'a> CaptionedPart<'a> {
    fn of(part: &'a Part, figures: LengthFormat) -> Option<Self> {
        let profiles = part.profiles.as_ref()?;
        let length = figures.number(part.length.to_mm());
        let unit = figures.0.suffix();
        let size = match part.weigh() {
            Some(mass) => format!("{length} {unit}, {:.1} g", mass.mass_g),
            None => format!("{length} {unit}, mass not known"),
        };
        Some(CaptionedPart {
            part,
            profiles,
            name: Text::new(Xy::default(), 2.8, &*part.name.text).bold(),
            size: Text::new(Xy::default(), 2.5, size),
        })
    }

    /// The room it takes from side to side, its caption's too.
    fn width_mm(&self, scale: f64) -> f64 {
        let drawn = self.part.length.to_mm() * scale;
        drawn.max(self.name.width_mm()).max(self.size.width_mm())
    }
}

/// What stands beside each other.
fn rows<'s, 'a>(
    shown: &'s [CaptionedPart<'a>],
    scale: f64,
    width_mm: f64,
) -> Vec<Vec<&'s CaptionedPart<'a>>> {
    let mut rows: Vec<Vec<&CaptionedPart>> = Vec::new();
    let mut left = LEFT_MM;
    for it in shown {
        let takes = it.width_mm(scale);
        match rows.last_mut() {
            Some(row) if left + takes + RIGHT_MM <= width_mm => row.push(it),
            _ => {
                rows.push(vec![it]);
                left = LEFT_MM;
            }
        }
        left += takes + BETWEEN_MM;
    }
    rows
}

fn height_mm(row: &[&CaptionedPart], scale: f64) -> f64 {
    2.0 * widest(row) * scale + ABOVE_MM + BELOW_MM
}

fn widest(row: &[&CaptionedPart]) -> f64 {
    let radii = row.iter().map(|it| widest_mm(it.profiles));
    radii.fold(0.0, f64::max)
}
