//! Sheets of paper: frame, check lines.

use crate::scene::{Anchor, Layer, Path, Scene, Text, Xy};
use quillet_model::Units;

/// The format of a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4.
    #[default]
    A4,
    /// 8½ × 11 in.
    Letter,
}

impl Paper {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::Letter => "Letter",
        }
    }

    /// Short and long side, mm.
    pub fn sides_mm(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }
}

/// A sheet on its long side with a frame (ISO 5457: 20 mm to bind, 10 mm elsewhere) and check
/// lines on both axes.
#[derive(Clone, Debug)]
pub struct FramedSheet {
    /// What is drawn so far.
    pub scene: Scene,
    /// The frame: lower left and upper right corner.
    pub frame: (Xy, Xy),
}

/// From the frame to a check line, mm.
const INSET_MM: f64 = 5.0;

impl FramedSheet {
    /// A framed sheet on its long side.
    pub fn new(title: &str, paper: Paper, units: Units) -> FramedSheet {
        let (short, long) = paper.sides_mm();
        let mut scene = Scene::new(title, long, short);
        let frame = (Xy::new(20.0, 10.0), Xy::new(long - 10.0, short - 10.0));
        let (low, high) = frame;
        let path = Path::rectangle(low, high.x - low.x, high.y - low.y);
        scene.stroke(Layer::Outline, path);
        let corner = Xy::new(low.x + INSET_MM, high.y - INSET_MM);
        check_lines(&mut scene, corner, units);
        FramedSheet { scene, frame }
    }

    /// The room for a view: what the frame and the check lines leave above `foot_mm`.
    pub(super) fn room(&self, foot_mm: f64) -> (Xy, Xy) {
        let (low, high) = self.frame;
        (
            Xy::new(low.x + 2.0 * INSET_MM, low.y + foot_mm),
            Xy::new(high.x - 3.0, high.y - 1.4 * INSET_MM),
        )
    }
}

/// Two lines of 100 mm, or 4 in, from a corner, to measure whether a print is true both ways.
pub(crate) fn check_lines(scene: &mut Scene, corner: Xy, units: Units) {
    let (long_mm, caption) = match units {
        Units::Millimetres => (100.0, "check: 100 mm"),
        Units::Inches => (4.0 * 25.4, "check: 4 in"),
    };
    let right = corner.moved(long_mm, 0.0);
    let down = corner.moved(0.0, -long_mm);
    scene.stroke(Layer::Dimension, Path::open(right).line(corner).line(down));
    scene.line(
        Layer::Dimension,
        right.moved(0.0, -1.5),
        right.moved(0.0, 1.5),
    );
    scene.line(
        Layer::Dimension,
        down.moved(-1.5, 0.0),
        down.moved(1.5, 0.0),
    );
    scene.text(Text::new(right.moved(2.0, -0.9), 1.8, caption));
    scene.text(
        Text::new(down.moved(0.9, -2.0), 1.8, caption)
            .turned()
            .anchored(Anchor::End),
    );
}
