//! `step-under-fingers`: a sharp step where the pen is held.

use crate::{Findings, PenView, Rule, Run, Threshold, spots, words};
use quillet_geometry::{Curve, Length};
use quillet_model::{PartId, Placement, SurfacePoint};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "step-under-fingers",
    severity: Severity::Note,
    limit: Some(Threshold::Length),
    page: include_str!("step-under-fingers.md"),
    run: Run::Pen(run),
};

/// A rise that is felt, in radius, and where fingers are, mm behind the foremost cut part's front;
/// common practice, no published source.
const FELT: Length = Length::from_nm(1_000_000);
const HELD_MM: (f64, f64) = (5.0, 25.0);

fn run(view: &PenView<'_>, findings: &mut Findings) {
    let pen = view.pen;
    let Some(open) = &pen.assembly.uncapped else {
        return;
    };
    if !pen.joints.iter().any(|joint| joint.verb == Verb::Close) {
        return;
    }
    let ends = |part: PartId| {
        let place = open.places[part]?;
        let (a, b) = (place.of(0.0), place.of(pen.parts[part].length.to_mm()));
        Some((a.min(b), a.max(b)))
    };
    let cut = pen.parts.ids().filter(|part| !pen.parts[*part].is_bought());
    let Some(front) = cut
        .clone()
        .filter_map(|part| Some(ends(part)?.0))
        .reduce(f64::min)
    else {
        return;
    };
    let felt = view
        .limit(&RULE)
        .and_then(|line| line.value.as_length())
        .unwrap_or(FELT);
    for part in cut {
        let Some(place) = open.places[part] else {
            continue;
        };
        // What stands out of a joint that does not close will be inside it.
        if view
            .open_joints(part)
            .any(|joint| joint.verb != Verb::Close)
        {
            continue;
        }
        felt_on(view, (part, place), (front, felt), findings);
    }
}

/// The steps of a part at its place that are held and can be felt.
fn felt_on(
    view: &PenView<'_>,
    (part, place): (PartId, Placement),
    (front, felt): (f64, Length),
    findings: &mut Findings,
) {
    let pen = view.pen;
    let Some(profiles) = &pen.parts[part].profiles else {
        return;
    };
    for segment in profiles.crest.outer.segments() {
        let Curve::Line(line) = &segment.curve else {
            continue;
        };
        let z = place.of(line.start.z);
        let held = (HELD_MM.0..=HELD_MM.1).contains(&(z - front));
        if !segment.curve.is_vertical() || !held {
            continue;
        }
        // What another part covers is not felt.
        let (before, after) = (outside(view, z - JUST), outside(view, z + JUST));
        if line.start.r.max(line.end.r) < before.max(after) - JUST {
            continue;
        }
        let rise = Length::mm((after - before).abs());
        if rise <= felt {
            continue;
        }
        let spot = SurfacePoint {
            part,
            origin: profiles.origin(segment.tag),
            station_mm: line.start.z,
            radius_mm: line.start.r,
        };
        let message = text!(
            "a sharp step of {} {} behind the front, where the pen is held",
            words::against(rise, felt),
            Size::Rounded(Length::mm(z - front), 0)
        );
        findings.push(
            RULE.at(spots::span(pen, &spot), message)
                .hint("round or chamfer it, or move it further back"),
        );
    }
}

/// A hair to either side of a step, mm.
const JUST: f64 = 1e-6;

/// The radius of the open pen at a place: that of the fattest part there.
fn outside(view: &PenView<'_>, z: f64) -> f64 {
    let pen = view.pen;
    let Some(open) = &pen.assembly.uncapped else {
        return 0.0;
    };
    let radius = |part: PartId| {
        let station = open.places[part]?.station(z);
        let profiles = pen.parts[part].profiles.as_ref()?;
        profiles.crest.outer.greatest_at(station)
    };
    pen.parts.ids().filter_map(radius).fold(0.0, f64::max)
}
