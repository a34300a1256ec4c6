//! A page being filled: millimetres from its left and upper edge, sizes in points.

mod fields;

use crate::draw::Paper;
use crate::font::CAP_HEIGHT_EM;
use crate::scene::{Layer, Path, Scene, Text, Xy};

/// Left margin, with room for punched holes, and live width, mm.
pub(in crate::sheet) const LEFT: f64 = 20.0;
pub(in crate::sheet) const WIDTH: f64 = 178.0;
/// Where a page's own begins, and how far above the lower edge the foot's rule lies, mm.
pub(in crate::sheet) const TOP: f64 = 29.0;
const FOOT: f64 = 17.5;

/// A box to tick is so wide and high; the style sheet of the page says the same.
pub(in crate::sheet) const TICK_MM: f64 = 4.0;

/// How words are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::sheet) struct TextStyle {
    /// Points of a narrower face; this one is set smaller by [`SHARE`], so that an x is as tall.
    pub(in crate::sheet) pt: f64,
    pub(in crate::sheet) bold: bool,
    pub(in crate::sheet) layer: Layer,
}

/// The face is so much larger at the same size than the one the sizes are given in.
const SHARE: f64 = 0.86;

const fn regular(pt: f64) -> TextStyle {
    TextStyle {
        pt,
        bold: false,
        layer: Layer::Text,
    }
}

const fn bold(pt: f64) -> TextStyle {
    TextStyle {
        pt,
        bold: true,
        layer: Layer::Text,
    }
}

pub(in crate::sheet) const FOOTER: TextStyle = regular(9.0).quiet();
pub(in crate::sheet) const BODY: TextStyle = regular(11.0);
pub(in crate::sheet) const STRONG: TextStyle = bold(11.0);
pub(in crate::sheet) const VERB: TextStyle = bold(13.0);
pub(in crate::sheet) const FIGURE: TextStyle = bold(16.0);
pub(in crate::sheet) const LARGE: TextStyle = bold(22.0);
pub(in crate::sheet) const TITLE: TextStyle = bold(30.0);

impl TextStyle {
    const fn quiet(self) -> TextStyle {
        TextStyle {
            layer: Layer::Quiet,
            ..self
        }
    }

    /// On a solid bar.
    pub(in crate::sheet) const fn knocked(self) -> TextStyle {
        TextStyle {
            layer: Layer::Knocked,
            ..self
        }
    }

    pub(in crate::sheet) const fn sized(self, pt: f64) -> TextStyle {
        TextStyle { pt, ..self }
    }

    /// Height of a capital, mm.
    pub(in crate::sheet) fn height_mm(self) -> f64 {
        self.pt * SHARE * 25.4 / 72.0 * CAP_HEIGHT_EM
    }

    /// How long words are, mm.
    pub(in crate::sheet) fn width(self, words: &str) -> f64 {
        self.text(Xy::default(), words).width_mm()
    }

    fn text(self, at: Xy, words: &str) -> Text {
        let text = Text::new(at, self.height_mm(), words);
        if self.bold { text.bold() } else { text }
    }

    /// The largest of some sizes at which words fit a width; the least where none does.
    pub(in crate::sheet) fn fitting(self, words: &str, width: f64, smaller: &[f64]) -> TextStyle {
        let sizes = std::iter::once(self).chain(smaller.iter().map(|pt| self.sized(*pt)));
        let fits = sizes.clone().find(|it| it.width(words) <= width);
        fits.or(sizes.last()).unwrap_or(self)
    }

    /// Words in lines no wider than said; a word that is too long is broken, at a hyphen if it has one.
    pub(in crate::sheet) fn lines(self, words: &str, width: f64) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        // A blank that does not break keeps a figure and its unit together.
        for word in words.split([' ', '\n']).filter(|it| !it.is_empty()) {
            let joined = lines.last().map(|last| format!("{last} {word}"));
            match joined.filter(|it| self.width(it) <= width) {
                Some(joined) => {
                    lines.pop();
                    lines.push(joined);
                }
                None => lines.extend(self.broken(word, width)),
            }
        }
        lines
    }

    fn broken(self, word: &str, width: f64) -> Vec<String> {
        let mut pieces = vec![String::new()];
        for piece in word.split_inclusive('-') {
            let last = pieces.len() - 1;
            if !pieces[last].is_empty() && self.width(&format!("{}{piece}", pieces[last])) > width {
                pieces.push(String::new());
            }
            for letter in piece.chars() {
                let last = pieces.len() - 1;
                if !pieces[last].is_empty()
                    && self.width(&format!("{}{letter}", pieces[last])) > width
                {
                    pieces.push(String::new());
                }
                let last = pieces.len() - 1;
                pieces[last].push(letter);
            }
        }
        pieces
    }
}

/// What a maker fills in on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// What it is, the same in every form of the sheet.
    pub key: String,
    /// A box to tick; else a figure or words.
    pub ticks: bool,
    /// Its left upper corner, width and height, mm from the page's left upper corner.
    pub at: (f64, f64),
    /// Its width and height, mm.
    pub size: (f64, f64),
}

/// A page.
#[derive(Clone)]
pub(in crate::sheet) struct Canvas {
    pub(in crate::sheet) scene: Scene,
    pub(in crate::sheet) fields: Vec<Field>,
}

impl Canvas {
    pub(in crate::sheet) fn new(title: &str, paper: Paper) -> Canvas {
        let (short, long) = paper.sides_mm();
        Canvas {
            scene: Scene::new(title, short, long),
            fields: Vec::new(),
        }
    }

    /// Where the foot's rule lies, from above.
    pub(in crate::sheet) fn foot(paper: Paper) -> f64 {
        paper.sides_mm().1 - FOOT
    }

    /// A place from the left upper corner.
    pub(in crate::sheet) fn at(&self, x: f64, down: f64) -> Xy {
        Xy::new(x, self.scene.height_mm - down)
    }

    /// Words that begin at a place of their baseline; how far they go.
    pub(in crate::sheet) fn put(&mut self, x: f64, down: f64, set: TextStyle, words: &str) -> f64 {
        let text = set.text(self.at(x, down), words);
        let end = x + text.width_mm();
        if !words.is_empty() {
            self.scene.text_as(set.layer, text);
        }
        end
    }

    /// Words held at their end.
    pub(in crate::sheet) fn put_end(&mut self, x: f64, down: f64, set: TextStyle, words: &str) {
        self.put(x - set.width(words), down, set, words);
    }

    /// Words held in their middle.
    pub(in crate::sheet) fn put_middle(&mut self, x: f64, down: f64, set: TextStyle, words: &str) {
        self.put(x - set.width(words) / 2.0, down, set, words);
    }

    /// Words in lines, the first on a baseline; the last one's baseline.
    pub(in crate::sheet) fn lines(
        &mut self,
        (x, down): (f64, f64),
        set: TextStyle,
        lines: &[String],
        leading: f64,
    ) -> f64 {
        let mut at = down;
        for (index, line) in lines.iter().enumerate() {
            at = down + index as f64 * leading;
            self.put(x, at, set, line);
        }
        at
    }

    /// A level line.
    pub(in crate::sheet) fn rule(&mut self, layer: Layer, from: f64, to: f64, down: f64) {
        let (a, b) = (self.at(from, down), self.at(to, down));
        self.scene.line(layer, a, b);
    }

    /// An upright line.
    pub(in crate::sheet) fn upright(&mut self, layer: Layer, x: f64, from: f64, to: f64) {
        let (a, b) = (self.at(x, from), self.at(x, to));
        self.scene.line(layer, a, b);
    }

    /// A solid bar.
    pub(in crate::sheet) fn bar(&mut self, (x, to): (f64, f64), (from, down): (f64, f64)) {
        let corner = self.at(x, down);
        let path = Path::rectangle(corner, to - x, down - from);
        self.scene.fill(Layer::Solid, vec![path]);
    }

    /// Another drawing, its left upper corner at a place.
    pub(in crate::sheet) fn place(&mut self, picture: &Scene, x: f64, down: f64) {
        let at = self.at(x, down + picture.height_mm);
        self.scene.place(picture, at);
    }

    /// A number in a circle, solid where something must touch.
    pub(in crate::sheet) fn balloon(&mut self, (x, down): (f64, f64), words: &str, solid: bool) {
        let middle = self.at(x, down);
        let circle = Path::circle(middle, 2.9);
        let set = if solid { STRONG.knocked() } else { STRONG };
        if solid {
            self.scene.fill(Layer::Solid, vec![circle]);
        } else {
            self.scene.fill(Layer::Paper, vec![circle.clone()]);
            self.scene.stroke(Layer::Fine, circle);
        }
        self.put_middle(x, down + set.height_mm() / 2.0, set, words);
    }
}
