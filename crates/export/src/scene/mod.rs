//! A drawing as data: lines, curves, hatches and text on a sheet of paper.
//!
//! Places are millimetres on the paper, `x` to the right and `y` up from its lower left corner.
//! What a line means is said by its [`Layer`]; how it looks on paper or screen is the writers'.

mod clip;
mod cross;
mod hatch;
mod layer;
mod path;
mod shade;
mod text;

pub use crate::font::Face;
use crate::font::lacking;
pub use hatch::{Hatch, hatch};
pub use layer::{Dash, Layer, Tone};
pub use path::{Path, PathElement};
pub use shade::{Paint, Shaded, SlopeClass, Strip, darker, facing, samples, stops};
use std::collections::BTreeSet;
pub use text::{Anchor, Text, TextBox};

/// A place on the paper, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Xy {
    /// To the right, mm.
    pub x: f64,
    /// Up, mm.
    pub y: f64,
}

impl Xy {
    /// A place on the paper, mm.
    pub const fn new(x: f64, y: f64) -> Xy {
        Xy { x, y }
    }

    /// Part of the way to another place.
    pub fn towards(self, other: Xy, part: f64) -> Xy {
        Xy::new(
            self.x + (other.x - self.x) * part,
            self.y + (other.y - self.y) * part,
        )
    }

    /// Moved.
    #[must_use]
    pub fn moved(self, dx_mm: f64, dy_mm: f64) -> Xy {
        Xy::new(self.x + dx_mm, self.y + dy_mm)
    }
}

/// Something drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// Lines and curves, stroked.
    Stroke(Path),
    /// Closed outlines, filled by the even-odd rule: arrowheads, dots.
    Fill(Vec<Path>),
    /// Many straight lines: a hatch.
    Lines(Vec<[Xy; 2]>),
    /// Words and numbers.
    Text(Text),
    /// A turned surface as it looks.
    Shaded(Shaded),
    /// Something in a colour of its own.
    Paint(Paint),
}

/// Something drawn, and what it is drawn as.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is drawn as.
    pub layer: Layer,
    /// What is drawn.
    pub shape: Shape,
}

/// A drawing on a sheet of paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// What it shows, in a line.
    pub title: String,
    /// Width of the paper, mm.
    pub width_mm: f64,
    /// Height of the paper, mm.
    pub height_mm: f64,
    /// Millimetres on the paper for one of what is drawn.
    pub scale: f64,
    /// What is drawn, lowest first.
    pub items: Vec<Item>,
}

impl Scene {
    /// An empty sheet.
    pub fn new(title: impl Into<String>, width_mm: f64, height_mm: f64) -> Scene {
        Scene {
            title: title.into(),
            width_mm,
            height_mm,
            scale: 1.0,
            items: Vec::new(),
        }
    }

    /// Strokes a path.
    pub fn stroke(&mut self, layer: Layer, path: Path) {
        self.items.push(Item {
            layer,
            shape: Shape::Stroke(path),
        });
    }

    /// Strokes a straight line.
    pub fn line(&mut self, layer: Layer, from: Xy, to: Xy) {
        self.stroke(layer, Path::open(from).line(to));
    }

    /// Fills closed paths.
    pub fn fill(&mut self, layer: Layer, paths: Vec<Path>) {
        self.items.push(Item {
            layer,
            shape: Shape::Fill(paths),
        });
    }

    /// Draws many straight lines; nothing where there is none.
    pub fn lines(&mut self, layer: Layer, lines: Vec<[Xy; 2]>) {
        if !lines.is_empty() {
            self.items.push(Item {
                layer,
                shape: Shape::Lines(lines),
            });
        }
    }

    /// Shows a turned surface; nothing where there is none of it.
    pub fn shaded(&mut self, shaded: Shaded) {
        if !shaded.strips.is_empty() {
            self.items.push(Item {
                layer: Layer::View,
                shape: Shape::Shaded(shaded),
            });
        }
    }

    /// Paints something in a colour of its own.
    pub fn paint(&mut self, paint: Paint) {
        self.items.push(Item {
            layer: Layer::View,
            shape: Shape::Paint(paint),
        });
    }

    /// All turned surfaces on it.
    pub fn surfaces(&self) -> impl Iterator<Item = &Shaded> {
        self.items.iter().filter_map(|item| match &item.shape {
            Shape::Shaded(shaded) => Some(shaded),
            _ => None,
        })
    }

    /// Writes text.
    pub fn text(&mut self, text: Text) {
        self.items.push(Item {
            layer: Layer::Text,
            shape: Shape::Text(text),
        });
    }

    /// Writes text in the colour of a layer.
    pub fn text_as(&mut self, layer: Layer, text: Text) {
        self.items.push(Item {
            layer,
            shape: Shape::Text(text),
        });
    }

    /// All that is written on it.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        self.items.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text),
            _ => None,
        })
    }

    /// The letters written on it that the font lacks, each once: they are set as □.
    pub fn lacking(&self) -> BTreeSet<char> {
        let letters = self.texts().flat_map(|it| lacking(&it.words));
        letters.collect()
    }

    /// Puts another drawing on this sheet, its lower left corner at a place.
    pub fn place(&mut self, other: &Scene, at: Xy) {
        self.items
            .extend(other.items.iter().map(|item| item.moved(at.x, at.y)));
    }
}

impl Item {
    fn moved(&self, dx: f64, dy: f64) -> Item {
        let shape = match &self.shape {
            Shape::Stroke(path) => Shape::Stroke(path.moved(dx, dy)),
            Shape::Fill(paths) => {
                Shape::Fill(paths.iter().map(|path| path.moved(dx, dy)).collect())
            }
            Shape::Lines(lines) => Shape::Lines(
                lines
                    .iter()
                    .map(|line| line.map(|at| at.moved(dx, dy)))
                    .collect(),
            ),
            Shape::Text(text) => Shape::Text(Text {
                at: text.at.moved(dx, dy),
                ..text.clone()
            }),
            Shape::Shaded(shaded) => Shape::Shaded(shaded.moved(dx, dy)),
            Shape::Paint(paint) => Shape::Paint(Paint {
                paths: paint.paths.iter().map(|path| path.moved(dx, dy)).collect(),
                ..*paint
            }),
        };
        Item {
            layer: self.layer,
            shape,
        }
    }
}
