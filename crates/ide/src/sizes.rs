//! How sizes are told: in the unit of the file that is asked about, unless the maker chose.

use crate::settings::{Settings, Units as Chosen};
use quillet_geometry::{Length, Limits};
use quillet_model::{SourceFile, Units};

/// Places that millimetres are told to.
const MM: usize = 3;
/// Places that inches are told to.
const INCH: usize = 4;

/// The unit sizes are told in, and whether the other stands beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Sizes {
    units: Units,
    both: bool,
}

impl Sizes {
    /// As the maker chose, or else as the file counts.
    pub(crate) fn of(settings: &Settings, file: &SourceFile) -> Self {
        Self::chosen(settings.units, file.units())
    }

    /// As the maker chose, or else in `own`, the unit of the file.
    pub(crate) fn chosen(chosen: Chosen, own: Units) -> Self {
        Self {
            units: match chosen {
                Chosen::File | Chosen::Both => own,
                Chosen::Millimetres => Units::Millimetres,
                Chosen::Inches => Units::Inches,
            },
            both: chosen == Chosen::Both,
        }
    }

    /// The unit that comes first.
    pub(crate) fn units(self) -> Units {
        self.units
    }

    /// A size: `11.2 mm`, `0.4409 in`, and where both are wanted `11.2 mm · 0.4409 in`.
    pub(crate) fn long(self, size: Length) -> String {
        self.with_other(|units| format!("{} {}", number(units, size), units.suffix()))
    }

    /// Two sizes between which it lies: `11.2..11.4 mm`.
    pub(crate) fn limits(self, limits: Limits) -> String {
        self.with_other(|units| {
            let (low, high) = (number(units, limits.min()), number(units, limits.max()));
            format!("{low}..{high} {}", units.suffix())
        })
    }

    /// A size in the first unit alone: `12.1 mm`, `0.4764 in`.
    pub(crate) fn one(self, size: Length) -> String {
        let first = Self {
            both: false,
            ..self
        };
        first.long(size)
    }

    /// A size in few words: `1.14`, `0.0449in`.
    pub(crate) fn short(self, size: Length, mm_places: usize) -> String {
        match self.units {
            Units::Inches => format!("{}in", size.inch_text(INCH)),
            Units::Millimetres => size.mm_text(mm_places),
        }
    }

    /// A drill in few words: `12.2`, `letter R`, `0.4803in`.
    pub(crate) fn drill(self, dia: Length) -> String {
        match self.units.is_drill(dia) {
            true => self.units.drill(dia),
            false => self.short(dia, 2),
        }
    }

    /// A figure that was worked out, with its unit, to so many places of a millimetre and two more
    /// of an inch: `66.6 mm`, `2.622 in`.
    pub(crate) fn worked_out(self, mm: f64, mm_places: usize) -> String {
        format!("{} {}", self.figure(mm, mm_places), self.units.suffix())
    }

    /// The same without its unit.
    pub(crate) fn figure(self, mm: f64, mm_places: usize) -> String {
        let (value, places) = self.value(mm, mm_places);
        quillet_geometry::number(value, places)
    }

    /// The same as a change, with its sign and its unit: `+0.12 mm`, `−0.005 in`.
    pub(crate) fn change(self, mm: f64, mm_places: usize) -> String {
        let (value, places) = self.value(mm, mm_places);
        format!("{} {}", signed(value, places), self.units.suffix())
    }

    fn value(self, mm: f64, mm_places: usize) -> (f64, usize) {
        match self.units {
            Units::Millimetres => (mm, mm_places),
            Units::Inches => (mm / 25.4, (mm_places + 2).min(INCH)),
        }
    }

    /// The nearest 64th with what it is off by: `7/16in − 0.0035 in`; none where only millimetres
    /// are told.
    pub(crate) fn fraction(self, size: Length) -> Option<String> {
        if self.units == Units::Millimetres && !self.both {
            return None;
        }
        let nearest = size.nearest_64th();
        let off = size - nearest.length();
        let by = self.one(off.abs());
        Some(match off.nm() {
            0 => format!("{nearest} exactly"),
            nm if nm > 0 => format!("{nearest} + {by}"),
            _ => format!("{nearest} − {by}"),
        })
    }

    fn with_other(self, reported: impl Fn(Units) -> String) -> String {
        let other = match self.units {
            Units::Millimetres => Units::Inches,
            Units::Inches => Units::Millimetres,
        };
        match self.both {
            true => format!("{} · {}", reported(self.units), reported(other)),
            false => reported(self.units),
        }
    }
}

fn number(units: Units, size: Length) -> String {
    match units {
        Units::Millimetres => size.mm_text(MM),
        Units::Inches => size.inch_text(INCH),
    }
}

/// A number with its sign; one that rounds to nothing has none.
pub(crate) fn signed(value: f64, places: usize) -> String {
    let text = format!("{value:+.places$}");
    match text.contains(|c: char| ('1'..='9').contains(&c)) {
        true => text.replace('-', "−"),
        false => text[1..].to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const IN_MM: Sizes = Sizes {
        units: Units::Millimetres,
        both: false,
    };
    const IN_INCHES: Sizes = Sizes {
        units: Units::Inches,
        both: false,
    };

    #[test]
    fn the_file_says_the_unit_unless_the_maker_does() {
        let reported = |chosen, own| Sizes::chosen(chosen, own).long(Length::mm(12.7));
        for (chosen, mm, inches) in [
            (Chosen::File, "12.7 mm", "0.5 in"),
            (Chosen::Millimetres, "12.7 mm", "12.7 mm"),
            (Chosen::Inches, "0.5 in", "0.5 in"),
            (Chosen::Both, "12.7 mm · 0.5 in", "0.5 in · 12.7 mm"),
        ] {
            assert_eq!(reported(chosen, Units::Millimetres), mm);
            assert_eq!(reported(chosen, Units::Inches), inches);
        }
    }

    #[test]
    fn the_nearest_fraction_says_what_it_is_off_by() {
        let both = Sizes {
            both: true,
            ..IN_MM
        };
        // 7/16 in = 11.1125 mm exactly.
        for (mm, wanted) in [
            (11.1125, "7/16in exactly"),
            (11.2, "7/16in + 0.088 mm"),
            (11.0, "7/16in − 0.113 mm"),
        ] {
            assert_eq!(both.fraction(Length::mm(mm)).as_deref(), Some(wanted));
        }
        let inches = IN_INCHES.fraction(Length::mm(11.2));
        assert_eq!(inches.as_deref(), Some("7/16in + 0.0034 in"));
        assert_eq!(IN_MM.fraction(Length::mm(11.2)), None);
    }

    #[test]
    fn figures_are_told_as_finely_in_either_unit() {
        assert_eq!(IN_MM.worked_out(66.64, 1), "66.6 mm");
        assert_eq!(IN_INCHES.worked_out(66.64, 1), "2.624 in");
        assert_eq!(IN_INCHES.change(-0.127, 2), "−0.0050 in");
        assert_eq!(IN_INCHES.worked_out(f64::NAN, 1), "— in");
        // Letter R is 0.339 in (ASME B94.11M).
        assert_eq!(IN_INCHES.drill(Length::inches(0.339)), "letter R");
        assert_eq!(IN_INCHES.drill(Length::mm(12.2)), "0.4803in");
        assert_eq!(IN_MM.drill(Length::mm(12.2)), "12.2");
    }
}
