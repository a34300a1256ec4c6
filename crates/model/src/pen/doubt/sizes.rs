//! What the sizes of a part, each as closely as it is kept, do to what it weighs: to the first
//! order, so each by the metal between the surface drawn and the surface a little off it.

use crate::{Cut, Feature, Hand, Origin, Part};
use quillet_geometry::{Curve, Length, Mass};
use quillet_syntax::ast::ToleranceKind;
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// Slices that a piece of the outline is summed in.
const SLICES: u32 = 8;

/// A size of a part.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Size {
    /// The diameter of a surface.
    Dia(Origin),
    /// How far from the face a step or a bottom lies.
    Reach(Origin),
    /// How long the part is.
    Length,
}

/// Metal that comes where a size grows by what is kept.
#[derive(Clone, Copy, Default)]
struct Metal {
    mass_g: f64,
    moment: f64,
}

/// What each size takes away and adds at the most, as masses on the part's stations.
pub(super) fn of<'p>(part: &'p Part, hand: &Hand) -> Cow<'p, [(Mass, Mass)]> {
    let known = &part.worked.strays;
    let (by, strays) = known.get_or_init(|| (*hand, reckoned(part, hand)));
    match by == hand {
        true => Cow::Borrowed(strays),
        false => Cow::Owned(reckoned(part, hand)),
    }
}

fn reckoned(part: &Part, hand: &Hand) -> Vec<(Mass, Mass)> {
    let Some(profiles) = &part.profiles else {
        return Vec::new();
    };
    let mut metal: BTreeMap<Size, Metal> = BTreeMap::new();
    let solid = &profiles.metal;
    let outer = solid.outer.segments().iter().map(|it| (1.0, it));
    let inner = solid.inner.iter().flat_map(|bore| bore.segments());
    for (sign, segment) in outer.chain(inner.map(|it| (-1.0, it))) {
        let origin = profiles.origin(segment.tag);
        let inside = sign < 0.0;
        let moves = segment.curve.is_vertical() || matches!(origin, Origin::DrillPoint(_));
        let (size, within) = match moves {
            true => (
                Size::Reach(origin),
                reach(part, hand, origin, inside, &segment.curve),
            ),
            false => (Size::Dia(origin), dia(part, hand, origin, inside)),
        };
        let Some(within) = within.filter(|it| it.is_positive()) else {
            continue;
        };
        let comes = match moves {
            true => shifted(part, &segment.curve, within),
            false => grown(part, &segment.curve, within, sign),
        };
        let sum = metal.entry(size).or_default();
        sum.mass_g += comes.mass_g;
        sum.moment += comes.moment;
    }
    if let Some(comes) = longer(part, hand.keeps(ToleranceKind::Length, part.length)) {
        metal.insert(Size::Length, comes);
    }
    let reported = metal.into_iter().filter(|(_, it)| it.mass_g != 0.0);
    reported
        .map(|(size, it)| {
            let at = it.moment / it.mass_g;
            let grown = Mass::at(it.mass_g, at);
            // A drilled hole comes out over size and never under.
            let shrunk = match is_drilled(part, size) {
                true => Mass::default(),
                false => Mass::at(-it.mass_g, at),
            };
            (shrunk, grown)
        })
        .collect()
}

fn feature(part: &Part, origin: Origin) -> Option<&Feature> {
    part.features.get(origin.feature()?)
}

fn is_drilled(part: &Part, size: Size) -> bool {
    let Size::Dia(origin) = size else {
        return false;
    };
    feature(part, origin).is_some_and(|it| matches!(it.cut, Cut::Drill { .. }))
}

/// How closely a surface's diameter is kept; threads are cut to their own limits, and a broken
/// corner weighs next to nothing.
fn dia(part: &Part, hand: &Hand, origin: Origin, inside: bool) -> Option<Length> {
    match (origin, feature(part, origin)) {
        (Origin::Outside(station), _) => {
            let dia = part.stations.get(station)?.dia;
            Some(hand.keeps(ToleranceKind::Dia, dia))
        }
        (Origin::Tube, _) => Some(hand.caliper()),
        (Origin::Feature(_), Some(feature)) => {
            let kept = match (&feature.cut, inside) {
                (Cut::Thread { .. }, _) => return None,
                (Cut::Drill { .. }, _) => ToleranceKind::Drill,
                (_, true) => ToleranceKind::Bore,
                (_, false) => ToleranceKind::Dia,
            };
            Some(hand.keeps(kept, feature.dia()?))
        }
        _ => None,
    }
}

/// How closely a step or a bottom is kept to its distance from the face.
fn reach(part: &Part, hand: &Hand, origin: Origin, inside: bool, curve: &Curve) -> Option<Length> {
    let kept = if inside {
        ToleranceKind::Depth
    } else {
        ToleranceKind::Shoulder
    };
    let from_face = match feature(part, origin) {
        Some(feature) => feature.to,
        None => Length::mm(curve.start().z),
    };
    let on_face = |z: f64| z < 1e-6 || z > part.length.to_mm() - 1e-6;
    (!on_face(curve.start().z)).then(|| hand.keeps(kept, from_face))
}

/// Metal that comes where a surface is larger on diameter; inside, it goes.
fn grown(part: &Part, curve: &Curve, within: Length, sign: f64) -> Metal {
    let (from, to) = (curve.start().z, curve.end().z);
    let slice_mm = (to - from) / f64::from(SLICES);
    let mut metal = Metal::default();
    for slice in 0..SLICES {
        let z = from + (f64::from(slice) + 0.5) * slice_mm;
        let r = curve.radius_at(z);
        let ring_mm3 = PI * r * within.to_mm() * slice_mm;
        let ring_g = sign * ring_mm3 * density(part, z, r) / 1000.0;
        metal.mass_g += ring_g;
        metal.moment += ring_g * z;
    }
    metal
}

/// Metal that comes where a step or a bottom lies further off.
fn shifted(part: &Part, curve: &Curve, within: Length) -> Metal {
    let (a, b) = (curve.start(), curve.end());
    let step_mm2 = PI * (b.r * b.r - a.r * a.r).abs();
    let z = (a.z + b.z) / 2.0;
    let mass_g = step_mm2 * within.to_mm() * density(part, z, (a.r + b.r) / 2.0) / 1000.0;
    Metal {
        mass_g,
        moment: mass_g * z,
    }
}

/// Metal that comes where the part is longer: at its second end, as wide as that is.
fn longer(part: &Part, within: Length) -> Option<Metal> {
    let solid = &part.profiles.as_ref()?.metal;
    let end = part.length.to_mm();
    let outside = solid.outer.end().r;
    let bores = solid.inner.iter().map(quillet_geometry::Chain::end);
    let bored = bores
        .filter(|it| (it.z - end).abs() < 1e-6)
        .map(|it| it.r * it.r);
    let face_mm2 = PI * (outside * outside - bored.sum::<f64>()).max(0.0);
    let mass_g = face_mm2 * within.to_mm() * density(part, end, outside) / 1000.0;
    Some(Metal {
        mass_g,
        moment: mass_g * end,
    })
}

/// What is there, g/cm³.
fn density(part: &Part, z_mm: f64, radius_mm: f64) -> f64 {
    if let [only] = &**part.blanks() {
        return only.stock.material.density_g_cm3;
    }
    let material = part.material_in(Length::mm(z_mm), Length::mm(radius_mm));
    material.map_or(0.0, |it| it.density_g_cm3)
}
