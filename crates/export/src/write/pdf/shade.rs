//! Turned surfaces in PDF: each strip clipped out of an axial shading over its own diameter.

use super::{points, trace};
use crate::scene::{Scene, Shaded, SlopeClass, samples};
use crate::write::pdf_stream::Packer;
use pdf_writer::types::FunctionShadingType;
use pdf_writer::{Content, Name, Pdf, Ref};
use quillet_standards::Colour;
use std::collections::BTreeMap;

/// In how many steps a shading is told: finer than the stops lie.
const STEPS: usize = 128;

/// The shadings of all pages, each once, with the name it has on every page.
pub(super) struct Shadings(BTreeMap<(Colour, SlopeClass), (Ref, String)>);

impl Shadings {
    pub(super) fn of(pages: &[Scene], next: &mut Ref) -> Shadings {
        let surfaces = pages.iter().flat_map(Scene::surfaces);
        let keys = surfaces.flat_map(|it| it.strips.iter().map(|strip| (it.colour, strip.slope)));
        let mut all: BTreeMap<_, _> = keys.map(|key| (key, (*next, String::new()))).collect();
        for (number, shading) in all.values_mut().enumerate() {
            *shading = (next.bump(), format!("S{number}"));
        }
        Shadings(all)
    }

    /// Each with its name.
    pub(super) fn named(&self) -> impl Iterator<Item = (Name<'_>, Ref)> {
        self.0
            .values()
            .map(|(id, name)| (Name(name.as_bytes()), *id))
    }

    /// Writes them: from the top of a surface, 1 off the axis, to its foot (ISO 32000-1, 8.7.4.5.3, with a
    /// sampled function, 7.10.2).
    pub(super) fn write(&self, pdf: &mut Pdf, next: &mut Ref, packer: &mut Packer) {
        for ((colour, slope), (id, _)) in &self.0 {
            let function = next.bump();
            let colours = samples(*colour, *slope, STEPS);
            let bytes: Vec<u8> = colours
                .iter()
                .flat_map(|it| [it.red, it.green, it.blue])
                .collect();
            let mut shading = pdf.function_shading(*id);
            shading.shading_type(FunctionShadingType::Axial);
            shading.color_space().device_rgb();
            shading
                .coords([0.0, 1.0, 0.0, -1.0])
                .function(function)
                .extend([true, true]);
            drop(shading);
            let packed = packer.packed(&bytes);
            let mut sampled = pdf.sampled_function(function, &packed);
            sampled
                .domain([0.0, 1.0])
                .range([0.0, 1.0, 0.0, 1.0, 0.0, 1.0]);
            sampled.size([STEPS as i32]).bits_per_sample(8);
            sampled.filter(pdf_writer::Filter::FlateDecode);
        }
    }

    /// Shows a turned surface.
    pub(super) fn show(&self, content: &mut Content, shaded: &Shaded) {
        for strip in &shaded.strips {
            let Some((_, name)) = self.0.get(&(shaded.colour, strip.slope)) else {
                continue;
            };
            content.save_state();
            trace(content, &shaded.outline(strip));
            content.clip_nonzero().end_path();
            let radius = points(strip.radius_mm());
            content.transform([1.0, 0.0, 0.0, radius, 0.0, points(shaded.axis_mm)]);
            content.shading(Name(name.as_bytes()));
            content.restore_state();
        }
    }
}
