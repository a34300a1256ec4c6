//! Colours, as pictures show them.

use std::fmt;

/// A colour by its red, green and blue (sRGB, IEC 61966-2-1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Colour {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

impl Colour {
    /// Of what nothing is known: a middle grey.
    pub const UNKNOWN: Colour = Colour::new(0x9a, 0x9c, 0x9e);

    /// A colour by its parts.
    pub const fn new(red: u8, green: u8, blue: u8) -> Colour {
        Colour { red, green, blue }
    }

    /// The colour that is written so, `#6d8a34`; none where it is written in any other way.
    pub fn read(text: &str) -> Option<Colour> {
        let digits = text.strip_prefix('#')?;
        let even = digits.len() == 6 && digits.bytes().all(|it| it.is_ascii_hexdigit());
        let value = u32::from_str_radix(digits, 16).ok().filter(|_| even)?;
        let [_, red, green, blue] = value.to_be_bytes();
        Some(Colour { red, green, blue })
    }

    /// Red, green and blue, each from 0 to 1, as they are written.
    pub fn parts(self) -> [f64; 3] {
        [self.red, self.green, self.blue].map(|it| f64::from(it) / 255.0)
    }

    /// How much light it gives, from 0 for black to 1 for white (WCAG 2.2, relative luminance).
    pub fn luminance(self) -> f64 {
        let [red, green, blue] = self.parts().map(|it| match it <= 0.040_45 {
            true => it / 12.92,
            false => ((it + 0.055) / 1.055).powf(2.4),
        });
        0.2126 * red + 0.7152 * green + 0.0722 * blue
    }

    /// How well it stands out against another, from 1 to 21 (WCAG 2.2, contrast ratio).
    pub fn contrast(self, other: Colour) -> f64 {
        let (one, two) = (self.luminance(), other.luminance());
        (one.max(two) + 0.05) / (one.min(two) + 0.05)
    }
}

/// `#6d8a34`
impl fmt::Display for Colour {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Colour { red, green, blue } = self;
        write!(out, "#{red:02x}{green:02x}{blue:02x}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_six_digits_are_read() {
        let green = Colour::read("#6d8A34").unwrap();
        assert_eq!(green, Colour::new(0x6d, 0x8a, 0x34));
        assert_eq!(green.to_string(), "#6d8a34");
        for text in [
            "#12", "6d8a34", "#6d8a3", "#6d8a340", "#+d8a34", "#6d8ag4", "green", "",
        ] {
            assert_eq!(Colour::read(text), None, "{text}");
        }
    }

    /// WCAG 2.2: black on white is 21 to 1, and #767676 is the lightest grey that is 4.5 to 1 on white.
    #[test]
    fn contrasts_are_those_of_the_standard() {
        let white = Colour::new(255, 255, 255);
        assert!((Colour::new(0, 0, 0).contrast(white) - 21.0).abs() < 1e-9);
        let grey = |level| white.contrast(Colour::new(level, level, level));
        assert!(grey(0x76) >= 4.5 && grey(0x77) < 4.5);
    }
}
