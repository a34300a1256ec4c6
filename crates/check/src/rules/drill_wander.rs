//! `drill-wander`: a deep hole that may wander through its wall.

use crate::{Findings, PartView, Rule, Run, Threshold, shape, words};
use quillet_geometry::Length;
use quillet_model::{Cut, CutId, End, Feature};
use quillet_syntax::{Severity, Size, text};

pub(crate) static RULE: Rule = Rule {
    code: "drill-wander",
    severity: Severity::Warning,
    limit: Some(Threshold::Length),
    page: include_str!("drill-wander.md"),
    run: Run::Part(run),
};

/// Common practice, no published source, as is the rest here.
const USUAL: Length = Length::from_nm(600_000);
const WANDER: f64 = 0.003;
const DEEP: f64 = 5.0;

fn run(view: &PartView<'_>, findings: &mut Findings) {
    let wanted = view.length_limit(&RULE, USUAL);
    for (index, drilled) in view.part.features.with_ids() {
        let Cut::Drill { dia, .. } = &drilled.cut else {
            continue;
        };
        if drilled.to.ratio(*dia) <= DEEP {
            continue;
        }
        let Some(place) = thinnest(view, index, drilled) else {
            continue;
        };
        // A wall that is thin without any wandering is for the other rules.
        if place.wall < wanted || place.left >= wanted {
            continue;
        }
        let finding = RULE
            .at(
                drilled.span,
                text!("{} of wall {} deep, where the {} may have wandered by {}, leaves {}; {} wanted", Size::Rounded(place.wall, 2), Size::Rounded(place.depth, 0), words::sized(drilled), Size::Rounded(place.depth.scaled(WANDER), 2), words::against(place.left, wanted), wanted),
            )
            .hint("turn the outside true to the hole after drilling, or leave more wall");
        findings.push_at(finding, place.station, place.station);
    }
}

/// Where a drilled hole may leave least when it has wandered.
struct Thinnest {
    station: Length,
    depth: Length,
    wall: Length,
    left: Length,
}

fn thinnest(view: &PartView<'_>, index: CutId, drilled: &Feature) -> Option<Thinnest> {
    let (part, profiles) = (view.part, view.part.profiles.as_ref()?);
    let radius = drilled.dia()?.half();
    let (from, to) = shape::left_of(part, &profiles.root.inner, index)?;
    let at = |share: f64| {
        let z = from + (to - from) * share;
        let outside = profiles.root.outer.least_at(z)?;
        let station = Length::mm(z);
        let depth = match drilled.end {
            End::First => station,
            End::Second => part.length - station,
        };
        let wall = Length::mm(outside) - radius;
        let left = wall - depth.scaled(WANDER);
        Some(Thinnest {
            station,
            depth,
            wall,
            left,
        })
    };
    // Close enough together for any outside that is turned by hand.
    let places = (0..=64).map(|nth| f64::from(nth) / 64.0);
    places.filter_map(at).min_by_key(|place| place.left)
}
