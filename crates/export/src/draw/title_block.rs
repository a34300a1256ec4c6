//! The title block: the data fields of ISO 7200 in a plain layout of our own.

use super::paper::{FramedSheet, Paper};
use crate::scene::{Layer, Path, Scene, Text, Xy};

/// What stands in a title block. Empty fields are there to be filled in by hand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TitleBlock {
    /// Legal owner: the bench.
    pub owner: String,
    /// Title.
    pub title: String,
    /// Supplementary title.
    pub subtitle: String,
    /// Identification number.
    pub number: String,
    /// Document type.
    pub kind: String,
    /// Scale as of ISO 5455: `2:1`.
    pub scale: String,
    /// Sheet number and number of sheets.
    pub sheet: (usize, usize),
}

/// Height of the block, mm.
pub(super) const HEIGHT_MM: f64 = 29.0;
/// Width of the block, mm (ISO 7200).
pub(super) const WIDTH_MM: f64 = 180.0;

impl TitleBlock {
    /// Draws it in the frame's lower right corner.
    pub(super) fn draw(&self, sheet: &mut FramedSheet, paper: Paper) {
        let at = Xy::new(sheet.frame.1.x - WIDTH_MM, sheet.frame.0.y);
        let scene = &mut sheet.scene;
        scene.stroke(Layer::Outline, Path::rectangle(at, WIDTH_MM, HEIGHT_MM));
        let row = HEIGHT_MM / 3.0;
        let (number, of) = self.sheet;
        let sheet_number = format!("{number}/{of}");
        let rows: [&[(f64, &str, &str)]; 3] = [
            &[
                (56.0, "Legal owner", &self.owner),
                (94.0, "Title", &self.title),
                (30.0, "Scale", &self.scale),
            ],
            &[
                (56.0, "Document type", &self.kind),
                (94.0, "Supplementary title", &self.subtitle),
                (30.0, "Projection", ""),
            ],
            &[
                (28.0, "Creator", ""),
                (28.0, "Approval person", ""),
                (42.0, "Identification number", &self.number),
                (12.0, "Rev.", ""),
                (28.0, "Date of issue", ""),
                (12.0, "Lang.", "en"),
                (13.0, "Paper", paper.name()),
                (17.0, "Sheet", &sheet_number),
            ],
        ];
        for (at_row, fields) in rows.into_iter().enumerate() {
            let y = at.y + HEIGHT_MM - row * (at_row + 1) as f64;
            let mut x = at.x;
            for (width, label, value) in fields {
                field(scene, Xy::new(x, y), (*width, row), label, value);
                x += width;
            }
        }
        projection(scene, at.moved(WIDTH_MM - 15.0, 1.5 * row - 0.9));
    }
}

fn field(scene: &mut Scene, at: Xy, (width, height): (f64, f64), label: &str, value: &str) {
    scene.stroke(Layer::Frame, Path::rectangle(at, width, height));
    scene.text(Text::new(at.moved(1.0, height - 2.5), 1.8, label));
    if value.is_empty() {
        return;
    }
    scene.text(fitted(at.moved(1.2, 1.7), width - 2.4, value));
}

/// Text as tall as a width lets it be, cut short where even the smallest is too long.
fn fitted(at: Xy, width_mm: f64, words: &str) -> Text {
    let heights = [3.5, 3.0, 2.5, 2.0, 1.8];
    let text = |height: f64| Text::new(at, height, words);
    if let Some(found) = heights
        .into_iter()
        .map(text)
        .find(|text| text.width_mm() <= width_mm)
    {
        return found;
    }
    let mut cut: Vec<char> = words.chars().collect();
    loop {
        cut.pop();
        let shorter = Text::new(at, 1.8, cut.iter().collect::<String>() + "…");
        if shorter.width_mm() <= width_mm || cut.is_empty() {
            return shorter;
        }
    }
}

/// The symbol of first angle projection: a cone cut short from the side, and from its narrow end to the
/// right (ISO 5456-2).
fn projection(scene: &mut Scene, middle: Xy) {
    let (small, large) = (1.1, 2.2);
    let side = middle.moved(-6.5, 0.0);
    let cone = [
        side.moved(0.0, -small),
        side.moved(5.0, -large),
        side.moved(5.0, large),
        side.moved(0.0, small),
    ];
    scene.stroke(Layer::Frame, Path::polygon(&cone));
    let end = middle.moved(4.0, 0.0);
    for radius in [small, large] {
        scene.stroke(Layer::Frame, Path::circle(end, radius));
    }
}
