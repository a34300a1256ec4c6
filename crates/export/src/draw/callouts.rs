//! Where parts touch and what is left between them, numbered for a drawing.

use super::figures::LengthFormat;
use quillet_check::chain;
use quillet_model::{AtRest, Clearance, ClearanceKind, Pen, SurfacePoint, Touch};
use quillet_syntax::ast::Verb;

/// A numbered place of a drawing and what the legend says of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Callout {
    /// Its number.
    pub number: usize,
    /// Something touches there; else something stays clear.
    pub touches: bool,
    /// Where: a part of the pen, a station on it, a radius, mm.
    pub(super) spot: SurfacePoint,
    /// What the legend says.
    pub caption: String,
    /// What a clearance loses at worst, size by size.
    pub less: String,
    /// The two places alone: `barrel shoulder on cap mouth`.
    pub between: String,
    /// What is left is beside what passes, not before it.
    pub passing: bool,
    /// What is left of a clearance, as drawn and at worst; nothing where it touches.
    pub left: Option<(String, String)>,
}

/// Which joints one view of a pen is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum CalloutSubject {
    /// The cap joint.
    Capped,
    /// Those that stay together.
    Uncapped,
    /// The cap on the tail.
    Posted,
}

/// The callouts of the joints that a view is about, numbered on from `first`.
pub(super) fn callouts(
    pen: &Pen,
    about: CalloutSubject,
    first: usize,
    figures: LengthFormat,
) -> Vec<Callout> {
    let joints = pen.joints.iter().zip(&pen.assembly.joints);
    // Where parts rest that rest on something missing is not told.
    let known = joints.filter(|(_, rest)| pen.is_settled() && !rest.verdict.upset);
    let meant = known.filter(|(joint, rest)| {
        // What goes with the cap is not there while writing.
        let open = pen.assembly.uncapped.as_ref();
        let is_open = open.is_some_and(|it| it.z_mm(joint.male.part, 0.0).is_some());
        let view = match joint.verb {
            Verb::Post => CalloutSubject::Posted,
            Verb::Close => CalloutSubject::Capped,
            _ if is_open || pen.assembly.capped.is_none() => CalloutSubject::Uncapped,
            _ => CalloutSubject::Capped,
        };
        view == about && !rest.redundant
    });
    let found: Vec<Callout> = meant
        .flat_map(|(joint, rest)| of_joint(pen, joint.verb, rest, figures))
        .collect();
    let numbered = found.into_iter().enumerate();
    numbered
        .map(|(at, callout)| Callout {
            number: first + at,
            ..callout
        })
        .collect()
}

/// The callouts of a joint, not yet numbered.
fn of_joint(pen: &Pen, verb: Verb, rest: &AtRest, figures: LengthFormat) -> Vec<Callout> {
    let mut found: Vec<Callout> = Vec::new();
    for touch in &rest.touches {
        found.push(Callout {
            number: 0,
            touches: true,
            spot: touch.female,
            caption: touching(pen, touch, figures),
            less: String::new(),
            between: on(pen, touch, figures),
            passing: false,
            left: None,
        });
    }
    for kind in [
        ClearanceKind::Ahead,
        ClearanceKind::Corner,
        ClearanceKind::RadialClearance,
    ] {
        // A cap on the tail is to hold; what is within the barrel does not pass it.
        if verb == Verb::Post && kind == ClearanceKind::RadialClearance {
            continue;
        }
        // What does not pass at all is for a finding to tell.
        let Some((tightest, worse)) = rest.tightest(kind) else {
            continue;
        };
        for it in [tightest].into_iter().chain(worse) {
            let it = to_metal(rest, it);
            if is_stopped(rest, it) {
                continue;
            }
            let between = to(pen, it, figures);
            // The plane of a hole's point comes before the point: one figure tells of both.
            let behind = behind(rest, it);
            found.retain(|known| {
                behind
                    .iter()
                    .all(|it| known.between != to(pen, it, figures))
            });
            if found.iter().any(|known| known.between == between) {
                continue;
            }
            found.push(Callout {
                number: 0,
                touches: false,
                spot: it.male,
                caption: clear(pen, it, figures),
                less: chain::words(pen, &it.chain).in_units(figures.0).to_string(),
                between,
                passing: kind == ClearanceKind::RadialClearance,
                left: Some((
                    figures.rounded(it.nominal_mm, 2),
                    figures.rounded(it.least_mm, 2),
                )),
            });
        }
    }
    found
}

/// What stands ahead of a face against which its part bears already is never come to.
fn is_stopped(rest: &AtRest, it: &Clearance) -> bool {
    let is_same = |touch: &Touch| {
        let faces = [touch.female, it.female];
        let apart = faces[0].station_mm - faces[1].station_mm;
        faces[0].part == faces[1].part && touch.male.part == it.male.part && apart.abs() < 1e-3
    };
    it.kind == ClearanceKind::Ahead && rest.touches.iter().any(is_same)
}

/// What the same place of a part comes to behind the plane of a hole's point.
fn behind<'r>(rest: &'r AtRest, it: &Clearance) -> Vec<&'r Clearance> {
    let is_behind = |other: &&Clearance| {
        other.kind == ClearanceKind::Ahead
            && (other.male.part, other.female.part) == (it.male.part, it.female.part)
            && (other.male.station_mm - it.male.station_mm).abs() < 1e-3
            && other.nominal_mm >= it.nominal_mm
    };
    match it.kind {
        ClearanceKind::Corner => rest.clearances.iter().filter(is_behind).collect(),
        _ => Vec::new(),
    }
}

/// The plane in which a drilled hole's point begins is no metal: where it may be passed, what stands behind
/// it counts.
fn to_metal<'r>(rest: &'r AtRest, it: &'r Clearance) -> &'r Clearance {
    if it.kind != ClearanceKind::Corner || it.least_mm > 0.0 {
        return it;
    }
    let parts = |it: &Clearance| (it.male.part, it.female.part);
    let all = rest.clearances.iter();
    let behind =
        all.filter(|other| other.kind == ClearanceKind::Ahead && parts(other) == parts(it));
    let nearest = behind.min_by(|a, b| a.least_mm.total_cmp(&b.least_mm));
    nearest.unwrap_or(it)
}

fn on(pen: &Pen, touch: &Touch, figures: LengthFormat) -> String {
    let [male, female] = [touch.male, touch.female].map(|it| named(pen, it, figures));
    format!("{male} on {female}")
}

fn to(pen: &Pen, clearance: &Clearance, figures: LengthFormat) -> String {
    let [male, female] = [clearance.male, clearance.female].map(|it| named(pen, it, figures));
    format!("{male} to {female}")
}

fn touching(pen: &Pen, touch: &Touch, figures: LengthFormat) -> String {
    let places = on(pen, touch, figures);
    match touch.spare_mm {
        spare if spare < 5e-4 => format!("{places}: touches"),
        spare => format!("{places}: {} later", figures.length(spare, 3)),
    }
}

fn clear(pen: &Pen, clearance: &Clearance, figures: LengthFormat) -> String {
    let places = to(pen, clearance, figures);
    let way = match clearance.kind {
        ClearanceKind::Ahead => "along the axis",
        ClearanceKind::Corner => "to the plane of its point",
        ClearanceKind::RadialClearance => "a side in passing",
    };
    let (nominal, least) = (clearance.nominal_mm, clearance.least_mm);
    format!(
        "{places}: {} {way}, {} at worst",
        figures.length(nominal, 2),
        figures.rounded(least, 2)
    )
}

/// A place in a maker's words: a face by its name, else the part and the station.
fn named(pen: &Pen, spot: SurfacePoint, figures: LengthFormat) -> String {
    let Some(part) = pen.parts.get(spot.part) else {
        return String::new();
    };
    let face = part
        .faces
        .iter()
        .find(|face| (face.at.to_mm() - spot.station_mm).abs() < 1e-3);
    match face {
        Some(face) => format!("{} {}", part.name.text, face.name.text),
        None => format!("{} at {}", part.name.text, figures.number(spot.station_mm)),
    }
}
