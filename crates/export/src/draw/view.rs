//! How a part lies on the paper.

use crate::scene::{Path, PathElement, Xy};
use quillet_geometry::{Chain, Curve, Point};
use std::f64::consts::PI;

/// A part's axis on the paper, from left to right, and the scale it is drawn at.
#[derive(Clone, Copy, Debug)]
pub(super) struct ViewTransform {
    /// Where station 0 lies on the axis.
    pub(super) origin: Xy,
    /// Paper millimetres for each of the part's.
    pub(super) scale: f64,
    /// Turned end for end: stations run to the left.
    pub(super) flipped: bool,
    /// Radii are drawn so many times as high.
    pub(super) stretch: f64,
}

/// Which side of the axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Half {
    /// Above the axis.
    Upper,
    /// Below the axis.
    Lower,
}

impl Half {
    /// 1 above, -1 below.
    pub(super) fn sign(self) -> f64 {
        match self {
            Half::Upper => 1.0,
            Half::Lower => -1.0,
        }
    }

    /// The half across the axis.
    pub(super) fn other(self) -> Half {
        match self {
            Half::Upper => Half::Lower,
            Half::Lower => Half::Upper,
        }
    }
}

impl ViewTransform {
    /// A part whose stations run to the right.
    pub(super) fn new(origin: Xy, scale: f64) -> ViewTransform {
        ViewTransform {
            origin,
            scale,
            flipped: false,
            stretch: 1.0,
        }
    }

    /// The same with radii so many times as high.
    pub(super) fn stretched(self, stretch: f64) -> ViewTransform {
        ViewTransform { stretch, ..self }
    }

    /// Paper millimetres for each of a radius.
    fn high(&self) -> f64 {
        self.scale * self.stretch
    }

    /// A place of the meridian plane on the paper.
    pub(super) fn place(&self, half: Half, at: Point) -> Xy {
        self.origin.moved(
            self.way() * at.z * self.scale,
            half.sign() * at.r * self.high(),
        )
    }

    /// 1 where stations run to the right, -1 where they run to the left.
    fn way(&self) -> f64 {
        if self.flipped { -1.0 } else { 1.0 }
    }

    /// A station on the axis.
    pub(super) fn axis(&self, z_mm: f64) -> Xy {
        self.place(Half::Upper, Point::new(z_mm, 0.0))
    }

    /// A chain as an open path.
    pub(super) fn path(&self, half: Half, chain: &Chain) -> Path {
        let start = Path::open(self.place(half, chain.start()));
        let mut at = chain.start();
        chain.segments().iter().fold(start, |path, segment| {
            // A vertical line keeps no direction of its own.
            let to = match segment.curve.is_vertical() {
                true => other_end(&segment.curve, at),
                false => segment.curve.end(),
            };
            at = to;
            path.then(self.step(half, &segment.curve, to))
        })
    }

    /// A chain closed to the axis.
    pub(super) fn region(&self, half: Half, chain: &Chain) -> Path {
        let mut path = self.path(half, chain).line(self.axis(chain.end().z));
        path = path.line(self.axis(chain.start().z));
        path.close()
    }

    fn step(&self, half: Half, curve: &Curve, to: Point) -> PathElement {
        let to = self.place(half, to);
        match curve {
            Curve::Line(_) => PathElement::Line(to),
            Curve::Cubic(cubic) => {
                let [_, a, b, _] = cubic.points().map(|point| self.place(half, point));
                PathElement::Cubic(a, b, to)
            }
            Curve::Arc(arc) => {
                let centre = arc.centre();
                let semi = Point::new(arc.semi_z_mm(), arc.semi_r_mm());
                let angle =
                    |at: Point| ((at.r - centre.r) / semi.r).atan2((at.z - centre.z) / semi.z);
                let (from, end) = (angle(arc.start()), angle(arc.end()));
                // A concave arc's angles lie about -90°, a convex one's about 90°: neither wraps.
                let near = |angle: f64| {
                    if arc.is_convex() || angle <= 1.0 {
                        angle
                    } else {
                        angle - 2.0 * PI
                    }
                };
                let (from, end) = (near(from), near(end));
                PathElement::Arc {
                    centre: self.place(half, centre),
                    semi: Xy::new(semi.z * self.scale, semi.r * self.high()),
                    from_rad: half.sign() * if self.flipped { PI - from } else { from },
                    sweep_rad: half.sign() * self.way() * (end - from),
                    to,
                }
            }
        }
    }
}

fn other_end(curve: &Curve, at: Point) -> Point {
    let (start, end) = (curve.start(), curve.end());
    if at.distance(start) <= at.distance(end) {
        end
    } else {
        start
    }
}
