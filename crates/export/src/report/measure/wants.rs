//! What is wanted, as it was judged.

use crate::report::sized::SizedWords;
use quillet_check::JudgedWant;
use serde::Serialize;

/// A want.
#[derive(Serialize)]
pub(super) struct WantMeasures {
    /// The part, where it is a part's own.
    pub(super) part: Option<String>,
    /// What is measured, as it is written.
    pub(super) want: String,
    /// What it comes to, with its unit.
    pub(super) value: Option<SizedWords>,
    /// From what to what it may lie, where it is in doubt.
    pub(super) range: Option<SizedWords>,
    pub(super) wanted: SizedWords,
    /// `met`, `not-met`, `too-close`, `unknown`.
    verdict: &'static str,
    /// True, false, or null where it is neither.
    met: Option<bool>,
    /// Why a miss is accepted.
    accepted: Option<String>,
    /// What is missing to know it.
    missing: Vec<String>,
    /// All of it for people.
    #[serde(skip)]
    pub(super) judged: String,
}

impl WantMeasures {
    pub(super) fn of(it: &JudgedWant) -> Self {
        let measured = &it.measured;
        Self {
            part: it.part.as_ref().map(ToString::to_string),
            want: it.asked.clone(),
            value: measured.rendered().map(SizedWords::from),
            range: measured.rendered_range().map(SizedWords::from),
            wanted: measured.wanted.clone().into(),
            verdict: measured.verdict.word(),
            met: measured.verdict.met(),
            accepted: it.accepted.as_ref().map(|it| it.text.to_string()),
            missing: measured.missing.clone(),
            judged: it.verdict(),
        }
    }
}
