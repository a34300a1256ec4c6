//! STEP AP214 (ISO 10303-21): exact solids of revolution, and flats on them.

mod shell;

use super::entities::{EntityId, StepFile, logical, quoted, real};
use super::outline::{Body, EdgeLoop, on_axis};
use super::shell::Shell;
use super::surface;
use crate::mark::MARK;
use quillet_geometry::Point;
use std::io::{self, Write};

/// Writes solids as one STEP file, each a product of its own, millimetres.
///
/// Faces are planes, cylinders, cones, spheres and tori where they are such, else surfaces of
/// revolution of a B-spline, rational for an ellipse. Flats are planes, or where they follow a round outline that
/// outline moved straight along; where their edges are neither straight nor in proportion to the outline, they are
/// cubics that stray by 1e-5 mm at most. A body's colour is on all its faces. There is no date in it: the
/// same solid gives the same bytes.
///
/// # Errors
///
/// Where it cannot be written.
pub fn step(title: &str, bodies: &[Body], out: &mut dyn Write) -> io::Result<()> {
    let mut file = StepFile::new(out, &header(title, bodies));
    let setting = file.setting();
    let mut styled = Vec::new();
    for body in bodies {
        let solid = file.solid(body);
        file.product(&body.name, solid, setting);
        styled.extend(body.colour.map(|colour| file.styled(solid, colour)));
    }
    file.presented(&styled, setting.shape);
    file.end("ENDSEC;\nEND-ISO-10303-21;\n")
}

fn header(title: &str, bodies: &[Body]) -> String {
    format!(
        "ISO-10303-21;\nHEADER;\n\
         FILE_DESCRIPTION(('{}: threads are plain cylinders of equal volume',{}'{MARK}'),'2;1');\n\
         FILE_NAME('{}','1970-01-01T00:00:00',(''),(''),'','','');\n\
         FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));\nENDSEC;\nDATA;\n",
        quoted(title),
        left_out(bodies),
        quoted(title)
    )
}

/// A line of the description for each body that lacks something of its part.
fn left_out(bodies: &[Body]) -> String {
    let lacking = bodies.iter().filter(|body| !body.left_out.is_empty());
    let lines = lacking.map(|body| {
        let without = body.left_out.join(", ");
        format!("'{}: without these cuts: {without}',", quoted(&body.name))
    });
    lines.collect()
}

/// What all products of a file share.
#[derive(Clone, Copy)]
struct ProductContext {
    product: EntityId,
    definition: EntityId,
    shape: EntityId,
}

impl StepFile<'_> {
    fn solid(&mut self, body: &Body) -> EntityId {
        let runs = body.runs.iter();
        let cut = runs.clone().map(|run| Shell::of(run, &body.flats));
        let cut: Option<Vec<Shell>> = match body.flats.is_empty() {
            true => None,
            false => cut.collect(),
        };
        let shells: Vec<EntityId> = match cut {
            Some(shells) => shells.iter().map(|it| self.faceted(it)).collect(),
            None => runs.map(|run| self.shell(run)).collect(),
        };
        let Some((outer, voids)) = shells.split_first() else {
            return self.put(format_args!("CLOSED_SHELL('',())"));
        };
        let name = quoted(&body.name);
        if voids.is_empty() {
            return self.put(format_args!("MANIFOLD_SOLID_BREP('{name}',{outer})"));
        }
        let voids: Vec<String> = voids
            .iter()
            .map(|shell| {
                self.put(format_args!("ORIENTED_CLOSED_SHELL('',*,{shell},.T.)"))
                    .to_string()
            })
            .collect();
        self.put(format_args!(
            "BREP_WITH_VOIDS('{name}',{outer},({}))",
            voids.join(",")
        ))
    }

    fn shell(&mut self, run: &EdgeLoop) -> EntityId {
        let starts: Vec<Corner> = run
            .edges
            .iter()
            .map(|edge| self.corner(edge.from()))
            .collect();
        let end = if run.is_loop() {
            starts[0]
        } else {
            self.corner(run.edges[run.edges.len() - 1].to())
        };
        let ends = starts.iter().skip(1).copied().chain([end]);
        let corners: Vec<(Corner, Corner)> = starts.iter().copied().zip(ends).collect();
        let faces: Vec<String> = run
            .edges
            .iter()
            .zip(corners)
            .map(|(edge, (from, to))| {
                let surface = surface::of(self, edge);
                let bounds = if edge.is_face() {
                    self.rings(edge.from().r < edge.to().r, from, to)
                } else {
                    let seam = surface::seam(self, edge);
                    self.band(from, to, seam)
                };
                let sense = logical(surface.outwards);
                let id = surface.id;
                self.put(format_args!("ADVANCED_FACE('',({bounds}),{id},{sense})"))
                    .to_string()
            })
            .collect();
        self.put(format_args!("CLOSED_SHELL('',({}))", faces.join(",")))
    }

    /// A corner of the outline: a vertex, and the circle it sweeps unless it is on the axis.
    fn corner(&mut self, at: Point) -> Corner {
        let at = if on_axis(at) {
            Point::new(at.z, 0.0)
        } else {
            at
        };
        let place = self.place(at);
        let vertex = self.put(format_args!("VERTEX_POINT('',{place})"));
        let circle = (at.r > 0.0).then(|| {
            let axes = self.coaxial(at.z, 1.0);
            let circle = self.put(format_args!("CIRCLE('',{axes},{})", real(at.r)));
            self.put(format_args!(
                "EDGE_CURVE('',{vertex},{vertex},{circle},.T.)"
            ))
        });
        Corner { vertex, circle }
    }

    /// The bounds of a flat face: one circle, or two.
    fn rings(&mut self, outwards: bool, from: Corner, to: Corner) -> String {
        let (outer, inner) = if outwards { (to, from) } else { (from, to) };
        let mut bounds = Vec::new();
        for (kind, corner) in [("FACE_OUTER_BOUND", outer), ("FACE_BOUND", inner)] {
            // A face is left of its edges seen from outside: with the solid on the right of the
            // outline, the circle it comes from runs forwards and the one it goes to backwards.
            let forwards = corner.vertex == from.vertex;
            if let Some(circle) = corner.circle {
                let edge = self.oriented(circle, forwards);
                let ring = self.put(format_args!("EDGE_LOOP('',({edge}))"));
                bounds.push(self.put(format_args!("{kind}('',{ring},.T.)")).to_string());
            }
        }
        bounds.join(",")
    }

    /// The bound of any other face: round, along the seam, back round, back along the seam.
    fn band(&mut self, from: Corner, to: Corner, seam: surface::Seam) -> String {
        let sense = logical(seam.with_curve);
        let curve = seam.curve;
        let (one, two) = (from.vertex, to.vertex);
        let seam = self.put(format_args!("EDGE_CURVE('',{one},{two},{curve},{sense})"));
        let mut edges = Vec::new();
        let mut put = |file: &mut StepFile, edge: Option<EntityId>, forwards| {
            if let Some(edge) = edge {
                edges.push(file.oriented(edge, forwards).to_string());
            }
        };
        put(self, from.circle, true);
        put(self, Some(seam), true);
        put(self, to.circle, false);
        put(self, Some(seam), false);
        let ring = self.put(format_args!("EDGE_LOOP('',({}))", edges.join(",")));
        self.put(format_args!("FACE_OUTER_BOUND('',{ring},.T.)"))
            .to_string()
    }

    fn oriented(&mut self, edge: EntityId, forwards: bool) -> EntityId {
        self.put(format_args!(
            "ORIENTED_EDGE('',*,*,{edge},{})",
            logical(forwards)
        ))
    }

    fn setting(&mut self) -> ProductContext {
        let application = self.put(format_args!(
            "APPLICATION_CONTEXT('core data for automotive mechanical design processes')"
        ));
        self.put(format_args!(
            "APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,{application})"
        ));
        let product = self.put(format_args!(
            "PRODUCT_CONTEXT('',{application},'mechanical')"
        ));
        let definition = self.put(format_args!(
            "PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')"
        ));
        let length = self.put(format_args!(
            "(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))"
        ));
        let angle = self.put(format_args!(
            "(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))"
        ));
        let solid = self.put(format_args!(
            "(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())"
        ));
        let within = self.put(format_args!(
            "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-7),{length},'distance_accuracy_value','')"
        ));
        let shape = self.put(format_args!(
            "(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({within}))\
             GLOBAL_UNIT_ASSIGNED_CONTEXT(({length},{angle},{solid}))REPRESENTATION_CONTEXT('',''))"
        ));
        ProductContext {
            product,
            definition,
            shape,
        }
    }

    fn product(&mut self, name: &str, solid: EntityId, setting: ProductContext) {
        let name = quoted(name);
        let ProductContext {
            product,
            definition,
            shape,
        } = setting;
        let product = self.put(format_args!("PRODUCT('{name}','{name}','',({product}))"));
        self.put(format_args!(
            "PRODUCT_RELATED_PRODUCT_CATEGORY('part','',({product}))"
        ));
        let formation = self.put(format_args!(
            "PRODUCT_DEFINITION_FORMATION('','',{product})"
        ));
        let defined = self.put(format_args!(
            "PRODUCT_DEFINITION('design','',{formation},{definition})"
        ));
        let of = self.put(format_args!("PRODUCT_DEFINITION_SHAPE('','',{defined})"));
        let axes = self.coaxial(0.0, 1.0);
        let shown = self.put(format_args!(
            "ADVANCED_BREP_SHAPE_REPRESENTATION('{name}',({axes},{solid}),{shape})"
        ));
        self.put(format_args!(
            "SHAPE_DEFINITION_REPRESENTATION({of},{shown})"
        ));
    }
}

#[derive(Clone, Copy)]
struct Corner {
    vertex: EntityId,
    circle: Option<EntityId>,
}

#[cfg(test)]
mod tests;
