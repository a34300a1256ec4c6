//! Reads a designation.

mod inch;

use quillet_geometry::Length;

use super::class::{ClassError, ThreadClass};
use super::designation_error::{DesignationError, DesignationFault};
use super::form::{Hand, InchSeries, ThreadForm};
use super::series;

/// Reads a whole designation.
pub(super) fn read(whole: &str) -> Result<ThreadForm, DesignationError> {
    Reader { whole }.form()
}

const WIDEST: Length = Length::from_nm(300_000_000);
/// The pitch of most cap threads, offered first.
const USUAL_PITCH: Length = Length::from_nm(800_000);
const FINE_TPI: u32 = 24;
const FINEST: Length = Length::from_nm(100_000);
/// A diameter is at least so many pitches. The coarsest of ISO 261 is M1 of 0.25, which is four.
const COARSEST: f64 = 3.0;

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
                    let class = part.parse().map_err(|fault: ClassError| {
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
        if pitch < FINEST || pitch.to_mm() * COARSEST > major.to_mm() {
            return Err(self.fault(
                DesignationFault::TooCoarse,
                pitch_text.unwrap_or(text),
                format!(
                    "a pitch of {} does not go on a diameter of {}; from 0.1 mm to {} was expected",
                    exact(pitch),
                    exact(major),
                    Length::mm(major.to_mm() / COARSEST)
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
        let at = start..(start + part.len()).min(self.whole.len());
        DesignationError::new(kind, at, message.into())
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

fn exact(length: Length) -> String {
    format!("{} mm", length.exact_mm_text())
}
