//! Parts already joined, each in its place.

use super::Placement;
use crate::{ById, PartId};

/// Which parts are joined to which, and where each lies on its group's axis.
#[derive(Clone, Debug)]
pub(crate) struct Groups {
    group: ById<PartId, PartId>,
    place: ById<PartId, Placement>,
}

impl Groups {
    /// Every part by itself.
    pub(crate) fn apart(parts: usize) -> Groups {
        Groups {
            group: (0..parts).map(PartId::nth).collect(),
            place: ById::filled(Placement::HERE, parts),
        }
    }

    /// Whether two parts are joined, directly or through others.
    pub(crate) fn joined(&self, one: PartId, other: PartId) -> bool {
        self.group[one] == self.group[other]
    }

    /// Whether nothing is joined to a part.
    pub(crate) fn is_alone(&self, part: PartId) -> bool {
        self.with(part).eq([part])
    }

    /// The parts of a part's group, itself among them, in the order of the pen.
    pub(crate) fn with(&self, part: PartId) -> impl Iterator<Item = PartId> + '_ {
        self.group
            .ids()
            .filter(move |other| self.joined(part, *other))
    }

    /// A part's place on its group's axis.
    pub(crate) fn place(&self, part: PartId) -> Placement {
        self.place[part]
    }

    /// Lays a part's whole group on another axis, on which that part has the place `here`.
    pub(crate) fn lay(&mut self, part: PartId, here: Placement) {
        let axis = self.place[part].inverse().then(here);
        for other in self.with(part).collect::<Vec<_>>() {
            self.place[other] = self.place[other].then(axis);
        }
    }

    /// Moves a part alone along its group's axis.
    pub(crate) fn shift(&mut self, part: PartId, by_mm: f64) {
        self.place[part] = self.place[part].moved(by_mm);
    }

    /// Makes one group of two that already lie on one axis.
    pub(crate) fn merge(&mut self, one: PartId, other: PartId) {
        let (kept, gone) = (self.group[one], self.group[other]);
        for group in self.group.iter_mut() {
            if *group == gone {
                *group = kept;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_group_moves_as_one() {
        let [a, b, c] = [0, 1, 2].map(PartId::nth);
        let mut groups = Groups::apart(3);
        groups.lay(
            b,
            Placement {
                offset_mm: 10.0,
                reversed: true,
            },
        );
        groups.merge(a, b);
        assert!(groups.joined(a, b) && !groups.joined(a, c));
        groups.lay(
            a,
            Placement {
                offset_mm: 5.0,
                reversed: false,
            },
        );
        assert_eq!(
            groups.place(b),
            Placement {
                offset_mm: 15.0,
                reversed: true
            }
        );
        groups.lay(b, Placement::HERE);
        assert_eq!(groups.place(a).of(10.0), 0.0);
    }
}
