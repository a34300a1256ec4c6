//! What a gap depends on: the sizes it is the sum of, each with its share.

use crate::{End, Origin, Part, PartId};
use quillet_geometry::Length;
use quillet_syntax::Span;
use smallvec::SmallVec;

/// A size that comes out more or less as it is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Size {
    /// A plane of a part, by its distance from the end that it is written from.
    Plane {
        /// The part.
        part: PartId,
        /// It is the end of something cut inside.
        inside: bool,
        /// The end.
        from: End,
        /// The distance from that end's face.
        at: Length,
    },
    /// The length of a part: how far its second end is from its first.
    Whole {
        /// The part.
        part: PartId,
    },
    /// Half a diameter.
    Radius {
        /// The part.
        part: PartId,
        /// What makes the surface.
        of: Origin,
        /// The second of two diameters that are written there: a step's, or a taper's far one.
        second: bool,
    },
    /// Half the diameter on which a thread's roots lie.
    Root {
        /// The part.
        part: PartId,
        /// The thread.
        of: Origin,
    },
    /// How far one part is put in or onto another, where that is written (`by L`).
    By {
        /// What is put in.
        part: PartId,
        /// Whether both parts are bought.
        bought: bool,
        /// How far.
        by: Length,
    },
    /// How far out of its place a nib is set.
    Nib {
        /// The part.
        part: PartId,
    },
}

impl Size {
    /// The part it is a size of.
    pub fn part(&self) -> PartId {
        match self {
            Size::Plane { part, .. }
            | Size::Whole { part }
            | Size::Radius { part, .. }
            | Size::Root { part, .. }
            | Size::By { part, .. }
            | Size::Nib { part } => *part,
        }
    }
}

/// One size of a chain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// The size.
    pub size: Size,
    /// What makes it.
    pub origin: Origin,
    /// Where it is written.
    pub span: Span,
    /// By how much the gap grows as the size grows, mm a mm.
    pub factor: f64,
    /// From how much under the drawn size to how much over it may come out, mm; of a diameter,
    /// half of it.
    pub range_mm: (f64, f64),
}

impl Link {
    /// How much of the gap it takes at worst, mm.
    pub fn takes_mm(&self) -> f64 {
        let (under, over) = self.range_mm;
        -(self.factor * under).min(self.factor * over).min(0.0)
    }

    /// The same in whole nanometres.
    fn takes_nm(&self) -> i64 {
        (self.takes_mm() * 1e6).round() as i64
    }
}

/// What is left with every size at its worst.
#[derive(Clone, Debug, PartialEq)]
pub struct WorstCase {
    /// How much, mm.
    pub least_mm: f64,
    /// The sizes it is the sum of, those that take most of it first.
    pub chain: Vec<Link>,
}

impl WorstCase {
    /// Of what is left as drawn, mm, by the sizes that move it; `part` gives a size's part.
    pub(crate) fn of<'p>(
        nominal_mm: f64,
        mut chain: Vec<Link>,
        part: impl Fn(PartId) -> &'p Part,
    ) -> WorstCase {
        chain.sort_by(|a, b| {
            // Two that differ by rounding alone, which no two builds do alike, take as much.
            let takes = b.takes_nm().cmp(&a.takes_nm());
            // The order of the parts in the text says nothing.
            let name = |link: &Link| &part(link.size.part()).name.text;
            takes.then_with(|| (name(a), a.size).cmp(&(name(b), b.size)))
        });
        let takes: f64 = chain.iter().map(Link::takes_mm).sum();
        // What only differs from nothing by the sum's own rounding is nothing.
        let least_mm = Some(nominal_mm - takes).filter(|it| it.abs() > 1e-9);
        WorstCase {
            least_mm: least_mm.unwrap_or(0.0),
            chain,
        }
    }
}

/// A sum of sizes, each with its factor: by how much a place moves as they do. Few, in order.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Drift(SmallVec<[(Size, f64); FEW]>);

/// Most sums have no more sizes.
const FEW: usize = 4;

/// A factor below this moves nothing.
const NOTHING: f64 = 1e-9;

impl Drift {
    /// That of one size.
    pub(crate) fn of(size: Size) -> Drift {
        Drift(std::iter::once((size, 1.0)).collect())
    }

    /// With so many times another.
    #[must_use]
    pub(crate) fn plus(mut self, times: f64, other: &Drift) -> Drift {
        if times == 0.0 || !times.is_finite() {
            return self;
        }
        if self.0.is_empty() {
            let scaled = other.iter().map(|(size, factor)| (size, times * factor));
            self.0.extend(scaled);
            return self;
        }
        for (size, factor) in &other.0 {
            match self.0.binary_search_by(|it| it.0.cmp(size)) {
                Ok(at) => {
                    self.0[at].1 += times * factor;
                    if self.0[at].1.abs() < NOTHING {
                        self.0.remove(at);
                    }
                }
                Err(at) => self.0.insert(at, (*size, times * factor)),
            }
        }
        self
    }

    /// So many times itself.
    #[must_use]
    pub(crate) fn times(&self, times: f64) -> Drift {
        Drift::default().plus(times, self)
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = (Size, f64)> + '_ {
        self.0.iter().copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_sizes_cancel() {
        let plane = |at: f64| {
            Drift::of(Size::Plane {
                part: PartId::nth(0),
                inside: false,
                from: End::First,
                at: Length::mm(at),
            })
        };
        let whole = Drift::of(Size::Whole {
            part: PartId::nth(0),
        });
        let one = whole.clone().plus(-1.0, &plane(8.0)).plus(2.0, &plane(3.0));
        let other = plane(8.0).plus(0.5, &whole).times(-1.0);
        let sum: Vec<f64> = one.plus(-1.0, &other).iter().map(|it| it.1).collect();
        assert_eq!(sum, [2.0, 1.5]);
        assert_eq!(plane(8.0).plus(-1.0, &plane(8.0)), Drift::default());
        assert_eq!(plane(8.0).plus(f64::NAN, &whole), plane(8.0));
    }

    #[test]
    fn a_one_sided_size_takes_only_on_its_side() {
        let link = |factor, range_mm| Link {
            size: Size::Nib {
                part: PartId::nth(0),
            },
            origin: Origin::Axis,
            span: Span::default(),
            factor,
            range_mm,
        };
        // A hole that comes out over size lets what rests on its cone in deeper, never less deep.
        assert_eq!(link(0.6, (0.0, 0.1)).takes_mm(), 0.0);
        assert!((link(-0.6, (0.0, 0.1)).takes_mm() - 0.06).abs() < 1e-12);
        assert!((link(0.5, (-0.2, 0.2)).takes_mm() - 0.1).abs() < 1e-12);
    }
}
