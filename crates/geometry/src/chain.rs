//! `Chain`: connected pieces of a profile, each with the tag of what made it.

use crate::{Curve, Point};

/// Which feature made a piece of a profile; the caller gives it its meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Tag(pub u32);

/// One piece of a chain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// The curve.
    pub curve: Curve,
    /// What made it.
    pub tag: Tag,
}

impl Segment {
    /// The angle by which the outline turns from this piece into the one that follows it, in degrees,
    /// positive outwards.
    pub fn turn_deg(&self, next: &Segment) -> f64 {
        let (one, two) = (self.curve.tangent(1.0), next.curve.tangent(0.0));
        one.cross(two).atan2(one.dot(two)).to_degrees()
    }
}

/// Connected pieces of a profile in order of `z`, never empty.
///
/// A jump in radius is a vertical line, so the pieces always meet; vertical lines may also begin
/// and end the chain (faces).
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    segments: Vec<Segment>,
}

/// How far ends may be apart and still count as one place, mm.
pub(crate) const SAME: f64 = 1e-9;

impl Chain {
    /// From its pieces in order; where radii differ at one station the vertical line between is
    /// put in, with the tag of the piece after it.
    ///
    /// None where there is no piece, or where a piece does not begin at the station at which the
    /// one before it ends.
    pub fn new(pieces: impl IntoIterator<Item = Segment>) -> Option<Chain> {
        let mut pieces = pieces.into_iter();
        let mut segments = Vec::with_capacity(1 + pieces.size_hint().0);
        segments.push(pieces.next()?);
        let mut chain = Chain { segments };
        for piece in pieces {
            let (end, start) = (chain.end(), piece.curve.start());
            if (end.z - start.z).abs() > SAME {
                return None;
            }
            if (end.r - start.r).abs() > SAME {
                chain.segments.push(Segment {
                    curve: Curve::line(end, Point::new(end.z, start.r)),
                    tag: piece.tag,
                });
            }
            chain.segments.push(piece);
        }
        Some(chain)
    }

    /// Straight lines from place to place; none where there are fewer than two places or one
    /// turns back along `z`.
    pub fn polyline(tag: Tag, places: &[Point]) -> Option<Chain> {
        if places.windows(2).any(|pair| pair[1].z < pair[0].z) {
            return None;
        }
        Chain::new(places.windows(2).map(|pair| Segment {
            curve: Curve::line(pair[0], pair[1]),
            tag,
        }))
    }

    /// One curve.
    pub fn single(tag: Tag, curve: impl Into<Curve>) -> Chain {
        Chain {
            segments: vec![Segment {
                curve: curve.into(),
                tag,
            }],
        }
    }

    /// Its pieces, in order.
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    /// Where it begins.
    pub fn start(&self) -> Point {
        self.segments
            .first()
            .map_or(Point::default(), |segment| segment.curve.start())
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        self.segments
            .last()
            .map_or(Point::default(), |segment| segment.curve.end())
    }

    /// With another curve at its end; none where that begins at another station.
    pub fn then(mut self, tag: Tag, curve: impl Into<Curve>) -> Option<Chain> {
        let piece = Segment {
            curve: curve.into(),
            tag,
        };
        let tail = Chain::new([*self.segments.last()?, piece])?;
        self.segments.extend_from_slice(&tail.segments[1..]);
        Some(self)
    }

    /// With a straight line at its end; none where that would turn back along `z`.
    pub fn then_line(self, tag: Tag, to: Point) -> Option<Chain> {
        let end = self.end();
        (to.z >= end.z).then(|| self.then(tag, Curve::line(end, to)))?
    }

    /// With a face from the radius `from_r_mm` before its start.
    pub fn after_face(&self, tag: Tag, from_r_mm: f64) -> Chain {
        let start = self.start();
        let mut chain = self.clone();
        if (start.r - from_r_mm).abs() > SAME {
            let curve = Curve::line(Point::new(start.z, from_r_mm), start);
            chain.segments.insert(0, Segment { curve, tag });
        }
        chain
    }

    /// With a face to the radius `to_r_mm` after its end.
    pub fn before_face(&self, tag: Tag, to_r_mm: f64) -> Chain {
        let end = self.end();
        let mut chain = self.clone();
        if (end.r - to_r_mm).abs() > SAME {
            chain.segments.push(Segment {
                curve: Curve::line(end, Point::new(end.z, to_r_mm)),
                tag,
            });
        }
        chain
    }

    /// Moved along the axis.
    pub fn moved(&self, dz_mm: f64) -> Chain {
        self.mapped(|segment| Segment {
            curve: segment.curve.moved(dz_mm),
            ..*segment
        })
    }

    /// Turned end for end, `z` becoming `about_mm` less `z`.
    pub fn reversed(&self, about_mm: f64) -> Chain {
        let mut chain = self.mapped(|segment| Segment {
            curve: segment.curve.reversed(about_mm),
            ..*segment
        });
        chain.segments.reverse();
        chain
    }

    fn mapped(&self, each: impl Fn(&Segment) -> Segment) -> Chain {
        Chain {
            segments: self.segments.iter().map(each).collect(),
        }
    }

    /// The part between two stations, faces on them counted; none where nothing is between.
    pub fn between(&self, from_mm: f64, to_mm: f64) -> Option<Chain> {
        let segments: Vec<Segment> = self
            .segments
            .iter()
            .filter_map(|segment| {
                Some(Segment {
                    curve: segment.curve.between(from_mm, to_mm)?,
                    ..*segment
                })
            })
            .collect();
        segments
            .iter()
            .any(|segment| !segment.curve.is_vertical())
            .then_some(Chain { segments })
    }

    /// The radius just before and just after a station, mm; the same but at a step, and none
    /// outside the chain.
    pub fn radii_at(&self, z_mm: f64) -> Option<(f64, f64)> {
        let here = self.around(z_mm);
        let before = here.iter().find(|segment| !segment.curve.is_vertical())?;
        let after = here.iter().rfind(|segment| !segment.curve.is_vertical())?;
        Some((before.curve.radius_at(z_mm), after.curve.radius_at(z_mm)))
    }

    /// The greater of the two radii at a station, mm; none outside the chain.
    pub fn greatest_at(&self, z_mm: f64) -> Option<f64> {
        self.radii_at(z_mm).map(|(before, after)| before.max(after))
    }

    /// The lesser of the two radii at a station, mm; none outside the chain.
    pub fn least_at(&self, z_mm: f64) -> Option<f64> {
        self.radii_at(z_mm).map(|(before, after)| before.min(after))
    }

    /// The piece just after a station (before it, at the chain's end).
    pub fn segment_at(&self, z_mm: f64) -> Option<&Segment> {
        self.around(z_mm)
            .iter()
            .rfind(|segment| !segment.curve.is_vertical())
    }

    /// The pieces that a station is in or at an end of, as well as sums of stations are kept.
    fn around(&self, z_mm: f64) -> &[Segment] {
        self.near(z_mm, SAME)
    }

    /// The pieces that come so near to a station along the axis, mm, in their order.
    pub fn near(&self, z_mm: f64, within_mm: f64) -> &[Segment] {
        let from = self
            .segments
            .partition_point(|segment| segment.curve.end().z < z_mm - within_mm);
        let to = self
            .segments
            .partition_point(|segment| segment.curve.start().z <= z_mm + within_mm);
        self.segments.get(from..to).unwrap_or_default()
    }

    /// Where it is narrowest between two stations, and what made it there; none outside.
    pub fn narrowest(&self, from_mm: f64, to_mm: f64) -> Option<(Point, Tag)> {
        self.extremes(from_mm, to_mm)
            .min_by(|a, b| a.0.r.total_cmp(&b.0.r))
    }

    /// Where it is fattest between two stations, and what made it there; none outside.
    pub fn fattest(&self, from_mm: f64, to_mm: f64) -> Option<(Point, Tag)> {
        // `max_by` would take the last of equals; the first is wanted, as for the narrowest.
        self.extremes(from_mm, to_mm)
            .reduce(|most, next| if next.0.r > most.0.r { next } else { most })
    }

    fn extremes(&self, from_mm: f64, to_mm: f64) -> impl Iterator<Item = (Point, Tag)> {
        let inside =
            move |segment: &Segment| Some((segment.curve.between(from_mm, to_mm)?, segment.tag));
        self.segments
            .iter()
            .filter_map(inside)
            .flat_map(|(curve, tag)| {
                let turns = curve.parallel_to(Point::new(1.0, 0.0));
                [curve.start(), curve.end()]
                    .into_iter()
                    .chain(turns.iter().map(move |t| curve.point(t)))
                    .map(move |place| (place, tag))
            })
    }

    /// The angle by which the outline turns where two pieces meet, for every meeting of two that
    /// are no faces: the station in mm, the turn in degrees (positive outwards) and both tags.
    pub fn kinks(&self) -> impl Iterator<Item = Kink> {
        self.segments.windows(2).filter_map(|pair| {
            let (before, after) = (pair[0], pair[1]);
            if before.curve.is_vertical() || after.curve.is_vertical() {
                return None;
            }
            Some(Kink {
                z_mm: after.curve.start().z,
                turn_deg: before.turn_deg(&after),
                before: before.tag,
                after: after.tag,
            })
        })
    }
}

/// A meeting of two pieces of an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kink {
    /// The station, mm.
    pub z_mm: f64,
    /// By how much the outline turns, degrees; positive away from the axis.
    pub turn_deg: f64,
    /// What made the piece before.
    pub before: Tag,
    /// What made the piece after.
    pub after: Tag,
}
