//! Shells of solids with flats, as entities.

use super::super::entities::{EntityId, StepFile, logical, real};
use super::super::shell::{FaceSurface, Rim, RimCurve, Shell, Spline};
use super::super::surface;

impl StepFile<'_> {
    pub(super) fn faceted(&mut self, shell: &Shell) -> EntityId {
        let corners = shell.corners.iter().map(|at| {
            let place = self.at(*at);
            self.put(format_args!("VERTEX_POINT('',{place})"))
        });
        let corners: Vec<EntityId> = corners.collect();
        let edges = shell.edges.iter();
        let edges: Vec<EntityId> = edges.map(|rim| self.rim(shell, rim, &corners)).collect();
        let faces = shell.faces.iter().map(|face| {
            let (surface, outwards) = self.surface(&face.surface);
            let mut kind = "FACE_OUTER_BOUND";
            let bounds: Vec<String> = face
                .bounds
                .iter()
                .map(|bound| {
                    let ring: Vec<String> = bound
                        .iter()
                        .map(|(edge, forwards)| self.oriented(edges[*edge], *forwards).to_string())
                        .collect();
                    let ring = self.put(format_args!("EDGE_LOOP('',({}))", ring.join(",")));
                    let bound = self.put(format_args!("{kind}('',{ring},.T.)"));
                    kind = "FACE_BOUND";
                    bound.to_string()
                })
                .collect();
            let (bounds, sense) = (bounds.join(","), logical(outwards));
            self.put(format_args!(
                "ADVANCED_FACE('',({bounds}),{surface},{sense})"
            ))
            .to_string()
        });
        let faces: Vec<String> = faces.collect();
        self.put(format_args!("CLOSED_SHELL('',({}))", faces.join(",")))
    }

    fn rim(&mut self, shell: &Shell, rim: &Rim, corners: &[EntityId]) -> EntityId {
        let [from, to] = rim.ends.map(|it| shell.corners[it]);
        let (curve, sense) = match &rim.curve {
            RimCurve::Line => {
                let way = [0, 1, 2].map(|it| to[it] - from[it]);
                let length = way.iter().map(|it| it * it).sum::<f64>().sqrt();
                let place = self.at(from);
                let vector = self.vector(way.map(|it| it / length));
                (self.put(format_args!("LINE('',{place},{vector})")), true)
            }
            RimCurve::Round(place) => {
                // It counts from where the edge begins.
                let [x, y, _] = from;
                let axes = self.turned([0.0, 0.0, place.z], [0.0, 0.0, 1.0], {
                    let far = x.hypot(y);
                    [x / far, y / far, 0.0]
                });
                let radius = real(place.r);
                (self.put(format_args!("CIRCLE('',{axes},{radius})")), true)
            }
            RimCurve::Seam(edge, way) => {
                let seam = self.in_meridian(*way, |file| surface::seam(file, edge));
                (seam.curve, seam.with_curve)
            }
            RimCurve::Spline(spline) => (self.spline(spline), true),
        };
        let [one, two] = rim.ends.map(|it| corners[it]);
        let sense = logical(sense);
        self.put(format_args!("EDGE_CURVE('',{one},{two},{curve},{sense})"))
    }

    /// A surface, and whether its own normal points out of the solid.
    fn surface(&mut self, surface: &FaceSurface) -> (EntityId, bool) {
        match surface {
            FaceSurface::Turned(edge, away) => {
                let surface = match away {
                    None => surface::of(self, edge),
                    Some(away) => surface::in_part(self, edge, *away),
                };
                (surface.id, surface.outwards)
            }
            FaceSurface::Square(z, before) => {
                let axes = self.coaxial(*z, if *before { 1.0 } else { -1.0 });
                (self.put(format_args!("PLANE('',{axes})")), true)
            }
            FaceSurface::Plane([at, out, along]) => {
                let axes = self.turned(*at, *out, *along);
                (self.put(format_args!("PLANE('',{axes})")), true)
            }
            FaceSurface::Ruled(curve, along) => {
                let (curve, vector) = (self.spline(curve), self.vector(*along));
                let surface = format_args!("SURFACE_OF_LINEAR_EXTRUSION('',{curve},{vector})");
                (self.put(surface), true)
            }
        }
    }

    fn spline(&mut self, spline: &Spline) -> EntityId {
        let places = spline.places.iter();
        let places: Vec<String> = places.map(|it| self.at(*it).to_string()).collect();
        let (degree, places) = (spline.degree, places.join(","));
        let listed = |each: Vec<String>| each.join(",");
        let often = listed(spline.knots.iter().map(|it| it.1.to_string()).collect());
        let knots = listed(spline.knots.iter().map(|it| real(it.0)).collect());
        if spline.weights.is_empty() {
            return self.put(format_args!(
                "B_SPLINE_CURVE_WITH_KNOTS('',{degree},({places}),.UNSPECIFIED.,.F.,.F.,\
                 ({often}),({knots}),.UNSPECIFIED.)"
            ));
        }
        let weights = listed(spline.weights.iter().map(|it| real(*it)).collect());
        self.put(format_args!(
            "(BOUNDED_CURVE()B_SPLINE_CURVE({degree},({places}),.UNSPECIFIED.,.F.,.F.)\
             B_SPLINE_CURVE_WITH_KNOTS(({often}),({knots}),.UNSPECIFIED.)CURVE()\
             GEOMETRIC_REPRESENTATION_ITEM()RATIONAL_B_SPLINE_CURVE(({weights}))\
             REPRESENTATION_ITEM(''))"
        ))
    }
}
