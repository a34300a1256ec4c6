//! `Source`: where a figure comes from.

use std::fmt;

/// Where a figure comes from: a published standard, a handbook, or what the trade does.
///
/// The text says which. A figure that only the trade vouches for says "common practice, no
/// published source", one that could not be looked up says "from memory".
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Source(&'static str);

impl Source {
    /// What a rule of the trade is marked with.
    pub const PRACTICE: Source = Source("common practice, no published source");

    /// A source by its text.
    pub const fn new(text: &'static str) -> Source {
        Source(text)
    }

    /// The text, as it is shown to a maker.
    pub const fn text(self) -> &'static str {
        self.0
    }

    /// True where no published source stands behind the figure.
    pub fn is_practice(self) -> bool {
        self.0.contains("common practice")
    }

    /// True where the figure was written down from memory.
    pub fn is_from_memory(self) -> bool {
        self.0.contains("from memory")
    }
}

impl fmt::Display for Source {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.pad(self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_source_says_how_far_it_goes() {
        assert!(Source::PRACTICE.is_practice());
        assert!(!Source::new("ISO 965-1").is_practice());
        assert!(Source::new("ISO 4755, from memory").is_from_memory());
    }
}
