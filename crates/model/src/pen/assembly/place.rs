//! Where a part lies along an axis it shares with others.

use crate::{End, Part};

/// A part's place on a common axis: `z = offset ± station`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// Where the part's first end lies, mm.
    pub offset_mm: f64,
    /// Whether its stations run against the axis.
    pub reversed: bool,
}

impl Placement {
    /// Its stations are those of the axis.
    pub(crate) const HERE: Placement = Placement {
        offset_mm: 0.0,
        reversed: false,
    };

    /// Where a station of the part lies on the axis, mm.
    pub fn of(self, station_mm: f64) -> f64 {
        match self.reversed {
            false => self.offset_mm + station_mm,
            true => self.offset_mm - station_mm,
        }
    }

    /// From where to where what lies between two stations of the part lies on the axis, mm.
    pub(crate) fn span(self, (a, b): (f64, f64)) -> (f64, f64) {
        let (a, b) = (self.of(a), self.of(b));
        (a.min(b), a.max(b))
    }

    /// The station of the part at a place on the axis, mm.
    pub fn station(self, z_mm: f64) -> f64 {
        match self.reversed {
            false => z_mm - self.offset_mm,
            true => self.offset_mm - z_mm,
        }
    }

    /// As it lies on a further axis, on which this one has the place `axis`.
    #[must_use]
    pub(crate) fn then(self, axis: Placement) -> Placement {
        Placement {
            offset_mm: axis.of(self.offset_mm),
            reversed: self.reversed != axis.reversed,
        }
    }

    /// The place of the axis as the part sees it.
    pub(crate) fn inverse(self) -> Placement {
        Placement {
            offset_mm: match self.reversed {
                false => -self.offset_mm,
                true => self.offset_mm,
            },
            reversed: self.reversed,
        }
    }

    /// The same, seen along the axis the other way.
    #[must_use]
    pub(crate) fn mirrored(self) -> Placement {
        self.then(Placement {
            reversed: true,
            ..Placement::HERE
        })
    }

    /// The same, further along.
    #[must_use]
    pub(crate) fn moved(self, by_mm: f64) -> Placement {
        Placement {
            offset_mm: self.offset_mm + by_mm,
            ..self
        }
    }

    /// An end's face at zero, the part reaching in from there towards larger `z`: a female as its
    /// male sees it.
    pub(crate) fn inward(part: &Part, end: End) -> Placement {
        match end {
            End::First => Placement::HERE,
            End::Second => Placement {
                offset_mm: part.length.to_mm(),
                reversed: true,
            },
        }
    }

    /// An end's face at zero, the part lying behind it: a male that leads with that end.
    pub(crate) fn leading(part: &Part, end: End) -> Placement {
        match end {
            End::First => Placement {
                offset_mm: 0.0,
                reversed: true,
            },
            End::Second => Placement {
                offset_mm: -part.length.to_mm(),
                reversed: false,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_and_its_inverse_undo_each_other() {
        for reversed in [false, true] {
            let place = Placement {
                offset_mm: 7.5,
                reversed,
            };
            assert_eq!(place.station(place.of(3.0)), 3.0);
            assert_eq!(place.inverse().of(place.of(3.0)), 3.0);
            let on = Placement {
                offset_mm: -2.0,
                reversed: true,
            };
            assert_eq!(place.then(on).of(3.0), on.of(place.of(3.0)));
            assert_eq!(place.then(on).then(on.inverse()), place);
        }
    }
}
