//! Thread designations: `M13x0.8`, `M13xPh2.4P0.8`, `M10-6g`, `7/16-28UNEF`, `#10-32UNF-2A`.

use std::fmt;
use std::str::FromStr;

use super::class::ThreadSide;
use super::designation_error::DesignationError;
use super::form::{Hand, ThreadForm, ThreadSize};
use super::{inch_size, reader, series};

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
                write!(out, "{}-{tpi}{}", inch_size::text(major), series.letters())?;
            }
        }
        match (
            self.stated_class(ThreadSide::Internal),
            self.stated_class(ThreadSide::External),
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
        reader::read(text)
    }
}

#[cfg(test)]
mod tests {
    use super::super::class::ThreadClass;
    use super::super::designation_error::DesignationFault;
    use super::super::form::InchSeries;
    use super::*;
    use quillet_geometry::Length;
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
            // A pitch that lost its point.
            (
                "M13x8",
                TooCoarse,
                "8",
                "from 0.1 mm to 4.333 mm was expected",
            ),
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
