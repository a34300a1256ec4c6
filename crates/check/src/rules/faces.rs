//! Flats all round two parts that are screwed together, which look in line wherever one meets another.

use crate::JointView;
use quillet_geometry::Angle;
use quillet_model::{End, JointEnd, Part, SideCut};
use quillet_syntax::Span;

/// A set of flats on each of two parts, of which each of the one can meet one of the other.
pub(super) struct Faces {
    /// How many the set has that has more; the other's number divides it.
    pub(super) count: u32,
    /// Where the two sets are said, the male's first.
    pub(super) spans: [Span; 2],
    starts: u32,
    /// How far the male's first flat lies clockwise of the female's where their marks meet, looking in at
    /// the female's face.
    apart: Angle,
}

impl Faces {
    /// Of a joint's own two parts: of several sets the two that meet least often; none where no number
    /// of flats divides the other. Their thread has so many starts.
    pub(super) fn of(view: &JointView<'_>, starts: u32) -> Option<Self> {
        let pairs = sets(view.male).flat_map(|male| sets(view.female).map(move |it| (male, it)));
        pairs
            .filter_map(|(male, female)| {
                let (one, other) = (male.around.count, female.around.count);
                let count = one.max(other);
                count.is_multiple_of(one.min(other)).then(|| Self {
                    count,
                    starts,
                    spans: [male.span, female.span],
                    // The male is looked at from behind its joining end, the female from before it.
                    apart: Angle::from_nanodeg(
                        -clockwise(male, view.joint.male) - clockwise(female, view.joint.female),
                    ),
                })
            })
            .min_by_key(|it| it.count)
    }

    /// In how many of the ways round the flats meet, one for each start, if they meet in one.
    pub(super) fn ways(&self) -> u32 {
        let meets = |turned: &u32| (turned * self.count).is_multiple_of(self.starts);
        (0..self.starts).filter(meets).count() as u32
    }

    /// How far the flats of two parts are apart whose marks are so far apart, with what lies between two
    /// places in which they meet, whichever start is caught.
    pub(super) fn apart(&self, marks: Angle) -> (Angle, Angle) {
        let spacing = self.spacing();
        let apart = marks.nanodeg() + self.apart.nanodeg();
        (
            Angle::from_nanodeg(apart.rem_euclid(spacing.nanodeg())),
            spacing,
        )
    }

    /// The most they can be apart.
    pub(super) fn furthest(&self) -> Angle {
        Angle::from_nanodeg(self.spacing().nanodeg() / 2)
    }

    fn spacing(&self) -> Angle {
        Angle::deg(360.0 / f64::from(self.starts / self.ways() * self.count))
    }
}

fn sets(part: &Part) -> impl Iterator<Item = &SideCut> {
    part.sides().iter().filter(|it| it.kind.is_flat())
}

/// Where a set's first flat lies, looking at a joining end, billionths of a degree: it is said looking at
/// the first end.
fn clockwise(set: &SideCut, at: JointEnd) -> i64 {
    match at.end {
        End::First => set.around.clock.nanodeg(),
        End::Second => -set.around.clock.nanodeg(),
    }
}
