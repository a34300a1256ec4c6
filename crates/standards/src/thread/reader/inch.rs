//! A unified inch designation.

use super::super::designation_error::{DesignationError, DesignationFault};
use super::super::form::{InchSeries, ThreadForm};
use super::super::{inch_size, series};
use super::{FINE_TPI, Reader};
use crate::inches;
use quillet_geometry::Length;

impl<'t> Reader<'t> {
    /// `7/16-28UNEF`, `#10-32UNF`, `1-1/8-12UN`, `0.5-28`.
    pub(super) fn inch(&self, text: &'t str) -> Result<ThreadForm, DesignationError> {
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
        let reported = InchSeries::ALL
            .into_iter()
            .find(|series| series.letters() == letters);
        if reported.is_none() && !letters.is_empty() {
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
        let series = reported
            .or_else(|| series::inch_series(major, tpi))
            .unwrap_or(InchSeries::Uns);
        Ok(ThreadForm::inch(major, tpi, series))
    }

    fn inch_major(&self, size: &'t str, tpi: u32) -> Result<Length, DesignationError> {
        let number = size.strip_prefix('#').unwrap_or(size);
        if let Ok(number) = number.trim().parse::<i64>() {
            let gauge = inch_size::numbered(number);
            // `10-32` is the number size, `1-8` the inch: the series tell them apart, and for
            // specials the pitch, since no thread of whole inches is as fine as 24 to the inch.
            let reported = size.starts_with('#');
            let listed = |major| series::inch_series(major, tpi).is_some();
            if let Some(gauge) = gauge
                && (reported
                    || listed(gauge)
                    || (tpi >= FINE_TPI && !listed(Length::inches(number as f64))))
            {
                return Ok(gauge);
            }
            if reported {
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
}
