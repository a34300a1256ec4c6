//! `Path`: connected lines, arcs of ellipses and cubics on the paper.

use super::Xy;

/// Connected lines and curves.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// Where it begins.
    pub start: Xy,
    /// How it goes on.
    pub steps: Vec<PathElement>,
    /// It returns to where it began.
    pub closed: bool,
}

/// How a path goes on from where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PathElement {
    /// Straight to a place.
    Line(Xy),
    /// Round an ellipse with axes along `x` and `y`.
    Arc {
        /// The ellipse's centre.
        centre: Xy,
        /// Half axes along `x` and `y`, mm.
        semi: Xy,
        /// Where on the ellipse it begins, radians, anticlockwise from `x`.
        from_rad: f64,
        /// How far it goes, radians; anticlockwise where positive.
        sweep_rad: f64,
        /// Where it ends.
        to: Xy,
    },
    /// A cubic Bezier curve: two control points and its end.
    Cubic(Xy, Xy, Xy),
}

impl PathElement {
    /// Where it ends.
    pub fn to(&self) -> Xy {
        match self {
            PathElement::Line(to) | PathElement::Cubic(_, _, to) | PathElement::Arc { to, .. } => {
                *to
            }
        }
    }

    /// The place at a parameter of 0..1 of a step that begins at `from`.
    pub fn point(&self, from: Xy, t: f64) -> Xy {
        match *self {
            PathElement::Line(to) => from.towards(to, t),
            PathElement::Arc {
                centre,
                semi,
                from_rad,
                sweep_rad,
                ..
            } => {
                let (sin, cos) = (from_rad + t * sweep_rad).sin_cos();
                centre.moved(semi.x * cos, semi.y * sin)
            }
            PathElement::Cubic(one, two, to) => {
                let (a, b, c) = (
                    from.towards(one, t),
                    one.towards(two, t),
                    two.towards(to, t),
                );
                a.towards(b, t).towards(b.towards(c, t), t)
            }
        }
    }

    /// In how many equal pieces straight lines keep within `tolerance_mm` of it.
    pub fn pieces(&self, from: Xy, tolerance_mm: f64) -> usize {
        // A chord over a parameter step h strays by at most h²/8 of the second derivative.
        let bend = match *self {
            PathElement::Line(_) => return 1,
            PathElement::Arc {
                semi, sweep_rad, ..
            } => semi.x.max(semi.y) * sweep_rad * sweep_rad,
            PathElement::Cubic(one, two, to) => {
                let second =
                    |a: Xy, b: Xy, c: Xy| (a.x - 2.0 * b.x + c.x).hypot(a.y - 2.0 * b.y + c.y);
                6.0 * second(from, one, two).max(second(one, two, to))
            }
        };
        ((bend / 8.0 / tolerance_mm).sqrt().ceil() as usize).clamp(1, 10_000)
    }
}

impl Path {
    /// A path that begins at a place.
    pub fn open(start: Xy) -> Path {
        Path {
            start,
            steps: Vec::new(),
            closed: false,
        }
    }

    /// Goes straight on to a place.
    #[must_use]
    pub fn line(mut self, to: Xy) -> Path {
        self.steps.push(PathElement::Line(to));
        self
    }

    /// Goes on by a step.
    #[must_use]
    pub fn then(mut self, step: PathElement) -> Path {
        self.steps.push(step);
        self
    }

    /// Returns to where it began.
    #[must_use]
    pub fn close(mut self) -> Path {
        self.closed = true;
        self
    }

    /// A closed outline of straight lines.
    pub fn polygon(places: &[Xy]) -> Path {
        let start = places.first().copied().unwrap_or_default();
        places
            .iter()
            .skip(1)
            .fold(Path::open(start), |path, place| path.line(*place))
            .close()
    }

    /// A rectangle from its lower left corner.
    pub fn rectangle(at: Xy, width_mm: f64, height_mm: f64) -> Path {
        Path::polygon(&[
            at,
            at.moved(width_mm, 0.0),
            at.moved(width_mm, height_mm),
            at.moved(0.0, height_mm),
        ])
    }

    /// A circle.
    pub fn circle(centre: Xy, radius_mm: f64) -> Path {
        Path::ellipse(centre, Xy::new(radius_mm, radius_mm))
    }

    /// An ellipse with these half axes along `x` and `y`.
    pub fn ellipse(centre: Xy, semi: Xy) -> Path {
        let start = centre.moved(semi.x, 0.0);
        let half = |from_rad: f64, to: Xy| PathElement::Arc {
            centre,
            semi,
            from_rad,
            sweep_rad: std::f64::consts::PI,
            to,
        };
        let path = Path::open(start).then(half(0.0, centre.moved(-semi.x, 0.0)));
        path.then(half(std::f64::consts::PI, start)).close()
    }

    /// Where it ends.
    pub fn end(&self) -> Xy {
        self.steps.last().map_or(self.start, PathElement::to)
    }

    /// Each step with the place where it begins; a closed path's last line too.
    pub fn legs(&self) -> impl Iterator<Item = (Xy, PathElement)> + '_ {
        let end = self.end();
        let gap = (end.x - self.start.x).hypot(end.y - self.start.y);
        let last = (self.closed && gap > 1e-9).then_some((end, PathElement::Line(self.start)));
        let starts = std::iter::once(self.start).chain(self.steps.iter().map(PathElement::to));
        starts.zip(self.steps.iter().copied()).chain(last)
    }

    /// As places on it, so that straight lines between them keep within `tolerance_mm`.
    pub fn flattened(&self, tolerance_mm: f64) -> Vec<Xy> {
        let mut places = vec![self.start];
        for (from, step) in self.legs() {
            let pieces = step.pieces(from, tolerance_mm);
            places.extend((1..pieces).map(|at| step.point(from, at as f64 / pieces as f64)));
            places.push(step.to());
        }
        places
    }

    /// Moved.
    #[must_use]
    pub fn moved(&self, dx: f64, dy: f64) -> Path {
        let steps = self.steps.iter().map(|step| match *step {
            PathElement::Line(to) => PathElement::Line(to.moved(dx, dy)),
            PathElement::Cubic(a, b, to) => {
                PathElement::Cubic(a.moved(dx, dy), b.moved(dx, dy), to.moved(dx, dy))
            }
            PathElement::Arc {
                centre,
                semi,
                from_rad,
                sweep_rad,
                to,
            } => PathElement::Arc {
                centre: centre.moved(dx, dy),
                semi,
                from_rad,
                sweep_rad,
                to: to.moved(dx, dy),
            },
        });
        Path {
            start: self.start.moved(dx, dy),
            steps: steps.collect(),
            closed: self.closed,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn flattened_curves_keep_within_the_tolerance() {
        let circle = Path::circle(Xy::new(3.0, 4.0), 10.0);
        for tolerance in [0.1, 0.01, 0.001] {
            let places = circle.flattened(tolerance);
            for pair in places.windows(2) {
                let middle = pair[0].towards(pair[1], 0.5);
                let sag = 10.0 - (middle.x - 3.0).hypot(middle.y - 4.0);
                assert!((0.0..=tolerance).contains(&sag), "{sag} for {tolerance}");
            }
        }
    }
}
