//! Text on a drawing, and the room it takes.

use super::Xy;
use crate::font::{CAP_HEIGHT_EM, DESCENT_EM, Face, width_em};

/// Words or numbers at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Where its baseline is held.
    pub at: Xy,
    /// What is written.
    pub words: String,
    /// Height of a capital, mm (ISO 3098: 2.5, 3.5, 5).
    pub height_mm: f64,
    /// Which point of the baseline `at` is.
    pub anchor: Anchor,
    /// Turned a quarter to the left, to be read from the right of the sheet.
    pub turned: bool,
    /// Its face.
    pub face: Face,
}

/// Which point of the baseline holds a text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    #[default]
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// A rectangle on the paper, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TextBox {
    /// Lower left corner.
    pub min: Xy,
    /// Upper right corner.
    pub max: Xy,
}

impl Text {
    /// Text that begins at a place.
    pub fn new(at: Xy, height_mm: f64, words: impl Into<String>) -> Text {
        let (anchor, turned, face) = (Anchor::Start, false, Face::Regular);
        Text {
            at,
            words: words.into(),
            height_mm,
            anchor,
            turned,
            face,
        }
    }

    /// Held elsewhere.
    #[must_use]
    pub fn anchored(self, anchor: Anchor) -> Text {
        Text { anchor, ..self }
    }

    /// Turned a quarter to the left.
    #[must_use]
    pub fn turned(self) -> Text {
        Text {
            turned: true,
            ..self
        }
    }

    /// In bold.
    #[must_use]
    pub fn bold(self) -> Text {
        Text {
            face: Face::Bold,
            ..self
        }
    }

    /// Size of the font, mm.
    pub fn size_mm(&self) -> f64 {
        self.height_mm / CAP_HEIGHT_EM
    }

    /// How long the words are, mm.
    pub fn width_mm(&self) -> f64 {
        self.size_mm() * width_em(self.face, &self.words)
    }

    /// Where the baseline begins.
    pub fn start(&self) -> Xy {
        let back = self.width_mm()
            * match self.anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => 0.5,
                Anchor::End => 1.0,
            };
        if self.turned {
            self.at.moved(0.0, -back)
        } else {
            self.at.moved(-back, 0.0)
        }
    }

    /// The room it takes: its width, from the descenders to the capitals' tops.
    pub fn frame(&self) -> TextBox {
        let (start, long) = (self.start(), self.width_mm());
        let (up, down) = (self.height_mm, self.size_mm() * DESCENT_EM);
        if self.turned {
            TextBox {
                min: start.moved(-up, 0.0),
                max: start.moved(down, long),
            }
        } else {
            TextBox {
                min: start.moved(0.0, -down),
                max: start.moved(long, up),
            }
        }
    }
}

impl TextBox {
    /// True where two rectangles have room in common; touching edges do not count.
    pub fn meets(&self, other: &TextBox) -> bool {
        self.min.x < other.max.x
            && other.min.x < self.max.x
            && self.min.y < other.max.y
            && other.min.y < self.max.y
    }

    /// Widened on all sides.
    #[must_use]
    pub fn grown(&self, by_mm: f64) -> TextBox {
        TextBox {
            min: self.min.moved(-by_mm, -by_mm),
            max: self.max.moved(by_mm, by_mm),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_takes_the_room_its_metrics_say() {
        // DejaVu Sans Condensed: a figure 1172/2048 of the size, a full stop 585, a capital 1493
        // high (its tables hmtx and glyf).
        let text = Text::new(Xy::new(10.0, 5.0), 3.5, "12.90").anchored(Anchor::Middle);
        let size = 3.5 * 2048.0 / 1493.0;
        let width = size * (4.0 * 1172.0 + 585.0) / 2048.0;
        assert!((text.width_mm() - width).abs() < 1e-12);
        assert!((text.frame().min.x - (10.0 - width / 2.0)).abs() < 1e-12);
        let turned = text.turned().frame();
        assert!((turned.max.y - turned.min.y - width).abs() < 1e-12);
        assert!((turned.min.x - 6.5).abs() < 1e-12);
    }
}
