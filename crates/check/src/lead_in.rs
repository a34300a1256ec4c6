//! The lead-in of the tap or die that cuts a thread: the part of it that leaves no full form.

use quillet_geometry::Length;
use quillet_model::{Bench, BenchThreading};
use quillet_standards::thread::{ThreadForm, tap_leads};

/// The lead-in of a tool, and where the figure comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct LeadIn {
    /// How long it is.
    pub(crate) length: Length,
    /// `the bench's tap`, `as the limit says` …
    pub(crate) whose: &'static str,
}

impl LeadIn {
    /// What a limit sets.
    pub(crate) fn set(length: Length) -> Self {
        let whose = "as the limit says";
        Self { length, whose }
    }

    /// Of the bench's tap for a thread; else two pitches, the least of form C of DIN 2197.
    pub(crate) fn of_tap(bench: Option<&Bench>, form: &ThreadForm) -> Self {
        let taps = bench.map_or(&[][..], |it| &it.taps);
        shortest(taps, form, "the bench's tap").unwrap_or_else(|| {
            let form_c = tap_leads().iter().find(|lead| lead.form() == "C");
            Self {
                length: form_c.map_or(form.pitch() * 2, |lead| lead.length(form).min()),
                whose: "two pitches, form C of DIN 2197",
            }
        })
    }

    /// Of the bench's die for a thread; else two pitches (common practice, no published source).
    pub(crate) fn of_die(bench: Option<&Bench>, form: &ThreadForm) -> Self {
        let dies = bench.map_or(&[][..], |it| &it.dies);
        shortest(dies, form, "the bench's die").unwrap_or(Self {
            length: form.pitch() * 2,
            whose: "two pitches, common practice",
        })
    }
}

/// The shortest lead-in that is said of the tools for a thread.
fn shortest(tools: &[BenchThreading], form: &ThreadForm, whose: &'static str) -> Option<LeadIn> {
    let suits = |it: &&BenchThreading| it.thread.thread.mates_with(form);
    let length = tools.iter().filter(suits).filter_map(|it| it.lead).min()?;
    Some(LeadIn { length, whose })
}
