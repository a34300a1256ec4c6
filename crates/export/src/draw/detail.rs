//! The cap joint enlarged, beside a drawing of the pen put together.

use super::figures::LengthFormat;
use super::member::PenView;
use super::part::scale_text;
use crate::scene::{Anchor, Layer, Path, Scene, Text, TextBox, Xy};
use quillet_model::{AtRest, PartId, Pen};
use quillet_syntax::ast::Verb;

/// The letter that the detail goes by (ISO 128-3).
const LETTER: &str = "Z";
/// Scales of ISO 5455, largest first.
const SCALES: [f64; 2] = [10.0, 5.0];
/// Shown beyond the threads, mm of the pen.
const BESIDE_MM: f64 = 2.5;
/// Shown beyond the outside, mm of the pen.
const ABOVE_MM: f64 = 0.5;
/// The least of the radius that is worth showing, mm of the pen.
const LEAST_MM: f64 = 3.0;
/// Room for the title and the line below, mm on paper.
const WORDS_MM: (f64, f64) = (5.0, 8.0);
/// Shown within the innermost wall, mm of the pen.
const WITHIN_MM: f64 = 0.8;

/// A stretch of the capped pen, above the axis.
pub(super) struct Detail {
    /// From where to where on the pen's axis, mm.
    reach_mm: (f64, f64),
    /// From where to where off it, mm.
    radii_mm: (f64, f64),
    scale: f64,
    /// What is said below, a line each.
    caption: [String; 2],
}

impl Detail {
    /// The cap joint of a pen as large as it can be drawn in a room; none where there is no threaded
    /// cap joint or no room for it.
    pub(super) fn of(
        pen: &Pen,
        width_mm: f64,
        height_mm: f64,
        figures: LengthFormat,
    ) -> Option<Detail> {
        let capped = pen.assembly.capped.as_ref()?;
        let mut joints = pen.joints.iter().zip(&pen.assembly.joints);
        let (joint, rest) = joints.find(|(joint, _)| joint.verb == Verb::Close)?;
        let engaged = rest.engagements.first()?;
        let (female, male) = (&pen.parts[joint.female.part], &pen.parts[joint.male.part]);
        let z = |part: PartId, station: f64| capped.z_mm(part, station);
        let face = z(
            joint.female.part,
            female
                .station(joint.female.end, quillet_geometry::Length::ZERO)
                .to_mm(),
        )?;
        let mut ends = vec![face];
        for (part, index, of) in [
            (joint.female.part, engaged.threads.female, female),
            (joint.male.part, engaged.threads.male, male),
        ] {
            let (from, to) = of.features[index].stations(of.length);
            ends.extend([z(part, from.to_mm())?, z(part, to.to_mm())?]);
        }
        let low = ends.iter().fold(f64::INFINITY, |a, b| a.min(*b)) - BESIDE_MM;
        let high = ends.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b)) + BESIDE_MM;
        let view = PenView {
            pen,
            configuration: capped,
            origin: Xy::default(),
            scale: 1.0,
        };
        let top = view.widest_mm(low, high) + ABOVE_MM;
        let room = height_mm - WORDS_MM.0 - WORDS_MM.1;
        let fits = |scale: &f64| (high - low) * scale <= width_mm && LEAST_MM * scale <= room;
        let scale = SCALES.into_iter().find(fits)?;
        Some(Detail {
            reach_mm: (low, high),
            radii_mm: (
                (top - room / scale)
                    .max(view.innermost_mm(low, high) - WITHIN_MM)
                    .max(0.0),
                top,
            ),
            scale,
            caption: caption(rest, figures)?,
        })
    }

    /// Marks on a view of the capped pen what the detail shows.
    pub(super) fn mark(&self, scene: &mut Scene, view: &PenView) {
        let at = |z: f64, r: f64| view.origin.moved(z * view.scale, r * view.scale);
        let (low, high) = (
            at(self.reach_mm.0, self.radii_mm.0.max(1.0)),
            at(self.reach_mm.1, self.radii_mm.1 + 0.3),
        );
        let frame = Path::rectangle(low, high.x - low.x, high.y - low.y);
        scene.stroke(Layer::Dimension, frame);
        let beside = Xy::new(high.x + 1.0, high.y + 0.6);
        scene.text(Text::new(beside, 2.5, LETTER));
    }

    /// Draws it, its upper left corner at a place.
    pub(super) fn draw(&self, scene: &mut Scene, pen: &Pen, corner: Xy) {
        let Some(configuration) = pen.assembly.capped.as_ref() else {
            return;
        };
        let (width, height) = (
            (self.reach_mm.1 - self.reach_mm.0) * self.scale,
            (self.radii_mm.1 - self.radii_mm.0) * self.scale,
        );
        let low = corner.moved(0.0, -WORDS_MM.0 - height);
        let view = PenView {
            pen,
            configuration,
            origin: low.moved(-self.reach_mm.0 * self.scale, -self.radii_mm.0 * self.scale),
            scale: self.scale,
        };
        let mut drawn = Scene::new("", 0.0, 0.0);
        view.draw(&mut drawn);
        let frame = TextBox {
            min: low,
            max: low.moved(width, height),
        };
        scene.place(&drawn.within(&frame), Xy::default());
        scene.stroke(Layer::Dimension, Path::rectangle(low, width, height));
        let middle = corner.moved(width / 2.0, -3.5);
        let title = format!("{LETTER} ({})", scale_text(self.scale));
        scene.text(Text::new(middle, 3.5, title).anchored(Anchor::Middle));
        for (at, line) in self.caption.iter().enumerate() {
            let place = low.moved(0.0, -3.4 - 3.6 * at as f64);
            scene.text(Text::new(place, 2.2, line.as_str()));
        }
    }
}

/// The thread and how it holds.
fn caption(rest: &AtRest, figures: LengthFormat) -> Option<[String; 2]> {
    let engaged = rest.engagements.first()?;
    let holds = format!(
        "{} of one in the other, {:.2} turns to open",
        figures.length(engaged.overlap_mm, 1),
        engaged.turns()
    );
    Some([engaged.form.to_string(), holds])
}
