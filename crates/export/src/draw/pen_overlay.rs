//! An old shape of a whole pen under its new one, by what is seen of it from outside.

use super::overlay::{head, scale_that_fits, scale_words, shapes};
use super::view::ViewTransform;
use crate::scene::{Scene, Xy};
use quillet_geometry::{Chain, Point, Tag};
use quillet_model::{Configured, Pen, Solid};

/// How wide the picture is, and how long the pen may be on it, mm.
const WIDTH_MM: f64 = 186.0;
const LONGEST_MM: f64 = 164.0;
/// Stations stand no further apart than this, mm; a step takes so little.
const STEP_MM: f64 = 0.1;
const HERE_MM: f64 = 1e-4;

/// A pen's old outline dashed, its new one solid, what is gone hatched and what has come in ink; none
/// where either could not be put together so. Radii are drawn `stretch` times as high.
pub fn pen_overlay(old: &Pen, new: &Pen, configured: Configured, stretch: f64) -> Option<Scene> {
    let (was, is) = (silhouette(old, configured)?, silhouette(new, configured)?);
    let long = was.outer.end().z.max(is.outer.end().z);
    let most = |it: &Solid| {
        it.outer
            .segments()
            .iter()
            .map(|it| it.curve.start().r)
            .fold(0.0, f64::max)
    };
    let radius = f64::max(most(&was), most(&is));
    let scale = scale_that_fits(long, radius * stretch, stretch)?;
    let half_mm = radius * scale * stretch;
    let height = 26.0 + 2.0 * half_mm;
    let word = configured.word();
    let mut scene = Scene::new(format!("{word}, old under new"), WIDTH_MM, height);
    scene.scale = scale;
    let left = (WIDTH_MM - LONGEST_MM) / 2.0;
    head(
        &mut scene,
        &format!("{word}, old under new, {}", scale_words(scale, stretch)),
        left,
    );
    let origin = Xy::new(left, height - 18.0 - half_mm);
    shapes(
        &mut scene,
        ViewTransform::new(origin, scale).stretched(stretch),
        (&was, &is),
        long,
    );
    Some(scene)
}

/// What is seen of a pen from outside, as one solid.
fn silhouette(pen: &Pen, configured: Configured) -> Option<Solid> {
    if !pen.is_settled() {
        return None;
    }
    let it = pen.assembly.configuration(configured)?;
    let placed = pen.parts.iter().zip(&it.places);
    let placed = placed.filter_map(|(part, place)| Some((part.profiles.as_ref()?, (*place)?)));
    let placed: Vec<_> = placed.collect();
    let mut stations: Vec<f64> = Vec::new();
    for (profiles, place) in &placed {
        let outer = &profiles.crest.outer;
        let knots = outer.segments().iter().map(|it| it.curve.end().z);
        for z in knots.chain([outer.start().z]) {
            let z = place.of(z);
            stations.extend([z - HERE_MM, z + HERE_MM]);
        }
    }
    stations.sort_by(f64::total_cmp);
    let (first, last) = (*stations.first()?, *stations.last()?);
    let steps = ((last - first) / STEP_MM).ceil().clamp(1.0, 20_000.0) as u32;
    stations
        .extend((0..=steps).map(|at| first + (last - first) * f64::from(at) / f64::from(steps)));
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|a, b| (*a - *b).abs() < HERE_MM / 2.0);
    let widest = |z: f64| {
        let each = placed
            .iter()
            .filter_map(|(profiles, place)| profiles.crest.outer.greatest_at(place.station(z)));
        each.fold(0.0, f64::max)
    };
    let places: Vec<Point> = stations
        .into_iter()
        .map(|z| Point::new(z, widest(z)))
        .collect();
    Some(Solid {
        outer: Chain::polyline(Tag::default(), &places)?,
        inner: Vec::new(),
    })
}
