//! What is not made yet goes where what lies in its plane was measured.

use super::{Bench, SAME_PLANE};
use crate::{End, MadeFaces, Part, PartKind};
use quillet_geometry::Length;

impl Bench<'_, '_> {
    /// A face in one plane moves as one: what is not made yet goes where what lies in its plane was
    /// measured. Where the length alone was, a station goes with the cut from the far end that makes it.
    pub(super) fn carry_along(&mut self, part: &mut Part) {
        let mut moved = std::mem::take(&mut self.moved);
        let drawn = self.drawn.clone();
        moved.extend([true, false].map(|inside| (inside, drawn.length, part.length)));
        for cut in drawn.features.iter().filter(|it| it.end == End::Second) {
            for inward in [cut.to, cut.from] {
                let (was, is) = (
                    drawn.station(cut.end, inward),
                    part.station(cut.end, inward),
                );
                moved.push((cut.is_inside(), was, is));
            }
        }
        let moved = Moved {
            planes: moved,
            drawn: &drawn,
            length: part.length,
            made: &self.faces,
        };
        moved.cuts(part);
        moved.stations(part);
        moved.off_axis(part);
    }
}

/// Planes that lie elsewhere than drawn.
struct Moved<'p> {
    /// Whether of the inside, where drawn, and where in the part that is made.
    planes: Vec<(bool, Length, Length)>,
    drawn: &'p Part,
    /// Of the part that is made.
    length: Length,
    made: &'p MadeFaces,
}

impl Moved<'_> {
    fn cuts(&self, part: &mut Part) {
        for cut in part.features.iter_mut() {
            if self.made.stands_at(cut.span) {
                continue;
            }
            let inside = cut.is_inside();
            for inward in [&mut cut.from, &mut cut.to] {
                *inward = self.inward(inside, cut.end, *inward);
            }
        }
    }

    fn stations(&self, part: &mut Part) {
        for station in part.stations.iter_mut() {
            if self.made.stands_at(station.span) {
                continue;
            }
            let mut as_drawn = self.drawn.stations.iter();
            if let Some(was) = as_drawn.find(|it| it.span == station.span) {
                station.at = self.station(was.at, station.at);
            }
        }
        part.stations.sort_by_key(|it| it.at);
    }

    /// Cuts from the side, and holes beside the axis.
    fn off_axis(&self, part: &mut Part) {
        let PartKind::Cut(cut) = &mut part.kind else {
            return;
        };
        for (side, was) in cut.sides.iter_mut().zip(self.drawn.sides()) {
            if self.made.stands_at(side.span) {
                continue;
            }
            let (was, is) = (was.stretch, &mut side.stretch);
            let (from, to) = (self.station(was.from, is.from), self.station(was.to, is.to));
            if from < to || was.from == was.to {
                (is.from, is.to) = (from, to);
            }
        }
        for holes in cut.circles.iter_mut() {
            if !self.made.stands_at(holes.span) && !holes.through {
                holes.from = self.inward(true, holes.end, holes.from);
                holes.to = self.inward(true, holes.end, holes.to);
            }
        }
    }

    /// Where a plane at a drawn station is; none of one that did not move.
    fn whither(&self, inside: bool, drawn: Length) -> Option<Length> {
        let mut planes = self.planes.iter();
        let here =
            |it: &&(bool, Length, Length)| it.0 == inside && (it.1 - drawn).abs() <= SAME_PLANE;
        planes.find(here).map(|it| it.2)
    }

    /// A place of the outside; what begins at the part's first end stays there.
    fn station(&self, drawn: Length, is: Length) -> Length {
        match drawn == Length::ZERO || is == Length::ZERO {
            true => is,
            false => self.whither(false, drawn).unwrap_or(is),
        }
    }

    /// A place from an end's face; what begins at the face stays there.
    fn inward(&self, inside: bool, end: End, inward: Length) -> Length {
        let at = self.whither(inside, self.drawn.station(end, inward));
        match at.filter(|_| inward != Length::ZERO) {
            Some(at) if end == End::First => at,
            Some(at) => self.length - at,
            None => inward,
        }
    }
}
