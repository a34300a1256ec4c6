//! What a tenth of a millimetre more in diameter, or five thousandths of an inch, does to mass and balance, to the first order.

use super::Sheet;
use crate::sizes::signed;
use quillet_check::PartView;
use quillet_geometry::{Length, Mass};
use quillet_model::{Configured, CutId, Origin, Part, StationId};
use std::f64::consts::PI;
use std::sync::Arc;

/// Slices that a piece of the outline is summed in; a tenth is told to three places.
const SLICES: u32 = 64;

/// How much wider, on diameter: the step that a size is rounded to.
fn wider(sheet: &Sheet) -> Length {
    sheet.sizes().units().step()
}

/// Metal that comes or goes.
struct Change {
    mass_g: f64,
    centre_mm: f64,
}

/// What a cut of a greater diameter changes.
pub(super) fn cut(sheet: &mut Sheet, view: &PartView<'_>, index: CutId) {
    let share = |origin, _| f64::from(u8::from(origin == Origin::Feature(index)));
    report(sheet, view, change(view.part, wider(sheet), share));
}

/// What a greater diameter of a station changes: all of it there, none at its neighbours.
pub(super) fn station(sheet: &mut Sheet, view: &PartView<'_>, index: StationId) {
    let stations = &view.part.stations;
    let own = stations[index].at.to_mm();
    let from = |other: StationId| stations.get(other).map(|it| it.at.to_mm());
    let rising = |z: f64| match index.before().and_then(from) {
        Some(before) => (z - before) / (own - before).max(f64::MIN_POSITIVE),
        None => 1.0,
    };
    let falling = |z: f64| match from(index.after()) {
        // After a step the surface leaves at its other diameter.
        Some(after) if stations[index].step.is_none() => {
            (after - z) / (after - own).max(f64::MIN_POSITIVE)
        }
        _ => 0.0,
    };
    let share = |origin, z| match origin {
        Origin::Outside(it) if it == index => rising(z),
        Origin::Outside(it) if it == index.after() => falling(z),
        _ => 0.0,
    };
    report(sheet, view, change(view.part, wider(sheet), share));
}

/// The change where `share` says, by origin and station (mm), how much of the widening a surface
/// takes part in, 0 to 1.
fn change(part: &Part, wider: Length, share: impl Fn(Origin, f64) -> f64) -> Option<Change> {
    let profiles = part.profiles.as_ref()?;
    let metal = &profiles.metal;
    let outer = metal.outer.segments().iter().map(|it| (1.0, it));
    let inner = metal.inner.iter().flat_map(|chain| chain.segments());
    let (mut mass_g, mut moment) = (0.0, 0.0);
    for (sign, segment) in outer.chain(inner.map(|it| (-1.0, it))) {
        if segment.curve.is_vertical() {
            continue;
        }
        let origin = profiles.origin(segment.tag);
        let (from, to) = (segment.curve.start().z, segment.curve.end().z);
        let slice_mm = (to - from) / f64::from(SLICES);
        for slice in 0..SLICES {
            let z = from + (f64::from(slice) + 0.5) * slice_mm;
            let grown = share(origin, z) * wider.half().to_mm();
            if grown == 0.0 {
                break;
            }
            let radius = segment.curve.radius_at(z);
            let ring_mm3 = PI * ((radius + grown).powi(2) - radius.powi(2)) * slice_mm;
            let density = part
                .material_in(Length::mm(z), Length::mm(radius))?
                .density_g_cm3;
            let ring_g = sign * ring_mm3 * density / 1000.0;
            mass_g += ring_g;
            moment += ring_g * z;
        }
    }
    (mass_g.abs() >= 0.0005).then(|| Change {
        mass_g,
        centre_mm: moment / mass_g,
    })
}

fn report(sheet: &mut Sheet, view: &PartView<'_>, change: Option<Change>) {
    let part = view.part;
    let (Some(change), Some(own)) = (change, part.weigh()) else {
        return;
    };
    let moved = |mass_g: f64, centre_mm: f64, at_mm: f64| {
        change.mass_g * (at_mm - centre_mm) / (mass_g + change.mass_g)
    };
    let balance = moved(own.mass_g, own.centre_mm, change.centre_mm);
    let sizes = sheet.sizes();
    let mut message = format!(
        "about {} g, balance {}",
        signed(change.mass_g, 3),
        sizes.change(balance, 2)
    );
    if let Some((pen, state, mass, at_mm)) = in_a_pen(view, change.centre_mm) {
        let balance = moved(mass.mass_g, mass.centre_mm, at_mm);
        message += &format!("; of {pen} {state} {}", sizes.change(balance, 2));
    }
    let what = format!("{} wider", sizes.one(wider(sheet)));
    sheet.row(&what, &message);
}

/// The first pen that has the part, in the hand if it can be: its name, its state, its mass, and
/// where a station of the part lies in it, mm.
fn in_a_pen<'a>(
    view: &PartView<'a>,
    station_mm: f64,
) -> Option<(&'a str, &'static str, Mass, f64)> {
    view.design.pens.iter().find_map(|pen| {
        let index = pen.parts.position(|it| Arc::ptr_eq(it, view.part))?;
        let states = [Configured::Uncapped, Configured::Posted, Configured::Capped];
        states.into_iter().find_map(|state| {
            let there = pen.assembly.configuration(state)?;
            let at_mm = there.z_mm(index, station_mm)?;
            Some((&*pen.name.text, state.word(), there.filled?, at_mm))
        })
    })
}
