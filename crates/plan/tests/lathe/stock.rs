//! What is left of a blank.

use super::as_one::laid;
use quillet_geometry::envelope::{greatest, smallest};
use quillet_geometry::{Chain, Edge, EdgeFlaw, Length, MetalSide, Point, Properties, Tag};
use quillet_model::{End, Placement, Solid};

/// What is left of a blank: its outside and the holes in it, between two stations.
#[derive(Clone)]
pub(crate) struct Stock {
    pub(crate) from: Length,
    pub(crate) to: Length,
    outer: Chain,
    inner: Vec<Chain>,
}

/// Sizes that differ by less are one, mm.
const SAME: f64 = 1e-6;

impl Stock {
    pub(crate) fn rod(from: Length, to: Length, dia: Length) -> Stock {
        let ends = [Point::turned(from, dia), Point::turned(to, dia)];
        let outer = Chain::polyline(Tag(0), &ends).expect("a blank has a length");
        Stock {
            from,
            to,
            outer,
            inner: Vec::new(),
        }
    }

    /// Several made into one, each in its place, between two stations.
    pub(super) fn joined(all: &[(&Stock, Placement)], from: Length, to: Length) -> Stock {
        let outers: Vec<Chain> = all.iter().map(|it| laid(&it.0.outer, it.1)).collect();
        let holes: Vec<Chain> = all.iter().map(|it| laid(&it.0.hollows(), it.1)).collect();
        let outer = greatest(&outers, from.to_mm(), to.to_mm());
        assert_eq!(outer.len(), 1, "the work is not of one piece");
        Stock {
            from,
            to,
            outer: outer.into_iter().next().expect("one piece"),
            inner: smallest(&holes),
        }
    }

    /// How wide it is hollow, from end to end.
    fn hollows(&self) -> Chain {
        let (from, to) = (self.from.to_mm(), self.to.to_mm());
        let solid = [Point::new(from, 0.0), Point::new(to, 0.0)];
        let solid = Chain::polyline(Tag(0), &solid).expect("a blank has a length");
        let all: Vec<Chain> = self.inner.iter().cloned().chain([solid]).collect();
        let all = greatest(&all, from, to);
        all.into_iter().next().expect("it is as long as the blank")
    }

    pub(crate) fn volume(&self) -> f64 {
        Properties::between([&self.outer], &self.inner).volume_mm3
    }

    /// Turns the outside down to a surface where that is smaller.
    pub(crate) fn turn(&mut self, made: Chain) {
        let (from, to) = (self.from.to_mm(), self.to.to_mm());
        let Some(made) = made.between(from, to) else {
            return;
        };
        let left = smallest(&[self.outer.clone(), made]);
        assert_eq!(left.len(), 1, "the outside fell apart");
        self.outer = left.into_iter().next().expect("one piece");
    }

    /// A tube's own bore.
    pub(crate) fn hollow(&mut self, dia: Length) {
        let ends = [self.from, self.to].map(|at| Point::turned(at, dia));
        self.bore(Chain::polyline(Tag(0), &ends).into_iter().collect());
    }

    /// Cuts a hole.
    pub(crate) fn bore(&mut self, made: Vec<Chain>) {
        let holes: Vec<Chain> = self.inner.iter().cloned().chain(made).collect();
        self.inner = greatest(&holes, self.from.to_mm(), self.to.to_mm());
    }

    pub(crate) fn break_corner(&mut self, end: End, edge: Edge) -> Result<(), EdgeFlaw> {
        let at = if end == End::First {
            self.from
        } else {
            self.to
        };
        self.outer = self
            .outer
            .with_edge(at.to_mm(), edge, MetalSide::Outside, Tag(0))?;
        Ok(())
    }

    /// Takes off all that lies beyond a station.
    pub(crate) fn clip(&mut self, end: End, at: Length) {
        match end {
            End::First => self.from = self.from.max(at),
            End::Second => self.to = self.to.min(at),
        }
        let (from, to) = (self.from.to_mm(), self.to.to_mm());
        self.outer = self.outer.between(from, to).expect("something is left");
        self.inner = greatest(&self.inner, from, to);
    }

    pub(crate) fn is_cylinder(&self, from: Length, to: Length, dia: Length) -> bool {
        let radius = dia.to_mm() / 2.0;
        let same = |r: f64| (r - radius).abs() < SAME;
        // Steps at its very ends are its neighbours'.
        let (a, b) = (from.to_mm() + SAME, to.to_mm() - SAME);
        from >= self.from
            && to <= self.to
            && same(self.fattest(from, to))
            && self.outer.narrowest(a, b).is_some_and(|it| same(it.0.r))
    }

    pub(crate) fn fattest(&self, from: Length, to: Length) -> f64 {
        self.outer
            .fattest(from.to_mm() + SAME, to.to_mm() - SAME)
            .map_or(0.0, |(place, _)| place.r)
    }

    /// The narrowest of the hole between two stations; nothing where it is solid.
    pub(crate) fn narrowest(&self, from: Length, to: Length) -> f64 {
        if from >= to {
            return f64::INFINITY;
        }
        let (a, b) = (from.to_mm() + SAME, to.to_mm() - SAME);
        let across = self
            .inner
            .iter()
            .find(|it| it.start().z <= a && b <= it.end().z);
        across
            .and_then(|it| it.narrowest(a, b))
            .map_or(0.0, |(place, _)| place.r)
    }

    /// The radius of the widest hole between two stations; nothing where it is solid.
    pub(crate) fn widest_hole(&self, from: Length, to: Length) -> f64 {
        let within = self
            .inner
            .iter()
            .filter_map(|it| it.fattest(from.to_mm() + SAME, to.to_mm() - SAME));
        within.map(|(place, _)| place.r).fold(0.0, f64::max)
    }

    /// The radius of the hole at an end's face.
    pub(crate) fn opening(&self, end: End) -> f64 {
        let at = if end == End::First {
            self.from
        } else {
            self.to
        };
        self.hole_at(at.to_mm() + if end == End::First { SAME } else { -SAME })
    }

    /// The radius of the outside at an end's face.
    pub(super) fn rim(&self, end: End) -> f64 {
        match end {
            End::First => self.outer.start().r,
            End::Second => self.outer.end().r,
        }
    }

    fn hole_at(&self, z: f64) -> f64 {
        hole_at(&self.inner, z)
    }

    /// The first place where it is not the designed part.
    pub(crate) fn differs(&self, wanted: &Solid, length: Length) -> Option<String> {
        let length = length.to_mm();
        let mut stations: Vec<f64> = (0..=600).map(|at| length * f64::from(at) / 600.0).collect();
        let chains = [&self.outer, &wanted.outer]
            .into_iter()
            .chain(&self.inner)
            .chain(&wanted.inner);
        for piece in chains.flat_map(|chain| chain.segments()) {
            for z in [piece.curve.start().z, piece.curve.end().z] {
                stations.extend([z - 1e-4, z + 1e-4]);
            }
        }
        for z in stations.into_iter().filter(|z| 0.0 < *z && *z < length) {
            let outside = |chain: &Chain| chain.radii_at(z).map_or((0.0, 0.0), |it| it);
            let (found, right) = (outside(&self.outer), outside(&wanted.outer));
            if (found.0 - right.0).abs() > SAME || (found.1 - right.1).abs() > SAME {
                return Some(format!("outside at {z:.4}: {found:?} for {right:?}"));
            }
            let (found, right) = (self.hole_at(z), hole_at(&wanted.inner, z));
            if (found - right).abs() > SAME {
                return Some(format!("inside at {z:.4}: {found} for {right}"));
            }
        }
        let right = Properties::between([&wanted.outer], &wanted.inner).volume_mm3;
        let found = self.volume();
        ((found - right).abs() > 1e-6).then(|| format!("volume {found} for {right}"))
    }
}

fn hole_at(inner: &[Chain], z: f64) -> f64 {
    inner
        .iter()
        .filter_map(|chain| chain.radii_at(z))
        .map(|(a, b)| a.max(b))
        .fold(0.0, f64::max)
}
