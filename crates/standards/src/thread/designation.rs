//! Thread designations: `M13x0.8`, `M13xPh2.4P0.8`, `M10-6g`, `7/16-28UNEF`, `#10-32UNF-2A`.

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

use quillet_geometry::Length;

use super::class::{Side, ThreadClass};
use super::form::{Hand, InchSeries, ThreadForm, ThreadSize};
use super::series;
use crate::inches;

/// A designation that cannot be read: what is, what was expected, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DesignationError {
    /// What is wrong.
    pub kind: DesignationFault,
    /// The bytes of the designation it is about.
    pub at: Range<usize>,
    message: String,
}

/// The ways in which a designation can be wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DesignationFault {
    /// It is neither a metric nor a unified inch designation.
    Unreadable,
    /// A number is missing or cannot be read.
    Number,
    /// A diameter, pitch or count beyond what can be cut.
    OutOfRange,
    /// No pitch is given and the size has no coarse pitch.
    NoCoarsePitch,
    /// The pitch is too coarse for the diameter.
    TooCoarse,
    /// The lead is no whole number of pitches, or contradicts the starts.
    Starts,
    /// The tolerance class cannot be read or does not belong to the thread.
    Class,
}

impl fmt::Display for DesignationError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.message)
    }
}

impl std::error::Error for DesignationError {}

/// As it stands on a drawing: ISO 965-1 for metric threads (a coarse pitch is left out, several
/// starts give lead and pitch, `M13xPh2.4P0.8`), ASME B1.1 for inch ones, with `starts N` after.
impl fmt::Display for ThreadForm {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.size() {
            ThreadSize::Metric { major, pitch } => {
                write!(out, "M{}", major.exact_mm_text())?;
                if self.starts() > 1 {
                    let lead = pitch * i64::from(self.starts());
                    let (lead, pitch) = (lead.exact_mm_text(), pitch.exact_mm_text());
                    write!(out, "xPh{lead}P{pitch}")?;
                } else if series::coarse_pitch(major) != Some(pitch) {
                    write!(out, "x{}", pitch.exact_mm_text())?;
                }
            }
            ThreadSize::Inch { major, tpi, series } => {
                write!(out, "{}-{tpi}{}", inch_size(major), series.letters())?;
            }
        }
        match (
            self.said_class(Side::Internal),
            self.said_class(Side::External),
        ) {
            (Some(inside), Some(outside)) if self.is_inch() => write!(out, "-{outside}/{inside}")?,
            (Some(inside), Some(outside)) => write!(out, "-{inside}/{outside}")?,
            (Some(class), None) | (None, Some(class)) => write!(out, "-{class}")?,
            (None, None) => {}
        }
        if self.hand() == Hand::Left {
            out.write_str("-LH")?;
        }
        if self.is_inch() && self.starts() > 1 {
            write!(out, " starts {}", self.starts())?;
        }
        Ok(())
    }
}

impl FromStr for ThreadForm {
    type Err = DesignationError;

    fn from_str(text: &str) -> Result<ThreadForm, DesignationError> {
        Reader { whole: text }.form()
    }
}

const WIDEST: Length = Length::from_nm(300_000_000);
/// The pitch of most cap threads, offered first.
const USUAL_PITCH: Length = Length::from_nm(800_000);
const FINE_TPI: u32 = 24;
const FINEST: Length = Length::from_nm(100_000);

/// A value and the text it was read from.
type Written<'t, T> = (T, &'t str);

struct Reader<'t> {
    whole: &'t str,
}

impl<'t> Reader<'t> {
    fn form(&self) -> Result<ThreadForm, DesignationError> {
        let (text, starts) = self.starts(self.whole.trim())?;
        let (text, classes, hand) = self.tail(text)?;
        let mut form = if let Some(size) = text.strip_prefix(['M', 'm']) {
            self.metric(size)?
        } else if text.starts_with(|first: char| first.is_ascii_digit() || "#.".contains(first)) {
            self.inch(text)?
        } else {
            return Err(self.fault(
                DesignationFault::Unreadable,
                text,
                "a thread is written like M13x0.8, M13xPh2.4P0.8 or 7/16-28UNEF",
            ));
        };
        if let Some((starts, written)) = starts {
            if form.starts() > 1 && form.starts() != starts {
                return Err(self.fault(
                    DesignationFault::Starts,
                    written,
                    format!(
                        "the lead already gives {} starts, not {starts}",
                        form.starts()
                    ),
                ));
            }
            form = form.with_starts(starts);
        }
        for (class, written) in classes {
            if class.is_inch() != form.is_inch() {
                let expected = if form.is_inch() {
                    "an inch thread takes 2A outside and 2B inside"
                } else {
                    "a metric thread takes 6g outside and 6H inside"
                };
                return Err(self.fault(
                    DesignationFault::Class,
                    written,
                    format!("class {class} does not belong to this thread; {expected}"),
                ));
            }
            form = form.with_class(class);
        }
        Ok(form.with_hand(hand))
    }

    /// Takes `starts N` off the end.
    fn starts(
        &self,
        text: &'t str,
    ) -> Result<(&'t str, Option<Written<'t, u32>>), DesignationError> {
        let Some((thread, count)) = text.split_once("starts") else {
            return Ok((text, None));
        };
        let count = count.trim();
        match count.parse() {
            Ok(starts) if (1..=ThreadForm::MOST_STARTS).contains(&starts) => {
                Ok((thread.trim_end(), Some((starts, count))))
            }
            _ => Err(self.fault(
                DesignationFault::Starts,
                if count.is_empty() { text } else { count },
                format!(
                    "starts: a whole number from 1 to {} was expected",
                    ThreadForm::MOST_STARTS
                ),
            )),
        }
    }

    /// Takes `-6g`, `-6H/6g`, `-2A` and `-LH` off the end.
    fn tail(
        &self,
        mut text: &'t str,
    ) -> Result<(&'t str, Vec<Written<'t, ThreadClass>>, Hand), DesignationError> {
        let (mut classes, mut hand) = (Vec::new(), Hand::Right);
        while let Some((before, last)) = text.rsplit_once('-') {
            if last.trim() == "LH" {
                hand = Hand::Left;
            } else if !looks_like_class(last) {
                break;
            } else {
                for part in last.split('/') {
                    let class = part.parse().map_err(|fault: super::ClassError| {
                        self.fault(DesignationFault::Class, part, fault.to_string())
                    })?;
                    classes.push((class, part));
                }
            }
            text = before.trim_end();
        }
        Ok((text, classes, hand))
    }

    /// What follows `M`: `13x0.8`, `13xPh2.4P0.8`, `10`.
    fn metric(&self, text: &'t str) -> Result<ThreadForm, DesignationError> {
        let (major_text, pitch_text) = match text.split_once(['x', 'X', '×']) {
            Some((major, pitch)) => (major, Some(pitch)),
            None => (text, None),
        };
        let major = self.mm(major_text, "the diameter after M")?;
        let (pitch, starts) = match pitch_text.map(str::trim) {
            None => (self.coarse(major, major_text)?, 1),
            Some(pitch) => match pitch.strip_prefix("Ph") {
                None => (self.mm(pitch, "the pitch")?, 1),
                Some(lead) => self.lead_and_pitch(lead)?,
            },
        };
        self.within(major, major_text)?;
        if pitch < FINEST || pitch.to_mm() * 1.5 > major.to_mm() {
            return Err(self.fault(
                DesignationFault::TooCoarse,
                pitch_text.unwrap_or(text),
                format!(
                    "a pitch of {} does not go on a diameter of {}; from 0.1 mm to {} was expected",
                    exact(pitch),
                    exact(major),
                    Length::mm(major.to_mm() / 1.5)
                ),
            ));
        }
        Ok(ThreadForm::metric(major, pitch).with_starts(starts))
    }

    fn coarse(&self, major: Length, written: &'t str) -> Result<Length, DesignationError> {
        series::coarse_pitch(major).ok_or_else(|| {
            let nearest = series::known()
                .filter(|known| !known.form().is_inch())
                .min_by_key(|known| {
                    let form = known.form();
                    (
                        (form.major() - major).abs(),
                        (form.pitch() - USUAL_PITCH).abs(),
                    )
                });
            let example = nearest.map_or("M13x0.8", |known| known.designation());
            self.fault(
                DesignationFault::NoCoarsePitch,
                written,
                format!(
                    "ISO 261 lists no coarse pitch for M{} (M1 to M48); write the pitch, as in {example}",
                    major.exact_mm_text()
                ),
            )
        })
    }

    /// What follows `Ph`: `2.4P0.8`.
    fn lead_and_pitch(&self, text: &'t str) -> Result<(Length, u32), DesignationError> {
        let Some((lead_text, pitch_text)) = text.split_once('P') else {
            return Err(self.fault(
                DesignationFault::Number,
                text,
                "after Ph come the lead, P and the pitch, as in Ph2.4P0.8",
            ));
        };
        let lead = self.mm(lead_text, "the lead after Ph")?;
        let pitch = self.mm(pitch_text, "the pitch after P")?;
        let starts = if pitch.is_positive() {
            lead.nm() / pitch.nm()
        } else {
            0
        };
        if !(1..=i64::from(ThreadForm::MOST_STARTS)).contains(&starts) || pitch * starts != lead {
            let near =
                (lead.ratio(pitch).round() as i64).clamp(1, i64::from(ThreadForm::MOST_STARTS));
            return Err(self.fault(
                DesignationFault::Starts,
                text,
                format!(
                    "a lead of {} is no whole number of pitches of {}; {near} starts would lead {}",
                    exact(lead),
                    exact(pitch),
                    exact(pitch * near)
                ),
            ));
        }
        Ok((pitch, starts as u32))
    }

    /// `7/16-28UNEF`, `#10-32UNF`, `1-1/8-12UN`, `0.5-28`.
    fn inch(&self, text: &'t str) -> Result<ThreadForm, DesignationError> {
        let Some((size, pitch)) = text.rsplit_once('-') else {
            return Err(self.fault(
                DesignationFault::Unreadable,
                text,
                "an inch thread is size, dash, threads per inch and series, as in 7/16-28UNEF",
            ));
        };
        let digits = pitch.len() - pitch.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let tpi = match pitch[..digits].parse() {
            Ok(tpi) if (1..=120).contains(&tpi) => tpi,
            _ => {
                return Err(self.fault(
                    DesignationFault::Number,
                    pitch,
                    "a whole number of threads per inch from 1 to 120 was expected after the dash",
                ));
            }
        };
        let letters = pitch[digits..].trim();
        let said = InchSeries::ALL
            .into_iter()
            .find(|series| series.letters() == letters);
        if said.is_none() && !letters.is_empty() {
            return Err(self.fault(
                DesignationFault::Unreadable,
                letters,
                format!("`{letters}` is no series; UNC, UNF, UNEF, UN or UNS was expected"),
            ));
        }
        let major = self.inch_major(size.trim(), tpi)?;
        self.within(major, size)?;
        let pitch_mm = 25.4 / f64::from(tpi);
        if pitch_mm * 1.5 > major.to_mm() {
            return Err(self.fault(
                DesignationFault::TooCoarse,
                pitch,
                format!("{tpi} threads per inch is too coarse for a diameter of {major}"),
            ));
        }
        let series = said
            .or_else(|| series::inch_series(major, tpi))
            .unwrap_or(InchSeries::Uns);
        Ok(ThreadForm::inch(major, tpi, series))
    }

    fn inch_major(&self, size: &'t str, tpi: u32) -> Result<Length, DesignationError> {
        let number = size.strip_prefix('#').unwrap_or(size);
        if let Ok(number) = number.trim().parse::<i64>() {
            let gauge = numbered(number);
            // `10-32` is the number size, `1-8` the inch: the series tell them apart, and for
            // specials the pitch, since no thread of whole inches is as fine as 24 to the inch.
            let said = size.starts_with('#');
            let listed = |major| series::inch_series(major, tpi).is_some();
            if let Some(gauge) = gauge
                && (said
                    || listed(gauge)
                    || (tpi >= FINE_TPI && !listed(Length::inches(number as f64))))
            {
                return Ok(gauge);
            }
            if said {
                return Err(self.fault(
                    DesignationFault::OutOfRange,
                    size,
                    "number sizes are #0 to #6, #8, #10 and #12; larger threads are in inches",
                ));
            }
        }
        inches::parse(size.trim_end_matches(['"', 'i', 'n'])).ok_or_else(|| {
            self.fault(
                DesignationFault::Number,
                size,
                "the size in inches was expected: 7/16, 1-1/8, 0.4375 or a number size such as #10",
            )
        })
    }

    fn mm(&self, text: &'t str, what: &str) -> Result<Length, DesignationError> {
        let plain = text.trim().replace(',', ".");
        Length::parse_mm(&plain)
            .filter(|length| length.is_positive())
            .ok_or_else(|| {
                self.fault(
                    DesignationFault::Number,
                    text,
                    format!("{what} should be a number of millimetres, as in M13x0.8"),
                )
            })
    }

    fn within(&self, major: Length, written: &'t str) -> Result<(), DesignationError> {
        if major <= WIDEST && major >= FINEST * 2 {
            return Ok(());
        }
        Err(self.fault(
            DesignationFault::OutOfRange,
            written,
            format!("a thread of {major} is beyond 0.2 to 300 mm"),
        ))
    }

    fn fault(
        &self,
        kind: DesignationFault,
        part: &'t str,
        message: impl Into<String>,
    ) -> DesignationError {
        // `part` is always a slice of the whole text, so the distance is its place.
        let start = (part.as_ptr() as usize)
            .saturating_sub(self.whole.as_ptr() as usize)
            .min(self.whole.len());
        DesignationError {
            kind,
            at: start..(start + part.len()).min(self.whole.len()),
            message: message.into(),
        }
    }
}

/// A class ends in a letter of a position; a pitch and series never do.
fn looks_like_class(text: &str) -> bool {
    let text = text.trim();
    text.starts_with(|first: char| first.is_ascii_digit())
        && text.len() <= 9
        && text.ends_with(|last: char| last.is_ascii_alphabetic())
        && !InchSeries::ALL
            .iter()
            .any(|series| text.ends_with(series.letters()))
        && !text.contains(' ')
        && text.chars().take_while(char::is_ascii_digit).count().eq(&1)
}

/// The diameter of a number size: 0.060 in and 0.013 in a number (ASME B1.1).
fn numbered(number: i64) -> Option<Length> {
    matches!(number, 0..=6 | 8 | 10 | 12)
        .then(|| Length::from_inches_ratio(60 + 13 * number, 1000))
        .flatten()
}

/// The diameter that the table of series writes `#10`, `7/16` or `1-1/8`.
pub(super) fn inch_major(size: &str) -> Option<Length> {
    match size.strip_prefix('#') {
        Some(number) => numbered(number.parse().ok()?),
        None => inches::parse(size),
    }
}

/// `#10`, `7/16`, `1-1/8`, or decimals where the size is none of these.
fn inch_size(major: Length) -> String {
    if let Some(number) = (0..=12).find(|&number| numbered(number) == Some(major)) {
        return format!("#{number}");
    }
    let fraction = major.nearest_64th();
    if fraction.length() == major {
        fraction.to_string().trim_end_matches("in").to_owned()
    } else {
        major.inch_text(6)
    }
}

fn exact(length: Length) -> String {
    format!("{} mm", length.exact_mm_text())
}

#[cfg(test)]
mod tests {
    use super::*;
    use quillet_reference::rows;

    fn read(text: &str) -> Result<ThreadForm, DesignationError> {
        text.parse()
    }

    fn metric(major: f64, pitch: f64) -> ThreadForm {
        ThreadForm::metric(Length::mm(major), Length::mm(pitch))
    }

    #[test]
    fn metric_designations_read() {
        let three = metric(13.0, 0.8).with_starts(3);
        for (text, wanted) in [
            ("M13x0.8", metric(13.0, 0.8)),
            ("M10", metric(10.0, 1.5)),
            ("M10x1.5", metric(10.0, 1.5)),
            ("m6,4×0,5", metric(6.4, 0.5)),
            ("M13xPh2.4P0.8", three),
            ("M13x0.8 starts 3", three),
            ("M13xPh2.4P0.8 starts 3", three),
            (
                "M6x1-6g",
                metric(6.0, 1.0).with_class(ThreadClass::METRIC_EXTERNAL),
            ),
            (
                "M6-6H/6g",
                metric(6.0, 1.0)
                    .with_class(ThreadClass::METRIC_EXTERNAL)
                    .with_class(ThreadClass::METRIC_INTERNAL),
            ),
            ("M10x0.75-LH", metric(10.0, 0.75).with_hand(Hand::Left)),
            (
                "M10x0.75-5g6g-LH",
                metric(10.0, 0.75)
                    .with_hand(Hand::Left)
                    .with_class("5g6g".parse().unwrap()),
            ),
        ] {
            assert_eq!(read(text), Ok(wanted), "{text}");
        }
    }

    #[test]
    fn inch_designations_read() {
        let inch = |num, den, tpi, series| {
            ThreadForm::inch(Length::from_inches_ratio(num, den).unwrap(), tpi, series)
        };
        for (text, wanted) in [
            ("7/16-28UNEF", inch(7, 16, 28, InchSeries::Unef)),
            ("0.4375-28 UNEF", inch(7, 16, 28, InchSeries::Unef)),
            ("7/16-28", inch(7, 16, 28, InchSeries::Unef)),
            ("7/16-30", inch(7, 16, 30, InchSeries::Uns)),
            ("1-1/8-12UN", inch(9, 8, 12, InchSeries::Un)),
            (
                "#10-32UNF-2A",
                inch(190, 1000, 32, InchSeries::Unf).with_class(ThreadClass::INCH_EXTERNAL),
            ),
            ("10-32", inch(190, 1000, 32, InchSeries::Unf)),
            ("1-64UNC", inch(73, 1000, 64, InchSeries::Unc)),
            ("1-8UNC", inch(1, 1, 8, InchSeries::Unc)),
            (
                "1/2-30UNS-LH starts 3",
                inch(1, 2, 30, InchSeries::Uns)
                    .with_starts(3)
                    .with_hand(Hand::Left),
            ),
        ] {
            assert_eq!(read(text), Ok(wanted), "{text}");
        }
    }

    #[test]
    fn what_is_printed_reads_back() {
        for text in [
            "M10",
            "M13x0.8",
            "M13xPh2.4P0.8",
            "M16xPh3P1.5-6H",
            "M6-6H/6g",
            "M10x0.75-5g6g-LH",
            "7/16-28UNEF",
            "#10-32UNF-2A/2B",
            "1-1/8-12UN-2B-LH",
            "1/2-30UNS starts 3",
            "0.3-32UNS",
        ] {
            assert_eq!(read(text).unwrap().to_string(), text);
        }
        assert_eq!(read("M10x1.5").unwrap().to_string(), "M10");
    }

    #[test]
    fn every_designation_of_the_reference_tables_reads() {
        for table in ["metric_thread_basic.csv", "tap_drills.csv"] {
            for row in rows(table) {
                let form = read(row.text("designation")).unwrap();
                assert_eq!(form.major().to_mm(), row.number("d_mm"), "{row}");
                assert_eq!(form.pitch_mm(), row.number("pitch_mm"), "{row}");
                assert_eq!(form.to_string(), row.text("designation"), "{row}");
            }
        }
        for row in rows("percent_thread_examples.csv") {
            let form = read(row.text("designation")).unwrap();
            assert!(
                (form.major().to_mm() - row.number("D_mm")).abs() < 1e-9,
                "{row}"
            );
            assert!(
                (form.pitch_mm() - row.number("pitch_mm")).abs() < 1e-6,
                "{row}"
            );
        }
    }

    #[test]
    fn a_damaged_designation_says_what_was_expected_and_where() {
        use DesignationFault::*;
        for (text, kind, part, message) in [
            ("", Unreadable, "", "a thread is written like"),
            ("G1/4", Unreadable, "G1/4", "a thread is written like"),
            ("M", Number, "", "the diameter after M"),
            ("M13", NoCoarsePitch, "13", "write the pitch, as in M13x0.8"),
            ("M13x", Number, "", "the pitch should be"),
            ("M13xfine", Number, "fine", "the pitch should be"),
            ("M0x1", Number, "0", "the diameter after M"),
            ("M500x1", OutOfRange, "500", "beyond 0.2 to 300 mm"),
            ("M2x1.5", TooCoarse, "1.5", "does not go on a diameter"),
            (
                "M13xPh2.5P0.8",
                Starts,
                "2.5P0.8",
                "3 starts would lead 2.4 mm",
            ),
            ("M13xPh2.4", Number, "2.4", "after Ph come the lead"),
            (
                "M13xPh2.4P0.8 starts 2",
                Starts,
                "2",
                "already gives 3 starts",
            ),
            ("M13x0.8 starts 0", Starts, "0", "from 1 to 24"),
            ("M13x0.8-2A", Class, "2A", "6g outside"),
            ("M13x0.8-6k", Class, "6k", "no thread class"),
            ("1/2-20UNF-6g", Class, "6g", "2A outside"),
            ("7/16", Unreadable, "7/16", "as in 7/16-28UNEF"),
            ("7/16-28BSF", Unreadable, "BSF", "UNC, UNF, UNEF"),
            ("#7-32UNF", OutOfRange, "#7", "number sizes"),
            ("7/0-28UN", Number, "7/0", "the size in inches"),
            ("1/4-999UN", Number, "999UN", "from 1 to 120"),
        ] {
            let fault = read(text).unwrap_err();
            assert_eq!(fault.kind, kind, "{text}: {fault}");
            assert_eq!(&text[fault.at.clone()], part, "{text}: {fault}");
            assert!(fault.to_string().contains(message), "{text}: {fault}");
        }
    }

    proptest::proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in "[-M#0-9./xPhUNCEF6gH ABé]{0,16}") {
            if let Ok(form) = read(&text) {
                proptest::prop_assert_eq!(read(&form.to_string()), Ok(form));
                proptest::prop_assert!(form.minor_diameter().is_positive());
            }
        }
    }
}
