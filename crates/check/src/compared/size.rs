//! A size that was measured, in a maker's words.

use quillet_geometry::{Length, Limits};
use quillet_model::{MadeStatement, PartId};
use quillet_plan::AskedToSuit;
use quillet_syntax::{Size, SizedText, Span, text};
use std::sync::Arc;

/// A size that was measured, beside the drawn one and what the sheet asked.
#[derive(Clone, Debug)]
pub struct ComparedSize {
    /// The statement that says it.
    pub statement: MadeStatement,
    /// Its part.
    pub part: PartId,
    /// What it is a size of: `⌀12.20 drill`, `length`, `outside at 8`.
    pub of: SizedText,
    /// Where it is said.
    pub at: Span,
    /// As it is drawn.
    pub drawn: Length,
    /// As it was measured.
    pub measured: Length,
    /// Between what it was asked.
    pub asked: Limits,
    /// What it was asked to suit, in place of the drawing's limits: the part and its hole as made.
    pub suits: Option<(Arc<str>, Length)>,
    /// What of it was measured.
    pub how: MeasuredAs,
    /// The stations between which it lies.
    pub stretch: (Length, Length),
}

/// What of a cut, a station or a part was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasuredAs {
    /// An outside diameter.
    Turned,
    /// The diameter of a hole.
    Bored,
    /// A depth from the face.
    Deep,
    /// A shoulder's distance from the face.
    Shoulder,
    /// The length over all.
    Long,
    /// Across a flat.
    Across,
    /// The width of a slot.
    Wide,
    /// A place along the part.
    Place,
    /// The diameter of a pitch circle.
    Circle,
}

impl MeasuredAs {
    /// Whether it is a diameter.
    pub fn is_dia(self) -> bool {
        use MeasuredAs::{Bored, Circle, Turned};
        matches!(self, Turned | Bored | Circle)
    }

    /// What it is called: `diameter`, `depth`, …
    pub fn name(self) -> &'static str {
        match self {
            MeasuredAs::Turned | MeasuredAs::Bored => "diameter",
            MeasuredAs::Deep => "depth",
            MeasuredAs::Shoulder => "shoulder",
            MeasuredAs::Long => "length",
            MeasuredAs::Across => "across",
            MeasuredAs::Wide => "width",
            MeasuredAs::Place => "place",
            MeasuredAs::Circle => "circle",
        }
    }
}

impl ComparedSize {
    /// Whether it is within what was asked.
    pub fn is_within(&self) -> bool {
        self.asked.contains(self.measured)
    }

    /// `turned to ⌀12.80; ⌀12.83 to ⌀12.90 was asked`
    pub(crate) fn told(&self) -> SizedText {
        let (least, most) = (self.asked.min(), self.asked.max());
        let nearest = if self.measured < least { least } else { most };
        let dia = |dia: Length| Size::DiameterAgainst {
            dia,
            limit: if dia == self.measured { nearest } else { dia },
        };
        let long = |length: Length| Size::Against {
            length,
            limit: if length == self.measured {
                nearest
            } else {
                length
            },
        };
        let word = match self.how {
            MeasuredAs::Turned => "turned to",
            MeasuredAs::Bored => "cut to",
            MeasuredAs::Deep => "deep",
            MeasuredAs::Shoulder => "from the face",
            MeasuredAs::Long => "long",
            MeasuredAs::Across => "across",
            MeasuredAs::Wide => "wide",
            MeasuredAs::Place => "along",
            MeasuredAs::Circle => "on",
        };
        let told = match self.how.is_dia() {
            true => text!(
                "{} {}; {} to {} was asked",
                word,
                dia(self.measured),
                dia(least),
                dia(most)
            ),
            false => text!(
                "{} {}; {} to {} was asked",
                long(self.measured),
                word,
                long(least),
                long(most)
            ),
        };
        match self.suits() {
            Some(suits) => text!("{} to suit {}", told, suits),
            None => told,
        }
    }

    /// `cap's ⌀12.88`, where it was asked to suit that.
    pub fn suits(&self) -> Option<SizedText> {
        let (part, hole) = self.suits.as_ref()?;
        Some(text!("{}'s {}", part, Size::Diameter(*hole)))
    }

    /// Held against what the hole asked that it goes into, where that is made and the size lies outside the
    /// drawing's limits.
    pub(super) fn or_suiting(self, asked: Option<AskedToSuit>) -> Self {
        match asked.filter(|_| !self.is_within()) {
            Some(it) => Self {
                asked: it.limits,
                suits: Some((it.mate, it.hole)),
                ..self
            },
            None => self,
        }
    }
}
