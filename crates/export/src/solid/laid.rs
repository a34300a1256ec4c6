//! Several parts where they lie: one behind the other, or put together.

use super::{
    Body, BrokenThrough, Facets, Mesh, NamedMesh, SolidForm, bodies, rings, step, stl, threemf,
};
use quillet_model::{Configured, Part, Pen, Placement};
use quillet_pen::Chosen;
use std::collections::HashSet;
use std::io::{self, Write};

/// Between parts that lie one behind the other, mm.
const APART_MM: f64 = 10.0;
/// Between the seams of two bodies, rad: by the golden angle no two fall together.
const APART_RAD: f64 = 2.399_963;

/// All bodies of some parts, one behind the other, or, where it is said how their pen is held, put
/// together; then with the O-rings in their grooves, where what is bought is wanted.
///
/// # Errors
///
/// A sentence: where a part has no shape, where its bore reaches the outside, or where its pen cannot
/// be held so.
pub fn laid(
    pens: &[&Pen],
    parts: &[Chosen],
    held: Option<Configured>,
    with_bought: bool,
) -> Result<Vec<Body>, String> {
    let mut names = HashSet::new();
    let mut named = |pen: Option<&Pen>, part: &Part| {
        // The same part as another pen sees it.
        let before = !names.insert(part.name.text.clone());
        match pen.filter(|_| before) {
            Some(pen) => format!("{} ({})", part.name.text, pen.name.text),
            None => part.name.text.to_string(),
        }
    };
    let mut all: Vec<Body> = Vec::new();
    let mut end_mm = 0.0;
    for (pen, part) in parts {
        let place = match held {
            Some(held) => match in_pen(*pen, part, held)? {
                Some(place) => place,
                None => continue,
            },
            None => Placement {
                offset_mm: end_mm,
                reversed: false,
            },
        };
        let name = named(*pen, part);
        let broken = |broken: BrokenThrough| {
            let z_mm = place.station(broken.z_mm);
            format!("{name}: the bore breaks through the outside at {z_mm:.3} mm")
        };
        let own = bodies(part, &name, place).map_err(broken)?;
        if own.is_empty() {
            return Err(format!(
                "{name} has no shape yet; see what quillet check says"
            ));
        }
        all.extend(own);
        end_mm += part.length.to_mm() + APART_MM;
    }
    // What is put together has its O-rings in their grooves.
    if let Some(held) = held.filter(|_| with_bought) {
        let settled = pens.iter().filter(|pen| pen.is_settled());
        let there = settled.filter_map(|pen| Some((pen, pen.assembly.configuration(held)?)));
        all.extend(there.flat_map(|(pen, held)| rings(pen, held)));
    }
    Ok(all)
}

/// Where a part of a pen lies; none where it is not there, as a cap that is laid aside.
fn in_pen(pen: Option<&Pen>, part: &Part, held: Configured) -> Result<Option<Placement>, String> {
    let Some(pen) = pen else {
        return Err("there is no pen in this file to put together".into());
    };
    let name = &pen.name.text;
    let configuration = pen.assembly.configuration(held);
    let configuration = configuration
        .ok_or_else(|| format!("{name} cannot be shown {}: no joint says so", held.word()))?;
    let index = pen.part_id(&part.name.text);
    Ok(index.and_then(|index| configuration.places[index]))
}

/// Writes bodies in a form; the faces of a mesh stray by `tolerance_mm` at most.
///
/// # Errors
///
/// Where it cannot be written; of kind `FileTooLarge` where there is more than the form can hold.
pub fn write(
    title: &str,
    bodies: &[Body],
    form: SolidForm,
    tolerance_mm: f64,
    out: &mut dyn Write,
) -> io::Result<()> {
    let turned = |(at, mesh): (usize, Mesh)| mesh.turned(at as f64 * APART_RAD);
    let facets = bodies.iter().map(|body| Facets::of(body, tolerance_mm));
    match form {
        SolidForm::Step => step(title, bodies, out),
        SolidForm::Stl => {
            let facets: Vec<Facets> = facets.collect();
            let meshes = facets.iter().map(Facets::mesh).enumerate().map(turned);
            stl(facets.iter().map(Facets::count).sum(), meshes, out)
        }
        SolidForm::ThreeMf => {
            let colours = bodies.iter().filter_map(|body| body.colour);
            let meshes = facets.map(|it| it.mesh()).enumerate().map(turned);
            let named = bodies.iter().zip(meshes).map(|(body, mesh)| NamedMesh {
                name: body.name.clone(),
                colour: body.colour,
                mesh,
            });
            threemf(title, colours, named, out)
        }
    }
}
