//! A number of a design, by a name that tells where it is.

use crate::Grain;
use crate::grain::trimmed;
use quillet_syntax::{Edit, Span, ast};

/// A number that is written in the file asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// Where it is: `grip`, `cap.length`, `barrel.mouth.drill2.to`.
    pub name: String,
    /// Where it stands in the text.
    pub span: Span,
    /// What is written, in its own unit.
    pub value: f64,
    /// The unit that touches it, as written; empty where none does.
    pub unit: String,
    /// Its steps.
    pub grain: Grain,
    /// The part it is written in.
    pub part: Option<String>,
    /// The statement it stands in.
    pub statement: Span,
    /// The word before it: `to`, `dia`, `for`; empty of a `let`.
    pub role: String,
    /// Whether it is the whole of what is said there, not a part of a sum.
    pub is_whole: bool,
}

impl Number {
    /// The edit that writes another value in its place.
    pub fn written(&self, value: f64) -> Edit {
        Edit::new(self.span, self.text(value))
    }

    /// Where it stands, and a value as exactly as it would be written there; none below nothing, which is
    /// no number of the text.
    pub(crate) fn exactly(&self, value: f64) -> Option<(Span, ast::Number)> {
        let text = trimmed(value, MOST_PLACES);
        let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
        let digits = format!("{whole}{part}").parse().ok()?;
        let scale = 10_i128.checked_pow(u32::try_from(part.len()).ok()?)?;
        (value >= 0.0).then(|| (self.span, ast::Number::new(digits, scale)))
    }

    /// A value as it would be written there, with its unit.
    pub fn text(&self, value: f64) -> String {
        format!("{}{}", trimmed(value, MOST_PLACES), self.unit)
    }
}

/// A value that is computed is written with no more places than these.
const MOST_PLACES: usize = 6;
