//! What a drilled hole comes out as.

use quillet_geometry::{Length, Limits};

use super::zone::{FitError, Zone};
use crate::Source;

/// What a drill leaves: common practice. A reamer is wanted for anything closer, H7 among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DrilledHole {
    /// From the best to the worst grade a drill holds: H11 and H13.
    pub by_grade: (Limits, Limits),
    /// Its size with 0.05 to 0.15 mm over the drill.
    pub over_size: Limits,
    /// The practice.
    pub source: Source,
}

const LEAST_OVER: Length = Length::from_nm(50_000);
const MOST_OVER: Length = Length::from_nm(150_000);

/// The hole that a drill of this diameter leaves.
///
/// # Errors
/// When the size is beyond 50 mm.
pub fn drilled_hole(drill: Length) -> Result<DrilledHole, FitError> {
    let grade = |class: &str| class.parse::<Zone>()?.at(drill).map(|zone| zone.limits);
    Ok(DrilledHole {
        by_grade: (grade("H11")?, grade("H13")?),
        over_size: Limits::new(drill + LEAST_OVER, drill + MOST_OVER),
        source: Source::PRACTICE,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drilled_hole_is_wider_than_a_reamed_one() {
        let hole = drilled_hole(Length::mm(8.0)).unwrap();
        assert_eq!(
            hole.by_grade.0,
            Limits::new(Length::mm(8.0), Length::mm(8.09))
        );
        assert_eq!(
            hole.by_grade.1,
            Limits::new(Length::mm(8.0), Length::mm(8.22))
        );
        assert_eq!(
            hole.over_size,
            Limits::new(Length::mm(8.05), Length::mm(8.15))
        );
        let reamed = "H7".parse::<Zone>().unwrap().at(Length::mm(8.0)).unwrap();
        assert!(reamed.limits.max() < hole.over_size.min());
        assert!(drilled_hole(Length::mm(51.0)).is_err());
    }
}
