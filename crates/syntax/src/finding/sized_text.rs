//! Text with sizes in it that stay sizes until it is shown.

mod alike;
mod size;
mod to_text;

use quillet_geometry::Length;
use quillet_standards::Units;
pub use size::Size;
use std::borrow::Cow;
use std::fmt;
use std::ops::Deref;
use std::sync::{Arc, OnceLock};
pub use to_text::ToText;

/// A sentence, a title or a replacement whose sizes are shown in the unit of the file it is for.
///
/// Made by [`text!`](crate::text), by `into()` from words, or from a [`Size`]. It is shown in
/// millimetres until [`in_units`](Self::in_units) says otherwise; it reads as a `str`. Most texts are
/// pieces of others, or of a finding that nobody sees: the letters are made when they are read first.
#[derive(Clone, Debug, Default)]
pub struct SizedText {
    /// Empty where there are no sizes: `shown` is all then.
    pieces: Vec<TextPiece>,
    units: Units,
    shown: OnceLock<String>,
}

/// Words or a size.
#[derive(Clone, Debug)]
enum TextPiece {
    Words(Cow<'static, str>),
    Size(Size),
}

impl SizedText {
    /// A form with a `{}` for each of what goes into it, in order.
    pub fn of<const N: usize>(form: &'static str, parts: [SizedText; N]) -> SizedText {
        let mut text = SizedText::default();
        let mut words = form.split("{}");
        text.push_words(Cow::Borrowed(words.next().unwrap_or_default()));
        debug_assert_eq!(words.clone().count(), N, "holes of {form:?}");
        for (part, after) in parts.into_iter().zip(words) {
            text.append(part);
            text.push_words(Cow::Borrowed(after));
        }
        text.whole()
    }

    /// The same with its sizes shown in a unit.
    #[must_use]
    pub fn in_units(self, units: Units) -> SizedText {
        match self.pieces.is_empty() || units == self.units {
            true => self,
            false => SizedText {
                pieces: self.pieces,
                units,
                shown: OnceLock::new(),
            },
        }
    }

    /// This, then that.
    #[must_use]
    pub fn then(self, other: impl Into<SizedText>) -> SizedText {
        let mut text = SizedText::default();
        text.append(self);
        text.append(other.into());
        text.whole()
    }

    /// Texts one after the other, with words between them.
    pub fn joined(texts: impl IntoIterator<Item = SizedText>, between: &'static str) -> SizedText {
        let mut all = SizedText::default();
        for (index, text) in texts.into_iter().enumerate() {
            if index > 0 {
                all.push_words(Cow::Borrowed(between));
            }
            all.append(text);
        }
        all.whole()
    }

    /// What it reads as.
    pub fn as_str(&self) -> &str {
        self.shown.get_or_init(|| shown(&self.pieces, self.units))
    }

    fn append(&mut self, other: SizedText) {
        match other.pieces.is_empty() {
            true => self.push_words(Cow::Owned(other.shown.into_inner().unwrap_or_default())),
            false => self.pieces.extend(other.pieces),
        }
    }

    fn push_words(&mut self, words: Cow<'static, str>) {
        if !words.is_empty() {
            self.pieces.push(TextPiece::Words(words));
        }
    }

    /// With all its pieces: words alone are one.
    fn whole(self) -> SizedText {
        let sized = |it: &TextPiece| matches!(it, TextPiece::Size(_));
        match self.pieces.iter().any(sized) {
            true => self,
            false => shown(&self.pieces, Units::Millimetres).into(),
        }
    }
}

/// Two sizes that differ never read alike: both are shown as fine as it takes.
fn shown(pieces: &[TextPiece], units: Units) -> String {
    let finer = alike::told_apart(pieces, units);
    let mut shown = String::new();
    for (index, piece) in pieces.iter().enumerate() {
        match piece {
            TextPiece::Words(words) => shown.push_str(words),
            TextPiece::Size(size) => {
                let told = finer.iter().find(|(at, _)| *at == index);
                let told = told.and_then(|(_, by)| size.finer(units, *by));
                let told = told.unwrap_or_else(|| size.in_units(units));
                shown.push_str(&told);
            }
        }
    }
    shown
}

impl Deref for SizedText {
    type Target = str;

    fn deref(&self) -> &str {
        self.as_str()
    }
}

impl fmt::Display for SizedText {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(self)
    }
}

/// Two texts are equal where they read alike.
impl PartialEq for SizedText {
    fn eq(&self, other: &Self) -> bool {
        self.as_str() == other.as_str()
    }
}

impl Eq for SizedText {}

impl PartialOrd for SizedText {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for SizedText {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.as_str().cmp(other.as_str())
    }
}

impl std::hash::Hash for SizedText {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        self.as_str().hash(state);
    }
}

impl PartialEq<str> for SizedText {
    fn eq(&self, other: &str) -> bool {
        self.as_str() == other
    }
}

impl PartialEq<&str> for SizedText {
    fn eq(&self, other: &&str) -> bool {
        self.as_str() == *other
    }
}

impl From<Size> for SizedText {
    fn from(size: Size) -> Self {
        SizedText {
            pieces: vec![TextPiece::Size(size)],
            ..SizedText::default()
        }
    }
}

/// With its unit, to at most three decimals.
impl From<Length> for SizedText {
    fn from(length: Length) -> Self {
        Size::Short(length).into()
    }
}

impl From<String> for SizedText {
    fn from(shown: String) -> Self {
        SizedText {
            shown: shown.into(),
            ..SizedText::default()
        }
    }
}

impl From<&SizedText> for SizedText {
    fn from(text: &SizedText) -> Self {
        text.clone()
    }
}

impl From<&str> for SizedText {
    fn from(words: &str) -> Self {
        words.to_owned().into()
    }
}

impl From<&String> for SizedText {
    fn from(words: &String) -> Self {
        words.clone().into()
    }
}

impl From<Arc<str>> for SizedText {
    fn from(words: Arc<str>) -> Self {
        words.to_string().into()
    }
}

/// A [`SizedText`](crate::SizedText) by its form and what goes into the form's `{}`, in order: words,
/// lengths, sizes, counts, other texts.
///
/// ```
/// # use quillet_standards::Units;
/// # use quillet_syntax::text;
/// # use quillet_geometry::Length;
/// let text = text!("{} is {} long", "cap", Length::mm(12.7));
/// assert_eq!(text, "cap is 12.7 mm long");
/// assert_eq!(text.in_units(Units::Inches), "cap is 0.5 in long");
/// ```
#[macro_export]
macro_rules! text {
    ($form:literal $(, $part:expr)* $(,)?) => {
        $crate::SizedText::of($form, [$($crate::ToText::to_text(&$part)),*])
    };
}

#[cfg(test)]
mod tests;
