//! How the marks of two threaded parts come to rest, one against the other.

use crate::{End, Feature};
use quillet_geometry::Angle;
use quillet_standards::thread::{Hand, ThreadForm};

/// Where a thread begins, as its own end is looked at.
#[derive(Clone, Copy, Debug)]
pub(super) struct ThreadStart {
    /// How far inward from that end's face, mm.
    inward_mm: f64,
    /// How far clockwise of the part's mark.
    clockwise_deg: f64,
}

impl ThreadStart {
    /// Of a thread that has its full form over `reach`, mm inward from `end`; none where its
    /// `clock` is not said. It begins at the edge that is nearer to the end it is cut from.
    pub(super) fn of(thread: &Feature, end: End, reach: (f64, f64)) -> Option<Self> {
        let clock_deg = thread.clock?.to_deg();
        let (inward_mm, clockwise_deg) = match thread.end == end {
            true => (reach.0, clock_deg),
            // Looked at from the other end, clockwise goes the other way round.
            false => (reach.1, -clock_deg),
        };
        Some(Self {
            inward_mm,
            clockwise_deg,
        })
    }
}

/// How far the male's mark rests clockwise of the female's, looking in at the female's face; less
/// than the spacing of the starts.
///
/// A right-hand thread turns clockwise as it goes away from the eye, by 360° for each lead; the
/// male's end is looked at the other way, so its own angle counts against the female's.
pub(super) fn marks_apart(
    male: ThreadStart,
    female: ThreadStart,
    form: &ThreadForm,
    goes_in_mm: f64,
) -> Angle {
    let hand = match form.hand() {
        Hand::Right => 1.0,
        Hand::Left => -1.0,
    };
    let beyond_mm = (goes_in_mm - male.inward_mm) - female.inward_mm;
    let turned_deg = hand * 360.0 * beyond_mm / form.lead_mm();
    let apart_deg = female.clockwise_deg + male.clockwise_deg + turned_deg;
    let spacing_deg = form.start_spacing().to_deg();
    // A whole spacing but for the last digit of a sum is none.
    let apart = Angle::deg(apart_deg.rem_euclid(spacing_deg));
    match apart == Angle::deg(spacing_deg) {
        true => Angle::ZERO,
        false => apart,
    }
}
