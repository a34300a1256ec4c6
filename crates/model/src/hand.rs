//! The maker's hand: how closely each kind of size is kept.

use quillet_geometry::Length;
use quillet_standards::{GeneralClass, Source};
use quillet_syntax::ast::ToleranceKind;

/// How closely a maker keeps what is drawn, as the bench says it; what the bench does not say is
/// as a drawing without tolerances leaves it.
///
/// The worst cases of the checker, the limits of the sheet and the general tolerance of the
/// drawing are all read from here.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Hand {
    stated: [Option<Length>; ToleranceKind::ALL.len()],
    caliper: Option<Length>,
    exact: bool,
}

/// A drilled hole comes out no more than this over size (common practice, no published source).
const DRILL: Length = Length::from_nm(150_000);
/// A nib stands no further out of its place than this (common practice, no published source).
const NIB: Length = Length::from_nm(1_000_000);

/// A caliper's diameter is known to this (common practice, no published source).
const MEASURED_DIA: Length = Length::from_nm(20_000);
/// Its depth, by the rod at its tail, to this (common practice, no published source).
const MEASURED_DEPTH: Length = Length::from_nm(50_000);

impl Hand {
    /// One that misses nothing: of what is made already, every size is what it is.
    pub(crate) const EXACT: Hand = Hand {
        stated: [Some(Length::ZERO); ToleranceKind::ALL.len()],
        caliper: None,
        exact: true,
    };

    /// Whether every size is what it is, threads and fits with the others.
    pub fn is_exact(&self) -> bool {
        self.exact
    }

    /// How far a size of this kind may lie from the drawn one, either way; a drilled hole, over it
    /// only.
    pub fn keeps(&self, kept: ToleranceKind, size: Length) -> Length {
        self.stated(kept).unwrap_or_else(|| match unsaid(kept) {
            UnsetDefault::General(class) => class.either_way(size),
            UnsetDefault::Practice(length) => length,
        })
    }

    /// What the bench itself says of this kind.
    pub fn stated(&self, kept: ToleranceKind) -> Option<Length> {
        self.stated[kept as usize]
    }

    /// To how much a measured size is known, either way; nothing where the bench does not say.
    pub fn caliper(&self) -> Length {
        self.caliper.unwrap_or_default()
    }

    /// To how much a measured diameter is known, either way.
    pub fn measured_dia(&self) -> Length {
        self.caliper.unwrap_or(MEASURED_DIA)
    }

    /// To how much a measured depth or length is known, either way.
    pub fn measured_depth(&self) -> Length {
        self.caliper.unwrap_or(MEASURED_DEPTH)
    }

    /// Where the figure of a kind comes from.
    pub fn source(&self, kept: ToleranceKind) -> Source {
        match (self.stated(kept), unsaid(kept)) {
            (Some(_), _) => Source::new("as the bench keeps it"),
            (None, UnsetDefault::General(class)) => class.source(),
            (None, UnsetDefault::Practice(_)) => Source::PRACTICE,
        }
    }

    /// With what a line of a bench says; the line said first stays.
    ///
    /// # Errors
    /// When it was said before.
    pub(crate) fn keep(&mut self, kept: ToleranceKind, within: Length) -> Result<(), AlreadySet> {
        set(&mut self.stated[kept as usize], within)
    }

    /// With the bench's caliper; the line said first stays.
    ///
    /// # Errors
    /// When it was said before.
    pub(crate) fn measure(&mut self, within: Length) -> Result<(), AlreadySet> {
        set(&mut self.caliper, within)
    }
}

/// Something was said before.
#[derive(Debug)]
pub(crate) struct AlreadySet;

fn set(slot: &mut Option<Length>, within: Length) -> Result<(), AlreadySet> {
    match slot {
        Some(_) => Err(AlreadySet),
        None => {
            *slot = Some(within);
            Ok(())
        }
    }
}

/// What is taken where the bench says nothing.
enum UnsetDefault {
    General(GeneralClass),
    Practice(Length),
}

/// Diameters, shoulders and lengths as on a drawing; depths by a tailstock's scale.
fn unsaid(kept: ToleranceKind) -> UnsetDefault {
    match kept {
        ToleranceKind::Dia
        | ToleranceKind::Bore
        | ToleranceKind::Shoulder
        | ToleranceKind::Length => UnsetDefault::General(GeneralClass::Fine),
        ToleranceKind::Depth => UnsetDefault::General(GeneralClass::Medium),
        ToleranceKind::Drill => UnsetDefault::Practice(DRILL),
        ToleranceKind::Nib => UnsetDefault::Practice(NIB),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_said_is_as_a_drawing_leaves_it() {
        let hand = Hand::default();
        let keeps = |kept, mm| hand.keeps(kept, Length::mm(mm)).to_mm();
        for kept in [
            ToleranceKind::Dia,
            ToleranceKind::Bore,
            ToleranceKind::Shoulder,
            ToleranceKind::Length,
        ] {
            assert_eq!(
                [5.9, 6.1, 64.0, 140.0].map(|mm| keeps(kept, mm)),
                [0.05, 0.1, 0.15, 0.2]
            );
        }
        assert_eq!(
            [5.9, 6.1, 54.0, 140.0].map(|mm| keeps(ToleranceKind::Depth, mm)),
            [0.1, 0.2, 0.3, 0.5]
        );
        assert_eq!(
            (
                keeps(ToleranceKind::Drill, 8.0),
                keeps(ToleranceKind::Nib, 30.0)
            ),
            (0.15, 1.0)
        );
        assert_eq!(hand.caliper(), Length::ZERO);
        assert!(hand.source(ToleranceKind::Nib).is_practice());
    }

    #[test]
    fn what_is_said_first_holds_for_every_size_of_its_kind() {
        let mut hand = Hand::default();
        assert!(hand.keep(ToleranceKind::Depth, Length::mm(0.15)).is_ok());
        assert!(hand.keep(ToleranceKind::Depth, Length::mm(0.4)).is_err());
        for mm in [3.0, 54.0, 300.0] {
            assert_eq!(
                hand.keeps(ToleranceKind::Depth, Length::mm(mm)),
                Length::mm(0.15)
            );
        }
        assert_eq!(
            hand.keeps(ToleranceKind::Shoulder, Length::mm(3.0)),
            Length::mm(0.05)
        );
    }
}
