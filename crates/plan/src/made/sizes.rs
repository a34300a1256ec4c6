//! What was read of the sizes that a route's rows measure.

use crate::output::operation::AsMade;
use crate::{Inspection, Measured, Operation, PartSize, Work};
use quillet_geometry::Length;
use quillet_model::{CutId, Feature, MadeSize, MadeStatement, Origin, Part, PartId, SideId};
use std::mem::discriminant;

/// A part as it is drawn and as it is made, and what of it is said to be made.
pub(super) struct MadeSizes<'a> {
    pub(super) part: PartId,
    pub(super) was: &'a Part,
    pub(super) is: &'a Part,
    pub(super) statements: &'a [MadeStatement],
}

impl MadeSizes<'_> {
    /// What was read of an operation; none of one that is not made. A cut is made where it is said again, what
    /// cuts no feature of its own where all that is measured of it is.
    pub(super) fn read(&self, operation: &Operation) -> Option<AsMade> {
        let made = match operation.features[..] {
            [] if self.is_off_axis(operation) => true,
            [] if matches!(operation.work, Work::Side { .. } | Work::Beside { .. }) => false,
            [] => {
                let mut checks = operation.checks.iter();
                !operation.checks.is_empty()
                    && checks.all(|it| self.figure(operation, it).is_some())
            }
            _ => operation.features.iter().all(|it| self.cut(*it).is_some()),
        };
        if !made {
            return None;
        }
        let mut read = AsMade::default();
        for check in &operation.checks {
            let of = match check.what {
                Measured::Hole { .. } | Measured::Outside { .. } => &mut read.dia,
                Measured::Depth { .. } | Measured::Point { .. } | Measured::Length => {
                    &mut read.length
                }
            };
            *of = of.or(self.figure(operation, check));
        }
        Some(read)
    }

    /// Whether what makes a surface is said to be made.
    pub(super) fn has(&self, origin: Origin) -> bool {
        self.own().any(|it| match (it.what, origin) {
            (MadeSize::Station { drawn, .. }, Origin::Outside(station)) => drawn == station,
            (MadeSize::Cut { drawn, .. }, Origin::Feature(cut)) => drawn == cut,
            _ => false,
        })
    }

    /// Whether it is a cut from the side or holes beside the axis that are said to be made.
    fn is_off_axis(&self, operation: &Operation) -> bool {
        let what = match operation.work {
            Work::Side { cut, .. } => MadeSize::Side(cut),
            Work::Beside { holes, .. } => MadeSize::Beside(holes),
            _ => return false,
        };
        self.own().any(|it| it.what == what)
    }

    /// What calipers read across flats that are made, where a check reads them.
    fn across(&self, cut: SideId, at: Length) -> Option<Length> {
        let sets = self.is.profiles.as_ref()?.across_flats();
        let set = sets.into_iter().find(|it| it.side == cut)?;
        let [from, to] = set.stretch_mm.map(Length::mm);
        let nearer_end = (to - at).abs() < (at - from).abs();
        let read = set.calipers_mm()[usize::from(nearer_end)];
        Some(Length::mm(read) - self.is.coat_on_dia())
    }

    /// What was read of what a check measures.
    fn figure(&self, operation: &Operation, check: &Inspection) -> Option<Length> {
        if let (Work::Side { cut, .. }, Measured::Outside { at, .. }) =
            (&operation.work, check.what)
        {
            return self.across(*cut, at);
        }
        match operation.measures(self.was, check)? {
            PartSize::Length => {
                let mut said = self.own();
                let said = said.any(|it| it.what == MadeSize::Length);
                said.then_some(self.is.length)
            }
            PartSize::Dia(id) => {
                let (_, is) = self.cut(id)?;
                is.dia().filter(|_| is.size_span != is.span)
            }
            PartSize::Reach(id) => {
                let (was, is) = self.cut(id)?;
                // A coned hole is written to its corner and measured at its point.
                Some(is.to + (check.nominal - was.to))
            }
            PartSize::Outside(id) => self.own().find_map(|it| match it.what {
                MadeSize::Station { drawn, made } if drawn == id => {
                    self.is.stations.get(made).map(|it| it.dia)
                }
                _ => None,
            }),
        }
    }

    /// A drawn cut, and the same as it was measured.
    fn cut(&self, id: CutId) -> Option<(&Feature, &Feature)> {
        let made = self.own().find_map(|it| match it.what {
            MadeSize::Cut { drawn, made } if drawn == id => Some(made),
            _ => None,
        })?;
        self.was.features.get(id).zip(self.is.features.get(made))
    }

    /// A drawn cut that is not made yet, and where it is now.
    pub(super) fn not_yet(&self, id: CutId) -> Option<(&Feature, &Feature)> {
        let was = self.was.features.get(id)?;
        let mut all = self.is.features.iter();
        let same =
            |it: &&Feature| it.span == was.span && discriminant(&it.cut) == discriminant(&was.cut);
        all.find(same).map(|is| (was, is))
    }

    /// Where along the outside a diameter was read, and what was.
    pub(super) fn outside(&self) -> Vec<(Length, Length)> {
        let read = self.own().filter_map(|it| match it.what {
            MadeSize::Between { at, dia } => Some((at, dia)),
            MadeSize::Station { drawn, made } => {
                let (was, is) = (self.was.stations.get(drawn)?, self.is.stations.get(made)?);
                Some((was.at, is.dia))
            }
            MadeSize::Length | MadeSize::Cut { .. } | MadeSize::Side(_) | MadeSize::Beside(_) => {
                None
            }
        });
        read.collect()
    }

    fn own(&self) -> impl Iterator<Item = &MadeStatement> {
        self.statements.iter().filter(|it| it.part == self.part)
    }
}
