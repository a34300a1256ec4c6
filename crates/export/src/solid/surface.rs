//! The surface that a piece of outline sweeps, and the curve of its seam.

use super::entities::{EntityId, StepFile, real};
use super::outline::Edge;
use quillet_geometry::{Arc, Cubic, Curve, Line, Point};

/// A surface, and whether its own normal points out of the solid.
pub(super) struct Surface {
    pub(super) id: EntityId,
    pub(super) outwards: bool,
}

/// The curve of a seam, and whether it runs the way the edge is travelled.
pub(super) struct Seam {
    pub(super) curve: EntityId,
    pub(super) with_curve: bool,
}

/// Nearer than this two radii are one, mm.
const SAME: f64 = 1e-10;

/// The surface that an edge sweeps round the axis.
pub(super) fn of(file: &mut StepFile, edge: &Edge) -> Surface {
    // The solid is on the right of the outline: travelled along the axis, outside is away from it.
    let away = !edge.backwards;
    match &edge.curve {
        Curve::Line(_) if edge.is_face() => {
            let along = if edge.to().r > edge.from().r {
                -1.0
            } else {
                1.0
            };
            let axes = file.coaxial(edge.from().z, along);
            Surface {
                id: file.put(format_args!("PLANE('',{axes})")),
                outwards: true,
            }
        }
        Curve::Line(line) => Surface {
            id: straight(file, line),
            outwards: away,
        },
        Curve::Arc(arc) => round(file, arc, away),
        Curve::Cubic(cubic) => {
            let curve = spline(file, cubic);
            Surface {
                id: revolved(file, curve),
                outwards: away,
            }
        }
    }
}

/// The surface of a face that goes round the axis only in part; it closes in a direction, rad, away from that.
pub(super) fn in_part(file: &mut StepFile, edge: &Edge, closing: f64) -> Surface {
    file.in_meridian(closing, |file| of(file, edge))
}

/// The curve along which the surface closes, in the meridian plane.
pub(super) fn seam(file: &mut StepFile, edge: &Edge) -> Seam {
    match &edge.curve {
        Curve::Line(Line { start, end }) => {
            let place = file.place(*start);
            let way = *end - *start;
            let length = way.z.hypot(way.r);
            let [x, y, _] = file.outwards();
            let (along, away) = (way.z / length, way.r / length);
            let way = file.direction(away * x, away * y, along);
            let vector = file.put(format_args!("VECTOR('',{way},1.)"));
            let curve = file.put(format_args!("LINE('',{place},{vector})"));
            Seam {
                curve,
                with_curve: !edge.backwards,
            }
        }
        Curve::Arc(arc) => match known(arc) {
            None => {
                let curve = rational(file, arc);
                Seam {
                    curve,
                    with_curve: !edge.backwards,
                }
            }
            Some(_) => {
                let curve = circle(file, arc);
                Seam {
                    curve,
                    with_curve: arc.is_convex() != edge.backwards,
                }
            }
        },
        Curve::Cubic(cubic) => {
            let curve = spline(file, cubic);
            Seam {
                curve,
                with_curve: !edge.backwards,
            }
        }
    }
}

fn straight(file: &mut StepFile, line: &Line) -> EntityId {
    let Line { start, end } = *line;
    if (start.r - end.r).abs() < SAME {
        let axes = file.coaxial(start.z, 1.0);
        return file.put(format_args!(
            "CYLINDRICAL_SURFACE('',{axes},{})",
            real(start.r)
        ));
    }
    // A cone widens along its axes.
    let (narrow, along) = if start.r < end.r {
        (start, 1.0)
    } else {
        (end, -1.0)
    };
    let half_angle = (end.r - start.r).abs().atan2(end.z - start.z);
    let axes = file.coaxial(narrow.z, along);
    file.put(format_args!(
        "CONICAL_SURFACE('',{axes},{},{})",
        real(narrow.r),
        real(half_angle)
    ))
}

fn round(file: &mut StepFile, arc: &Arc, away: bool) -> Surface {
    let centre = arc.centre();
    // The normals of spheres and tori point away from the middle of the circle.
    let outwards = away == arc.is_convex();
    match known(arc) {
        Some(SpecialSurface::Sphere(radius)) => {
            let axes = file.coaxial(centre.z, 1.0);
            let id = file.put(format_args!(
                "SPHERICAL_SURFACE('',{axes},{})",
                real(radius)
            ));
            Surface { id, outwards }
        }
        Some(SpecialSurface::Torus(radius)) => {
            let axes = file.coaxial(centre.z, 1.0);
            let (ring, tube) = (real(centre.r), real(radius));
            let id = file.put(format_args!("TOROIDAL_SURFACE('',{axes},{ring},{tube})"));
            Surface { id, outwards }
        }
        // A swept curve's normal is to the left of its travel.
        None => {
            let curve = rational(file, arc);
            Surface {
                id: revolved(file, curve),
                outwards: away,
            }
        }
    }
}

/// The surface of its own name that an arc sweeps, with the circle's radius.
enum SpecialSurface {
    Sphere(f64),
    Torus(f64),
}

fn known(arc: &Arc) -> Option<SpecialSurface> {
    let (radius, centre) = (arc.circle_radius_mm()?, arc.centre());
    if centre.r.abs() < SAME {
        Some(SpecialSurface::Sphere(radius))
    } else {
        (centre.r > radius + SAME).then_some(SpecialSurface::Torus(radius))
    }
}

fn revolved(file: &mut StepFile, curve: EntityId) -> EntityId {
    let place = file.place(Point::new(0.0, 0.0));
    let axis = file.direction(0.0, 0.0, 1.0);
    let axis = file.put(format_args!("AXIS1_PLACEMENT('',{place},{axis})"));
    file.put(format_args!("SURFACE_OF_REVOLUTION('',{curve},{axis})"))
}

/// A circle in the meridian plane; it runs along the axis where it is farther from it.
fn circle(file: &mut StepFile, arc: &Arc) -> EntityId {
    let [x, y, _] = file.outwards();
    let axes = file.axes(arc.centre(), [y, -x, 0.0], [x, y, 0.0]);
    file.put(format_args!("CIRCLE('',{axes},{})", real(arc.semi_r_mm())))
}

/// An arc of an ellipse as the rational curve of second degree that it is, by its three places and the weight
/// of the middle one (Farin, "Curves and Surfaces for CAGD", on conics): it ends where the arc does, while a
/// whole ellipse about the axis would sweep its surface twice.
pub(super) fn conic(arc: &Arc) -> ([Point; 3], f64) {
    let (centre, semi) = (arc.centre(), Point::new(arc.semi_z_mm(), arc.semi_r_mm()));
    let unit = |at: Point| Point::new((at.z - centre.z) / semi.z, (at.r - centre.r) / semi.r);
    let (start, end) = (unit(arc.start()), unit(arc.end()));
    let whole = 1.0 + start.z * end.z + start.r * end.r;
    // Just short of half a turn the middle point would be out of all reach.
    let middle = (start + end) * (1.0 / whole.max(1e-6));
    let middle = Point::new(centre.z + semi.z * middle.z, centre.r + semi.r * middle.r);
    let weight = (whole.max(1e-6) / 2.0).sqrt();
    ([arc.start(), middle, arc.end()], weight)
}

fn rational(file: &mut StepFile, arc: &Arc) -> EntityId {
    let (places, weight) = conic(arc);
    let places = places.map(|it| file.place(it).to_string()).join(",");
    file.put(format_args!(
        "(BOUNDED_CURVE()B_SPLINE_CURVE(2,({places}),.UNSPECIFIED.,.F.,.F.)\
         B_SPLINE_CURVE_WITH_KNOTS((3,3),(0.,1.),.UNSPECIFIED.)CURVE()GEOMETRIC_REPRESENTATION_ITEM()\
         RATIONAL_B_SPLINE_CURVE((1.,{},1.))REPRESENTATION_ITEM(''))",
        real(weight)
    ))
}

fn spline(file: &mut StepFile, cubic: &Cubic) -> EntityId {
    let places = cubic
        .points()
        .map(|place| file.place(place).to_string())
        .join(",");
    file.put(format_args!(
        "B_SPLINE_CURVE_WITH_KNOTS('',3,({places}),.UNSPECIFIED.,.F.,.F.,(4,4),(0.,1.),.UNSPECIFIED.)"
    ))
}
