//! Parts already joined, each in its place.

use super::Place;

/// Which parts are joined to which, and where each lies on its group's axis.
#[derive(Clone, Debug)]
pub(crate) struct Groups {
    group: Vec<usize>,
    place: Vec<Place>,
}

impl Groups {
    /// Every part by itself.
    pub(crate) fn apart(parts: usize) -> Groups {
        Groups {
            group: (0..parts).collect(),
            place: vec![Place::HERE; parts],
        }
    }

    /// Whether two parts are joined, directly or through others.
    pub(crate) fn joined(&self, one: usize, other: usize) -> bool {
        self.group[one] == self.group[other]
    }

    /// The parts of a part's group, itself among them, in the order of the pen.
    pub(crate) fn with(&self, part: usize) -> impl Iterator<Item = usize> + '_ {
        (0..self.group.len()).filter(move |other| self.joined(part, *other))
    }

    /// A part's place on its group's axis.
    pub(crate) fn place(&self, part: usize) -> Place {
        self.place[part]
    }

    /// Lays a part's whole group on another axis, on which that part has the place `here`.
    pub(crate) fn lay(&mut self, part: usize, here: Place) {
        let axis = self.place[part].inverse().then(here);
        for other in self.with(part).collect::<Vec<_>>() {
            self.place[other] = self.place[other].then(axis);
        }
    }

    /// Makes one group of two that already lie on one axis.
    pub(crate) fn merge(&mut self, one: usize, other: usize) {
        let (kept, gone) = (self.group[one], self.group[other]);
        for group in &mut self.group {
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
        let mut groups = Groups::apart(3);
        groups.lay(
            1,
            Place {
                offset_mm: 10.0,
                reversed: true,
            },
        );
        groups.merge(0, 1);
        assert!(groups.joined(0, 1) && !groups.joined(0, 2));
        groups.lay(
            0,
            Place {
                offset_mm: 5.0,
                reversed: false,
            },
        );
        assert_eq!(
            groups.place(1),
            Place {
                offset_mm: 15.0,
                reversed: true
            }
        );
        groups.lay(1, Place::HERE);
        assert_eq!(groups.place(0).of(10.0), 0.0);
    }
}
