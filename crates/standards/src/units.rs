//! `Units`: what a file counts bare lengths in, and how a maker is told a length in it.

use crate::drill::{self, DrillSeries};
use quillet_geometry::Length;

/// What a file counts bare lengths in, and is answered in.
///
/// All wording of a length for a maker goes through here, so that a file in inches is never
/// answered in millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[allow(missing_docs, reason = "the variants say it")]
pub enum Units {
    #[default]
    Millimetres,
    Inches,
}

impl Units {
    /// `mm` or `in`, as it stands behind a number.
    pub const fn suffix(self) -> &'static str {
        match self {
            Units::Millimetres => "mm",
            Units::Inches => "in",
        }
    }

    /// How much of it a length is, for a column of figures or a program.
    pub fn count(self, length: Length) -> f64 {
        match self {
            Units::Millimetres => length.to_mm(),
            Units::Inches => length.to_inches(),
        }
    }

    /// A length that is told, with its unit: `12.20 mm` to the hundredth, `0.4803 in` to the
    /// ten-thousandth and at least to the thousandth.
    pub fn length(self, length: Length) -> String {
        format!("{} {}", self.number(length), self.suffix())
    }

    /// The same without its unit: `12.20`, `0.4803`.
    pub fn number(self, length: Length) -> String {
        match self {
            Units::Millimetres => format!("{:.2}", rounded(length, 10_000).to_mm()),
            Units::Inches => padded(&length.inch_text(4)),
        }
    }

    /// A step finer, for limits of size and walls: `12.203`, `0.4803`.
    pub fn fine(self, length: Length) -> String {
        match self {
            Units::Millimetres => format!("{:.3}", rounded(length, 1_000).to_mm()),
            Units::Inches => padded(&length.inch_text(4)),
        }
    }

    /// In as few figures as it has, for a size that is asked or listed: `12.2 mm`, `0.48 in`.
    pub fn short(self, length: Length) -> String {
        match self {
            Units::Millimetres => format!("{} mm", length.mm_text(2)),
            Units::Inches => format!("{} in", length.inch_text(4)),
        }
    }

    /// The same without its unit, for a sheet that says its unit once: `12.2`, `0.48`.
    pub fn plain(self, length: Length) -> String {
        match self {
            Units::Millimetres => length.mm_text(2),
            Units::Inches => length.inch_text(4),
        }
    }

    /// A diameter: `⌀11.02`, `⌀0.434`.
    pub fn dia(self, dia: Length) -> String {
        format!("⌀{}", self.number(dia))
    }

    /// A length as [`Units::length`], as much finer as it takes where that would show it equal to
    /// the limit it is held against: `0.498 mm`, `0.01997 in`.
    pub fn against(self, length: Length, limit: Length) -> String {
        let number = self.number_against(length, limit);
        match self {
            Units::Millimetres => format!("{number} mm"),
            Units::Inches => format!("{number} in"),
        }
    }

    /// The limit itself, in millimetres as it is written: `0.995 mm`; in inches as
    /// [`Units::short`], and as fine as what is held against it where that would look equal to it.
    pub fn limit(self, limit: Length, held: Length) -> String {
        let alike = limit != held && self.number(limit) == self.number(held);
        match (self, alike) {
            (Units::Millimetres, _) => limit.to_string(),
            (Units::Inches, true) => self.against(limit, held),
            (Units::Inches, false) => self.short(limit),
        }
    }

    /// A diameter, finer where need be as [`Units::against`]: `⌀0.31496`.
    pub fn dia_against(self, dia: Length, limit: Length) -> String {
        format!("⌀{}", self.number_against(dia, limit))
    }

    fn number_against(self, length: Length, limit: Length) -> String {
        let number = self.number(length);
        if length == limit || number != self.number(limit) {
            return number;
        }
        self.finer(length, self.apart_by(length, limit))
    }

    /// To how many figures more than [`Units::number`] has two lengths that differ are told apart.
    pub fn apart_by(self, length: Length, other: Length) -> usize {
        let apart = |by: &usize| self.finer(length, *by) != self.finer(other, *by);
        (1..=FINEST_BY).find(apart).unwrap_or(FINEST_BY)
    }

    /// A length without its unit, to so many figures more than [`Units::number`] has.
    pub fn finer(self, length: Length, by: usize) -> String {
        match (self, by) {
            (Units::Millimetres, 1) => self.fine(length),
            (Units::Millimetres, _) => format!("{:.*}", 2 + by, length.to_mm()),
            (Units::Inches, _) => format!("{:.*}", 4 + by, length.to_inches()),
        }
    }

    /// As it is written in a file of this unit, exactly: `11.1125`; `7/16`, `1 + 1/8` where it is
    /// a whole number of 64ths of an inch, else `0.4803`.
    pub fn written(self, length: Length) -> String {
        match self {
            Units::Millimetres => length.exact_mm_text(),
            Units::Inches => match sixty_fourths(length) {
                Some(text) => text,
                None => length.inch_text(8),
            },
        }
    }

    /// A drill of this diameter as it is called and written in a file of this unit: `6.75`;
    /// `17/64`, `letter F`, `#7`; and by its diameter where no drill of the unit's series has it.
    pub fn drill(self, dia: Length) -> String {
        match (self, drill_named(dia)) {
            (Units::Inches, Some(name)) => name,
            _ => self.written(dia),
        }
    }

    /// Whether a drill that is called by a name in this unit has this diameter.
    pub fn is_drill(self, dia: Length) -> bool {
        self == Units::Inches && drill_named(dia).is_some()
    }

    /// What a drill of this diameter is called beside its size: `17/64`, `letter F`, where it is of an
    /// inch series alone; none where a metric one has the size too.
    pub fn inch_drill(dia: Length) -> Option<String> {
        let metric = drill::neighbours(dia, &[DrillSeries::Metric]);
        drill_named(dia).filter(|_| metric.exact.is_empty())
    }

    /// A hole to be told of: as [`Units::drill`] where an inch drill has its size, else `⌀11.02`.
    pub fn hole(self, dia: Length) -> String {
        match (self, drill_named(dia)) {
            (Units::Inches, Some(name)) => name,
            _ => self.dia(dia),
        }
    }

    /// The series of drills bought by makers who count so.
    pub const fn drills(self) -> &'static [DrillSeries] {
        match self {
            Units::Millimetres => &[DrillSeries::Metric],
            Units::Inches => &DrillSeries::INCH,
        }
    }

    /// What a size is rounded to when one is proposed: a tenth of a millimetre, or 5 thousandths.
    pub const fn step(self) -> Length {
        Length::from_nm(match self {
            Units::Millimetres => 100_000,
            Units::Inches => 127_000,
        })
    }

    /// What a size is rounded to when the step is too coarse: a hundredth, or a thousandth.
    pub const fn fine_step(self) -> Length {
        Length::from_nm(match self {
            Units::Millimetres => 10_000,
            Units::Inches => 25_400,
        })
    }

    /// The next whole [step](Units::step) at or below a size.
    pub const fn down(self, length: Length) -> Length {
        down_to(length, self.step())
    }

    /// The next whole [step](Units::step) at or above a size.
    pub fn up(self, length: Length) -> Length {
        -self.down(-length)
    }

    /// The next whole [fine step](Units::fine_step) at or below a size.
    pub const fn fine_down(self, length: Length) -> Length {
        down_to(length, self.fine_step())
    }
}

/// So many figures past the usual ones tell any two lengths apart, whole numbers of nanometres.
const FINEST_BY: usize = 4;

/// `7/16`, `1 + 1/8`, `2`: a sum that measures this many inches, where it is so many 64ths.
fn sixty_fourths(length: Length) -> Option<String> {
    let nearest = length.nearest_64th();
    let whole = nearest.sixty_fourths / 64;
    if nearest.length() != length || (length.is_negative() && whole != 0) {
        return None;
    }
    let text = nearest.to_string();
    let text = text.strip_suffix("in")?;
    Some(
        match text.split_once('-').filter(|(whole, _)| !whole.is_empty()) {
            Some((whole, part)) => format!("{whole} + {part}"),
            None => text.to_owned(),
        },
    )
}

/// What the inch drill of just this diameter is called in a file: fractions before letters and
/// numbers, as `1/4` before `letter E`.
fn drill_named(dia: Length) -> Option<String> {
    let exact = drill::neighbours(dia, &DrillSeries::INCH).exact;
    let drill = exact.last()?;
    let name = drill.to_string();
    match drill.series() {
        DrillSeries::Fraction => sixty_fourths(dia),
        _ => Some(name),
    }
}

/// At least three decimals: `0.358` of `0.358`, `0.300` of `0.3`.
fn padded(text: &str) -> String {
    let decimals = text.split_once('.').map_or(0, |(_, part)| part.len());
    let dot = if decimals == 0 { "." } else { "" };
    format!(
        "{text}{dot}{}",
        "0".repeat(3_usize.saturating_sub(decimals))
    )
}

/// To the nearest multiple of so many nanometres, half away from zero, so that a figure is never
/// rounded by its binary neighbour.
fn rounded(length: Length, nm: i64) -> Length {
    let half = nm / 2 * length.nm().signum();
    Length::from_nm(length.nm().saturating_add(half) / nm * nm)
}

const fn down_to(length: Length, step: Length) -> Length {
    let rest = length.nm().rem_euclid(step.nm());
    Length::from_nm(length.nm().saturating_sub(rest))
}

#[cfg(test)]
mod tests;
