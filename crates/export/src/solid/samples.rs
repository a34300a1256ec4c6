//! Solids for tests: every kind of surface, voids, rings and domes.

use super::Body;
use quillet_geometry::section::{Apothem, Flats};
use quillet_geometry::{Arc, Chain, Cubic, Curve, Point, Properties, Segment, Surface, Tag};

pub(crate) struct Sample {
    pub(crate) name: &'static str,
    pub(crate) outer: Chain,
    pub(crate) inner: Vec<Chain>,
}

impl Sample {
    pub(crate) fn body(&self) -> Body {
        Body::new(self.name, &self.outer, &self.inner).unwrap()
    }

    pub(crate) fn properties(&self) -> Properties {
        Properties::between([&self.outer], &self.inner)
    }

    /// Sets of flats of several kinds on most of its outside.
    pub(crate) fn flats(&self) -> Vec<(&'static str, Vec<Flats>)> {
        let (from, to) = (self.outer.start().z, self.outer.end().z);
        let places = self.outer.segments().iter();
        let widest = places.map(|it| it.curve.bounds().max.r).fold(0.0, f64::max);
        sets(from, to, widest)
    }

    /// The area swept by the outside and the bores, end faces apart.
    pub(crate) fn area_mm2(&self) -> f64 {
        let bores = self.inner.iter().map(|chain| Surface::of(chain).area_mm2);
        Surface::of(&self.outer).area_mm2 + bores.sum::<f64>()
    }
}

fn sets(from: f64, to: f64, widest: f64) -> Vec<(&'static str, Vec<Flats>)> {
    let set = |apothem, count, clock_deg| Flats {
        from_mm: from + (to - from) * 0.2,
        to_mm: to,
        apothem,
        count,
        clock_deg,
    };
    let straight = |from_mm, to_mm| Apothem::Straight { from_mm, to_mm };
    let middle = Flats {
        from_mm: from + (to - from) * 0.31,
        to_mm: from + (to - from) * 0.74,
        ..set(Apothem::Below(0.2), 3, 10.0)
    };
    let (near, far) = (widest - 0.3, widest - 0.8);
    vec![
        ("one", vec![set(straight(far, far), 1, 0.0)]),
        ("six, tapering", vec![set(straight(near, far), 6, 17.0)]),
        ("three, so deep", vec![middle]),
        ("eight that meet", vec![set(Apothem::Meeting, 8, 3.3)]),
        ("two sets", vec![set(straight(far, near), 4, 0.0), middle]),
    ]
}

pub(crate) fn all() -> Vec<Sample> {
    vec![section(), barrel(), ring(), capsule(), bellied()]
}

fn at(z: f64, r: f64) -> Point {
    Point::new(z, r)
}

fn chain(curves: impl IntoIterator<Item = Curve>) -> Chain {
    let segments = curves
        .into_iter()
        .map(|curve| Segment { curve, tag: Tag(0) });
    Chain::new(segments).unwrap()
}

fn lines(places: &[(f64, f64)]) -> Chain {
    let places: Vec<Point> = places.iter().map(|(z, r)| at(*z, *r)).collect();
    Chain::polyline(Tag(0), &places).unwrap()
}

/// A through bore, a taper, a smooth waist, a cove and a shoulder.
pub(crate) fn section() -> Sample {
    let outer = chain([
        Curve::line(at(0.0, 5.2), at(3.0, 5.0)),
        Cubic::with_slopes(at(3.0, 5.0), at(20.0, 5.6), -0.05, 0.1)
            .unwrap()
            .into(),
        Curve::Arc(Arc::circular(at(20.0, 5.6), at(22.0, 5.7), 3.0, false).unwrap()),
        Curve::line(at(22.0, 4.95), at(30.0, 4.95)),
    ]);
    Sample {
        name: "section",
        outer,
        inner: vec![lines(&[(0.0, 3.2), (13.0, 3.2), (13.0, 4.0), (30.0, 4.0)])],
    }
}

/// A blind hole with a drill point, a dome.
fn barrel() -> Sample {
    let outer = chain([
        Curve::line(at(0.0, 6.4), at(8.0, 6.4)),
        Curve::line(at(8.0, 7.2), at(42.0, 6.9)),
        Cubic::with_slopes(at(42.0, 6.9), at(76.0, 5.4), 0.0, -0.06)
            .unwrap()
            .into(),
        Curve::Arc(Arc::dome(at(76.0, 5.4), at(82.0, 0.0)).unwrap()),
    ]);
    let apex = 67.0 + 4.0 / 59f64.to_radians().tan();
    let inner = lines(&[
        (0.0, 4.6),
        (12.0, 4.6),
        (12.0, 4.0),
        (67.0, 4.0),
        (apex, 0.0),
    ]);
    Sample {
        name: "barrel",
        outer,
        inner: vec![inner],
    }
}

/// A torus: outside and inside meet at its ends.
fn ring() -> Sample {
    let half = |from, to, convex| Curve::Arc(Arc::circular(from, to, 0.75, convex).unwrap());
    let (near, top, far, low) = (at(0.0, 4.55), at(0.75, 5.3), at(1.5, 4.55), at(0.75, 3.8));
    Sample {
        name: "ring",
        outer: chain([half(near, top, true), half(top, far, true)]),
        inner: vec![chain([half(near, low, false), half(low, far, false)])],
    }
}

/// Two hemispheres on a cylinder, with a closed void in the middle and a bore from each end.
fn capsule() -> Sample {
    let ball = |from, to| Curve::Arc(Arc::circular(from, to, 6.0, true).unwrap());
    let outer = chain([
        Curve::line(at(0.0, 3.0), at(5.0, 6.0)),
        Curve::line(at(5.0, 6.0), at(24.0, 6.0)),
        ball(at(24.0, 6.0), at(30.0, 0.0)),
    ]);
    let void = lines(&[(12.0, 0.0), (12.0, 3.0), (18.0, 3.0), (20.0, 0.0)]);
    Sample {
        name: "capsule",
        outer,
        inner: vec![lines(&[(0.0, 2.0), (6.0, 2.0), (6.0, 0.0)]), void],
    }
}

/// Beads whose circles reach past the axis, and a dome at the first end.
fn bellied() -> Sample {
    let outer = chain([
        Curve::Arc(Arc::dome(at(0.0, 0.0), at(6.0, 6.0)).unwrap()),
        Curve::Arc(Arc::circular(at(6.0, 6.0), at(36.0, 6.0), 60.0, true).unwrap()),
        Curve::Arc(Arc::new(at(36.0, 6.0), at(40.0, 4.0), 4.0, 2.0, true).unwrap()),
    ]);
    Sample {
        name: "bellied",
        outer,
        inner: vec![lines(&[(31.0, 0.0), (31.0, 2.0), (40.0, 2.0)])],
    }
}
