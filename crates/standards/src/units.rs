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

    /// The next whole [fine step](Units::fine_step) at or above a size.
    pub fn fine_up(self, length: Length) -> Length {
        -self.fine_down(-length)
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
mod tests {
    use super::*;
    use Units::{Inches, Millimetres};

    fn inches(num: i64, den: i64) -> Length {
        Length::from_inches_ratio(num, den).unwrap()
    }

    #[test]
    fn lengths_are_told_in_the_units_of_the_file() {
        let tenon = Length::mm(12.2);
        assert_eq!(Millimetres.length(tenon), "12.20 mm");
        assert_eq!(Inches.length(tenon), "0.4803 in");
        assert_eq!(Inches.length(Length::inches(0.358)), "0.358 in");
        assert_eq!(Inches.length(Length::inches(0.3)), "0.300 in");
        assert_eq!(Inches.length(Length::inches(2.0)), "2.000 in");
        assert_eq!(Millimetres.dia(Length::mm(11.0151)), "⌀11.02");
        assert_eq!(Inches.dia(inches(7, 16)), "⌀0.4375");
        assert_eq!(Inches.short(Length::inches(0.3)), "0.3 in");
        assert_eq!(Millimetres.number(Length::mm(-0.004)), "0.00");
    }

    /// A half is rounded away from zero, not by what a float makes of it: 1.005 is 1.01.
    #[test]
    fn halves_round_away_from_zero() {
        assert_eq!(Millimetres.number(Length::mm(1.005)), "1.01");
        assert_eq!(Millimetres.number(Length::mm(-1.005)), "-1.01");
        assert_eq!(Millimetres.number(Length::mm(1.004_999)), "1.00");
    }

    #[test]
    fn what_would_look_equal_is_told_one_figure_finer() {
        let limit = Length::mm(0.5);
        assert_eq!(Millimetres.against(Length::mm(0.51), limit), "0.51 mm");
        assert_eq!(Millimetres.against(Length::mm(0.498), limit), "0.498 mm");
        assert_eq!(Millimetres.against(limit, limit), "0.50 mm");
        let limit = Length::inches(0.02);
        assert_eq!(Inches.against(Length::inches(0.01997), limit), "0.01997 in");
        assert_eq!(Inches.against(Length::inches(0.0199), limit), "0.0199 in");
        // 0.07874 in is 4 nm under 2 mm.
        let (lead, room) = (Length::mm(2.0), Length::inches(0.07874));
        assert_eq!(Inches.against(room, lead), "0.0787400 in");
        assert_eq!(Inches.limit(lead, room), "0.0787402 in");
        assert_eq!(Inches.limit(lead, Length::mm(1.9)), "0.0787 in");
        // A drill of 0.31496 in is 16 nm under 8 mm.
        let drill = Length::inches(0.31496);
        let wanted = Length::mm(8.0);
        assert_eq!(Inches.dia_against(drill, wanted), "⌀0.314960");
        assert_eq!(Inches.dia_against(wanted, drill), "⌀0.314961");
        assert_eq!(Millimetres.dia_against(drill, wanted), "⌀7.99998");
        assert_eq!(Millimetres.dia_against(wanted, drill), "⌀8.00000");
    }

    #[test]
    fn sizes_are_written_as_the_file_would_have_them() {
        assert_eq!(Millimetres.written(inches(7, 16)), "11.1125");
        assert_eq!(Inches.written(inches(7, 16)), "7/16");
        assert_eq!(Inches.written(inches(9, 8)), "1 + 1/8");
        assert_eq!(Inches.written(inches(2, 1)), "2");
        assert_eq!(Inches.written(inches(-9, 8)), "-1.125");
        assert_eq!(Inches.written(inches(-1, 8)), "-1/8");
        assert_eq!(Inches.written(Length::inches(0.358)), "0.358");
        assert_eq!(Inches.written(Length::mm(9.1)), "0.35826772");
    }

    /// ASME B94.11M: 17/64 is no number and no letter, F is 0.257, #7 is 0.201; E and 1/4 are one
    /// size.
    #[test]
    fn inch_drills_go_by_their_names() {
        assert_eq!(Inches.drill(inches(17, 64)), "17/64");
        assert_eq!(Inches.drill(Length::inches(0.257)), "letter F");
        assert_eq!(Inches.drill(Length::inches(0.201)), "#7");
        assert_eq!(Inches.drill(inches(1, 4)), "1/4");
        assert!(Inches.is_drill(inches(17, 64)) && !Millimetres.is_drill(inches(17, 64)));
        assert!(!Inches.is_drill(Length::inches(0.2571)));
        assert_eq!(Inches.drill(Length::inches(0.2571)), "0.2571");
        assert_eq!(Inches.hole(Length::inches(0.2571)), "⌀0.2571");
        assert_eq!(Inches.hole(inches(17, 64)), "17/64");
        assert_eq!(Millimetres.drill(inches(17, 64)), "6.746875");
        assert_eq!(Millimetres.hole(inches(17, 64)), "⌀6.75");
        // Half an inch is 12.7 mm, which is a metric drill as well.
        for (dia, name) in [
            (inches(17, 64), Some("17/64")),
            (inches(1, 2), None),
            (Length::mm(9.3), None),
        ] {
            assert_eq!(Units::inch_drill(dia).as_deref(), name);
        }
    }

    #[test]
    fn proposed_sizes_are_round() {
        assert_eq!(Millimetres.down(Length::mm(9.19)), Length::mm(9.1));
        assert_eq!(Millimetres.up(Length::mm(9.11)), Length::mm(9.2));
        assert_eq!(Millimetres.up(Length::mm(9.1)), Length::mm(9.1));
        assert_eq!(Inches.down(Length::inches(0.3599)), Length::inches(0.355));
        assert_eq!(Inches.up(Length::inches(0.3551)), Length::inches(0.36));
        assert_eq!(
            Inches.fine_up(Length::inches(0.3551)),
            Length::inches(0.356)
        );
        assert_eq!(Millimetres.fine_down(Length::mm(-0.001)), Length::mm(-0.01));
    }
}
