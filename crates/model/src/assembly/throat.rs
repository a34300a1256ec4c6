//! What passes through what: the narrowest throat against the fattest that goes through it.

use super::outline::Radii;
use super::place::Place;
use quillet_geometry::{Chain, Tag};

/// The tightest place on the way in: a place of the female and the place of the male that passes it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Throat {
    /// The female's radius less the male's, mm.
    pub(crate) gap_mm: f64,
    /// Where it is on the female, on the joint's axis, its radius and what made it.
    pub(crate) female: Side,
    /// Where it is on the male at rest, its radius and what made it.
    pub(crate) male: Side,
}

/// A place on one of the two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Side {
    pub(crate) z_mm: f64,
    pub(crate) radius_mm: f64,
    pub(crate) tag: Tag,
}

/// The least of all gaps on the way in, both in place at rest: a place of the male that lies
/// deeper than a place of the female has passed it. None where nothing of the male is inside.
/// A male thread passes the female one that matches it: of each pair in `threads`, from where to
/// where both lie on the joint's axis.
pub(crate) fn throat(
    male: (&Radii, Place),
    female: (&Radii, Place),
    threads: &[(Reach, Reach)],
) -> Option<Throat> {
    let outside = bands(&male.0.outer, male.1, f64::max);
    let inside = bands(&female.0.inner, female.1, f64::min);
    let excused = |male: &Band, female: &Band| {
        threads
            .iter()
            .any(|(one, other)| male.within(*one) && female.within(*other))
    };
    let mut best: Option<Throat> = None;
    for throat in &inside {
        // Of what has passed here, the fattest.
        let passed = outside
            .iter()
            .filter(|it| it.to_mm > throat.from_mm + 1e-9 && !excused(it, throat));
        let Some(fattest) = passed.reduce(|a, b| if b.radius_mm > a.radius_mm { b } else { a })
        else {
            continue;
        };
        let gap_mm = throat.radius_mm - fattest.radius_mm;
        if best.is_none_or(|best| gap_mm < best.gap_mm - 1e-9) {
            let side = |it: &Band| Side {
                z_mm: it.at_mm,
                radius_mm: it.radius_mm,
                tag: it.tag,
            };
            best = Some(Throat {
                gap_mm,
                female: side(throat),
                male: side(fattest),
            });
        }
    }
    best
}

/// From one place on an axis to another, mm.
pub(crate) type Reach = (f64, f64);

impl Band {
    fn within(&self, reach: Reach) -> bool {
        self.from_mm >= reach.0 - 1e-6 && self.to_mm <= reach.1 + 1e-6
    }
}

/// A short stretch of a surface, with its extreme radius.
struct Band {
    from_mm: f64,
    to_mm: f64,
    at_mm: f64,
    radius_mm: f64,
    tag: Tag,
}

/// The surface in bands: a cylinder is one, a cone or a curve several.
fn bands(chains: &[Chain], place: Place, extreme: fn(f64, f64) -> f64) -> Vec<Band> {
    const PARTS: usize = 16;
    let mut bands = Vec::new();
    for segment in chains.iter().flat_map(Chain::segments) {
        if segment.curve.is_vertical() {
            continue;
        }
        let parts = match segment.curve.start().r == segment.curve.end().r
            && matches!(segment.curve, quillet_geometry::Curve::Line(_))
        {
            true => 1,
            false => PARTS,
        };
        let at = |part: usize| segment.curve.point(part as f64 / parts as f64);
        for part in 0..parts {
            let (a, b) = (at(part), at(part + 1));
            let radius_mm = extreme(a.r, b.r);
            let (from, to) = (place.of(a.z), place.of(b.z));
            let at_mm = if radius_mm == a.r { from } else { to };
            bands.push(Band {
                from_mm: from.min(to),
                to_mm: from.max(to),
                at_mm,
                radius_mm,
                tag: segment.tag,
            });
        }
    }
    bands
}

/// Two cylinders count as a close fit within this, mm on the radius.
const CLOSE_MM: f64 = 0.05;

/// Cylinders that fit closely in each other at rest: a place of each, and for how far they stay so
/// while the male is drawn out.
pub(crate) fn tight(
    male: (&Radii, Place),
    female: (&Radii, Place),
    threads: &[(Reach, Reach)],
) -> Vec<(Side, Side, f64)> {
    let outside = bands(&male.0.outer, male.1, f64::max);
    let inside = bands(&female.0.inner, female.1, f64::min);
    let excused = |male: &Band, female: &Band| {
        threads
            .iter()
            .any(|(one, other)| male.within(*one) && female.within(*other))
    };
    let side = |it: &Band| Side {
        z_mm: it.at_mm,
        radius_mm: it.radius_mm,
        tag: it.tag,
    };
    let mut found = Vec::new();
    for one in &outside {
        for other in &inside {
            let overlap = one.to_mm.min(other.to_mm) - one.from_mm.max(other.from_mm);
            let gap = other.radius_mm - one.radius_mm;
            let close = (-1e-6..=CLOSE_MM).contains(&gap) && overlap > 1e-6;
            if close && !excused(one, other) {
                // The male's rear may follow its front through the same bore.
                let stroke_mm = one.to_mm - other.from_mm;
                found.push((side(one), side(other), stroke_mm.max(overlap)));
            }
        }
    }
    found
}
