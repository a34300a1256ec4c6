//! O-rings of a pen as bodies of their own, in the grooves that take them.

use super::Body;
use super::pieces::placed;
use crate::colours;
use quillet_model::{Configuration, Pen};

/// The O-rings of a pen where they lie, squeezed by what is there and of the volume that they were bought
/// with; each named with the part whose groove it lies in.
pub fn rings(pen: &Pen, configuration: &Configuration) -> Vec<Body> {
    let each = pen.assembly.rings.iter().filter_map(|ring| {
        let place = (*configuration.places.get(ring.part)?)?;
        let solid = ring.shape(pen, configuration)?.solid()?;
        let host = &pen.parts[ring.part].name.text;
        let name = format!("{} in {host}", ring.ring.name.text);
        let body = placed(&name, place, &solid.outer, &solid.inner).ok()?;
        Some(body.coloured(colours::whole(&ring.ring)))
    });
    each.collect()
}
