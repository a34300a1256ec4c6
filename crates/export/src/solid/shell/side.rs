//! The faces of a stretch, and the edges between them.

use super::cut::{Cut, Facet};
use super::spline::Spline;
use super::{Edge, FaceSurface, RimCurve};
use quillet_geometry::section::Apothem;
use quillet_geometry::{Curve, Point};

/// Nearer than this to its chord a curve is straight, mm.
const STRAIGHT_MM: f64 = 1e-9;

/// The surface of a side of a cut.
pub(super) fn surface(edge: &Edge, cut: &Cut, nth: usize) -> FaceSurface {
    let Some(facet) = cut.facet(cut.sides[nth]) else {
        return FaceSurface::Turned(*edge, cut.away(nth, edge.point(0.5)));
    };
    let (sin, cos) = facet.clock.sin_cos();
    let middle = |place: Point| {
        let apothem = facet.apothem_mm(place);
        [apothem * cos, apothem * sin, place.z]
    };
    let flat = matches!(edge.curve, Curve::Line(_))
        || matches!(facet.set.apothem, Apothem::Straight { .. });
    if !flat {
        return FaceSurface::Ruled(Spline::carried(&edge.curve, middle), [sin, -cos, 0.0]);
    }
    let [from, to] = [edge.from(), edge.to()];
    let rise = facet.apothem_mm(to) - facet.apothem_mm(from);
    let length = rise.hypot(to.z - from.z);
    let (rise, along) = (rise / length, (to.z - from.z) / length);
    FaceSurface::Plane([
        middle(from),
        [along * cos, along * sin, -rise],
        [rise * cos, rise * sin, along],
    ])
}

/// The curve of the edge behind a side.
pub(super) fn between(edge: &Edge, cut: &Cut, nth: usize) -> RimCurve {
    let at = |place: Point| {
        let [x, y] = cut.corner_mm(nth, place);
        [x, y, place.z]
    };
    let beside = cut.beside(nth);
    if let [None, None] = beside {
        return RimCurve::Seam(*edge, cut.parting);
    }
    if is_straight(&edge.curve, at) {
        return RimCurve::Line;
    }
    let spline = match beside {
        // Where two flats meet depends on the place of the outside in proportion.
        [Some(_), Some(_)] => Spline::carried(&edge.curve, at),
        [Some(facet), None] => along(&edge.curve, facet, 1.0),
        [None, Some(facet)] => along(&edge.curve, facet, -1.0),
        [None, None] => return RimCurve::Seam(*edge, cut.parting),
    };
    RimCurve::Spline(spline)
}

fn is_straight(curve: &Curve, at: impl Fn(Point) -> [f64; 3]) -> bool {
    let [from, to] = [curve.start(), curve.end()].map(&at);
    let way = [0, 1, 2].map(|it| to[it] - from[it]);
    let square: f64 = way.iter().map(|it| it * it).sum();
    (1..8).all(|eighth| {
        let here = at(curve.point(f64::from(eighth) / 8.0));
        let off = [0, 1, 2].map(|it| here[it] - from[it]);
        let share = (0..3).map(|it| off[it] * way[it]).sum::<f64>() / square;
        let beside = [0, 1, 2].map(|it| off[it] - way[it] * share);
        beside.iter().map(|it| it * it).sum::<f64>() < STRAIGHT_MM * STRAIGHT_MM
    })
}

/// Where a flat comes through the outside, on one side of its middle.
///
/// It is followed by an angle φ whose cosine runs along the curve, 1 to -1: where a flat runs out, its half
/// width grows as a root of the way along, and in proportion to φ.
fn along(curve: &Curve, facet: &Facet, which: f64) -> Spline {
    let (sin, cos) = facet.clock.sin_cos();
    let on = |apothem: f64, half: f64, z: f64| {
        let half = half * which;
        [apothem * cos - half * sin, apothem * sin + half * cos, z]
    };
    // z, r and the apothem.
    let sizes = |t: f64| {
        let place = curve.point(t.clamp(0.0, 1.0));
        [place.z, place.r, facet.apothem_mm(place)]
    };
    Spline::fitted(|angle| {
        let t = (1.0 - angle.cos()) / 2.0;
        let [z, r, apothem] = sizes(t);
        let [z_slope, r_slope, apothem_slope] = slopes(sizes, t);
        let square = (r - apothem) * (r + apothem);
        let half = square.max(0.0).sqrt();
        let slope = 2.0 * (r * r_slope - apothem * apothem_slope);
        let step = angle.sin() / 2.0;
        let half_slope = if half > RUN_OUT_MM {
            slope / (2.0 * half) * step
        } else if t < 0.5 {
            slope.max(0.0).sqrt() / 2.0
        } else {
            -(-slope).max(0.0).sqrt() / 2.0
        };
        [
            on(apothem, half, z),
            on(apothem_slope * step, half_slope, z_slope * step),
        ]
    })
}

/// Narrower than this a flat runs out, mm.
const RUN_OUT_MM: f64 = 1e-4;

/// How fast sizes change with a parameter, by differences of the second order.
fn slopes(sizes: impl Fn(f64) -> [f64; 3], t: f64) -> [f64; 3] {
    const STEP: f64 = 1e-4;
    let [back, here, ahead] = if t < STEP {
        [0.0, STEP, 2.0 * STEP]
    } else if t > 1.0 - STEP {
        [1.0, 1.0 - STEP, 1.0 - 2.0 * STEP]
    } else {
        [t - STEP, t, t + STEP]
    }
    .map(sizes);
    let step = if t > 1.0 - STEP { -STEP } else { STEP };
    let ends = !(STEP..=1.0 - STEP).contains(&t);
    [0, 1, 2].map(|it| {
        let middle = (ahead[it] - back[it]) / (2.0 * step);
        // At an end the slope is half a step's change of slope before that of its middle.
        let bend = (ahead[it] - 2.0 * here[it] + back[it]) / step;
        if ends { middle - bend } else { middle }
    })
}
