//! By how much a surface may come out other than drawn.

use super::Spot;
use crate::{Cut, Part};
use quillet_standards::thread;

/// How far a surface may stand from where it is drawn towards a mate, mm.
///
/// Threads by their limits of size; a drill cuts no smaller than itself, other diameters within
/// 0.05 mm, depths within 0.5 mm and shoulders within 0.1 mm (common practice, no published
/// source); a bought part is as measured, but a nib may be set 1 mm further out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tolerance {
    /// Along the axis, mm.
    pub(crate) axial_mm: f64,
    /// In radius, mm.
    pub(crate) radial_mm: f64,
}

/// How far a nib may be set out of its place.
pub(crate) const NIB_MM: f64 = 1.0;
const DEPTH_MM: f64 = 0.5;
const SHOULDER_MM: f64 = 0.1;
const TURNED_RADIUS_MM: f64 = 0.025;

/// The tolerance of a place on a part.
pub(crate) fn tolerance(part: &Part, spot: &Spot) -> Tolerance {
    let feature = spot
        .origin
        .feature()
        .and_then(|index| part.features.get(index));
    if part.bought {
        return Tolerance {
            axial_mm: 0.0,
            radial_mm: 0.0,
        };
    }
    let Some(feature) = feature else {
        return Tolerance {
            axial_mm: SHOULDER_MM,
            radial_mm: TURNED_RADIUS_MM,
        };
    };
    let axial_mm = if feature.is_inside() {
        DEPTH_MM
    } else {
        SHOULDER_MM
    };
    let radial_mm = match &feature.cut {
        Cut::Drill { .. } => 0.0,
        Cut::Thread { thread, .. } => thread_radius_mm(&thread.thread, feature.is_inside()),
        _ => TURNED_RADIUS_MM,
    };
    Tolerance {
        axial_mm,
        radial_mm,
    }
}

/// How far a crest may stand proud of its basic size, in radius: of the two sides, only an inside
/// thread of a class above H, or an outside one above h, ever does.
fn thread_radius_mm(form: &thread::ThreadForm, inside: bool) -> f64 {
    let on_diameter = if inside {
        let limits = form.internal_limits(form.class(thread::Side::Internal));
        limits.map_or(0.0, |it| {
            form.minor_diameter().to_mm() - it.minor.min().to_mm()
        })
    } else {
        let limits = form.external_limits(form.class(thread::Side::External));
        limits.map_or(0.0, |it| it.major.max().to_mm() - form.major().to_mm())
    };
    (on_diameter / 2.0).max(0.0)
}
