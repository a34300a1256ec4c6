//! The tenon for a die: turned inside the limits of the major diameter.

use quillet_geometry::{Length, Limits};

use super::class::ThreadSide;
use super::form::ThreadForm;
use super::limits::{LimitsError, LimitsFrom};
use crate::Source;

/// The diameter a tenon is turned to before a die cuts it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tenon {
    /// Limits of the major diameter of the class.
    pub range: Limits,
    /// The lower half of them: plastics swell under a die and like it small.
    pub in_plastic: Limits,
    /// What a tenon without a diameter takes: the middle of the range.
    pub default: Length,
    /// Whether the range is tabulated or computed.
    pub from: LimitsFrom,
    /// Where the range comes from.
    pub source: Source,
    /// Where the practice for plastics comes from.
    pub practice: Source,
}

impl ThreadForm {
    /// The tenon for a die of this thread, to the class said, or 6g and 2A.
    ///
    /// # Errors
    /// When the standard does not have the class.
    pub fn tenon(&self) -> Result<Tenon, LimitsError> {
        let limits = self.external_limits(self.class(ThreadSide::External))?;
        let range = limits.major;
        Ok(Tenon {
            range,
            in_plastic: Limits::new(range.min(), range.middle()),
            default: range.middle(),
            from: limits.from,
            source: limits.source,
            practice: Source::PRACTICE,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Limits of the reference table; the middle is ours to take.
    #[test]
    fn a_tenon_stays_inside_the_major_limits() {
        for row in quillet_reference::rows("metric_thread_limits.csv") {
            let form: ThreadForm = row.text("designation").parse().unwrap();
            let tenon = form.tenon().unwrap();
            assert_eq!(tenon.range.min().to_mm(), row.number("d_min"), "{row}");
            assert_eq!(tenon.range.max().to_mm(), row.number("d_max"), "{row}");
            assert!(tenon.in_plastic.contains(tenon.default), "{row}");
            assert_eq!(tenon.in_plastic.min(), tenon.range.min(), "{row}");
        }
    }

    #[test]
    fn a_fine_thread_leaves_little() {
        // "0.15 under" is outside 6g at P 0.5: -0.020 to -0.126.
        let tenon = "M7.4x0.5".parse::<ThreadForm>().unwrap().tenon().unwrap();
        assert_eq!(
            tenon.range,
            Limits::new(Length::mm(7.274), Length::mm(7.38))
        );
        assert_eq!(tenon.default, Length::mm(7.327));
        assert!(!tenon.range.contains(Length::mm(7.25)));
    }
}
