//! `Limits`: the least and the greatest of a length.

use std::fmt;

use crate::Length;

/// The least and the greatest of a length: limits of size, a span, a stretch of the axis.
///
/// `min` is never above `max`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Limits {
    min: Length,
    max: Length,
}

impl Limits {
    /// From one length to the other, given in either order.
    pub fn new(a: Length, b: Length) -> Limits {
        Limits {
            min: a.min(b),
            max: a.max(b),
        }
    }

    /// One length and no other.
    pub const fn exactly(length: Length) -> Limits {
        Limits {
            min: length,
            max: length,
        }
    }

    /// The least.
    pub const fn min(self) -> Length {
        self.min
    }

    /// The greatest.
    pub const fn max(self) -> Length {
        self.max
    }

    /// From least to greatest: a tolerance, the length of a stretch.
    pub fn width(self) -> Length {
        self.max - self.min
    }

    /// Half way, an odd nanometre dropped.
    pub fn middle(self) -> Length {
        self.min + self.width().half()
    }

    /// True from the least to the greatest, both counted.
    pub fn contains(self, length: Length) -> bool {
        self.min <= length && length <= self.max
    }

    /// What both have in common, a single shared length too; none where they are apart.
    pub fn overlap(self, other: Limits) -> Option<Limits> {
        let (min, max) = (self.min.max(other.min), self.max.min(other.max));
        (min <= max).then_some(Limits { min, max })
    }

    /// Both moved by `by`.
    pub fn moved(self, by: Length) -> Limits {
        Limits {
            min: self.min + by,
            max: self.max + by,
        }
    }
}

/// In millimetres: `12.6 to 12.9 mm`, or `12.6 mm` where both are one.
impl fmt::Display for Limits {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.min == self.max {
            return self.min.fmt(out);
        }
        let places = out.precision().unwrap_or(3);
        write!(
            out,
            "{} to {} mm",
            self.min.mm_text(places),
            self.max.mm_text(places)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_keep_their_order_and_meet() {
        let tenon = Limits::new(Length::mm(12.9), Length::mm(12.6));
        assert_eq!(tenon.to_string(), "12.6 to 12.9 mm");
        assert_eq!(tenon.middle(), Length::mm(12.75));
        assert_eq!(tenon.width(), Length::mm(0.3));
        assert!(tenon.contains(Length::mm(12.6)) && !tenon.contains(Length::mm(12.59)));
        let bore = Limits::new(Length::mm(12.9), Length::mm(13.0));
        assert_eq!(tenon.overlap(bore), Some(Limits::exactly(Length::mm(12.9))));
        assert_eq!(tenon.overlap(bore.moved(Length::mm(0.1))), None);
    }
}
