//! `wont-pass`: a throat too narrow for what must go through it.

use super::stops_early;
use crate::{Findings, JointView, Rule, Run, Threshold, spots, words};
use quillet_geometry::{Chain, Length};
use quillet_model::{
    AtRest, ClearanceKind, Cut, DrillName, Origin, Part, Pen, Spot, StoppedBy, TOUCHING_MM, Touch,
};
use quillet_syntax::ast::Verb;
use quillet_syntax::{Finding, Severity};

pub(crate) static RULE: Rule = Rule {
    code: "wont-pass",
    severity: Severity::Error,
    limit: Some(Threshold::Length),
    page: include_str!("wont-pass.md"),
    run: Run::Joint(run),
};

/// What a converter or cartridge of the usual size wants to pass freely: common practice, no
/// published source.
const CONVERTER: Length = Length::from_nm(8_000_000);
/// From this size on it is one of the usual size.
const USUAL: Length = Length::from_nm(7_000_000);
/// Room for a slimmer one, on diameter.
const ROOM: Length = Length::from_nm(500_000);

fn run(view: &JointView<'_>, findings: &mut Findings) {
    let Some(rest) = view.at_rest().filter(|rest| !rest.redundant) else {
        return;
    };
    if let Some(touch) = blocked(view, rest) {
        let own = touch.male.part == view.joint.male.part;
        if own || !stops_early::upset(view, rest) {
            findings.push(too_fat(view, touch));
        }
        return;
    }
    tight(view, rest)
        .into_iter()
        .for_each(|finding| findings.push(finding));
}

/// What stops the male before it is in, or a part that goes with it at a step it should pass.
pub(super) fn blocked<'r>(view: &JointView<'_>, rest: &'r AtRest) -> Option<&'r Touch> {
    if rest.stopped_by != StoppedBy::Contact || matches!(view.joint.verb, Verb::Post) {
        return None;
    }
    let parts = &view.pen.pen.parts;
    rest.touches.iter().find(|touch| {
        let female = &parts[touch.female.part];
        let own = touch.male.part == view.joint.male.part;
        let goes_on = beyond(female, &touch.female, rest).is_some_and(|radius| radius > 0.0)
            && !is_bottom(female, &touch.female);
        match own {
            true => goes_on && rest.goes_in_mm <= TOUCHING_MM,
            false => goes_on && rest.short_mm > TOUCHING_MM,
        }
    })
}

/// Whether a place is on the point that a drill leaves at the end of a blind hole: what comes to
/// it is too long, not too fat.
fn is_bottom(part: &Part, spot: &Spot) -> bool {
    let Some(profiles) = &part.profiles else {
        return false;
    };
    let mut pieces = profiles.crest.inner.iter().flat_map(Chain::segments);
    matches!(spot.origin, Origin::DrillPoint(_))
        && pieces.any(|piece| {
            let least = piece.curve.start().r.min(piece.curve.end().r);
            profiles.origin(piece.tag) == spot.origin && least < 1e-6
        })
}

/// The bore's radius just beyond a place, on the way in.
fn beyond(female: &Part, spot: &Spot, rest: &AtRest) -> Option<f64> {
    let profiles = female.profiles.as_ref()?;
    let (_, place) = rest.females.iter().find(|(part, _)| *part == spot.part)?;
    let just = if place.reversed { -1e-3 } else { 1e-3 };
    let at = spot.station_mm + just;
    let inside = |chain: &Chain| chain.radii_at(at).map(|(a, b)| a.min(b));
    profiles
        .crest
        .inner
        .iter()
        .filter_map(inside)
        .reduce(f64::max)
}

fn too_fat(view: &JointView<'_>, touch: &Touch) -> Finding {
    let pen = view.pen.pen;
    // The female may be what goes in: a converter on a feed goes down the section's bore.
    let (one, other) = (Ring::at(pen, &touch.male), Ring::at(pen, &touch.female));
    let inward = one.hole_mm > 1e-6 && other.outside_mm > one.hole_mm - 1e-6 && one.holds(&other);
    let (thin, narrow, fat_mm) = match inward {
        true => (&touch.female, &touch.male, other.outside_mm),
        false => (&touch.male, &touch.female, one.outside_mm),
    };
    let (male, female) = (&pen.parts[thin.part], &pen.parts[narrow.part]);
    let bore = bore_at(female, narrow).unwrap_or(*narrow);
    let (fat, throat) = (
        Length::mm(fat_mm).twice(),
        Length::mm(bore.radius_mm).twice(),
    );
    let (mut place, throat) = (spots::words(pen, &bore), words::dia(throat));
    if !place.contains(&throat) {
        place = format!("{place} ({throat})");
    }
    let message = format!(
        "{} ({}) won't pass {place}",
        male.name.text,
        words::dia(fat),
    );
    let finding = RULE
        .at(view.joint.head, message)
        .label(spots::span(pen, &bore), "the throat")
        .label(spots::span(pen, thin), "too fat for it");
    widened(female, &bore, wanted(male, fat), finding)
}

/// A part across its axis at a place.
struct Ring {
    hole_mm: f64,
    outside_mm: f64,
}

impl Ring {
    fn at(pen: &Pen, spot: &Spot) -> Ring {
        let Some(profiles) = &pen.parts[spot.part].profiles else {
            return Ring {
                hole_mm: 0.0,
                outside_mm: spot.radius_mm,
            };
        };
        let radii = profiles.crest.outer.radii_at(spot.station_mm);
        Ring {
            hole_mm: profiles.crest.bore_radius(spot.station_mm),
            outside_mm: radii.map_or(0.0, |(a, b)| a.max(b)).max(spot.radius_mm),
        }
    }

    /// Whether the other is meant to go in it: both its hole and its outside are wider.
    fn holds(&self, other: &Ring) -> bool {
        self.hole_mm > other.hole_mm && self.outside_mm > other.outside_mm
    }
}

/// The bore at a place, at its narrowest: a drill's point comes down to the hole beyond it.
fn bore_at(part: &Part, spot: &Spot) -> Option<Spot> {
    let profiles = part.profiles.as_ref()?;
    let mut pieces = profiles.crest.inner.iter().flat_map(Chain::segments);
    let piece = pieces.find(|piece| {
        let on = piece.curve.spans(spot.station_mm) && !piece.curve.is_vertical();
        on && (piece.curve.radius_at(spot.station_mm) - spot.radius_mm).abs() < 1e-6
    })?;
    let (start, end) = (piece.curve.start(), piece.curve.end());
    // Amid the bore, where no face lies.
    Some(Spot {
        origin: profiles.origin(piece.tag),
        station_mm: (start.z + end.z) / 2.0,
        radius_mm: start.r.min(end.r),
        ..*spot
    })
}

/// Where a converter does pass, but by less than is usual.
fn tight(view: &JointView<'_>, rest: &AtRest) -> Vec<Finding> {
    let pen = view.pen.pen;
    let through = rest
        .clearances
        .iter()
        .filter(|it| it.kind == ClearanceKind::Throat);
    through
        .filter_map(|it| {
            let (male, female) = (&pen.parts[it.male.part], &pen.parts[it.female.part]);
            male.holds_ml?;
            if is_bottom(female, &it.female) {
                return None;
            }
            let own = |part: usize| [view.joint.male.part, view.joint.female.part].contains(&part);
            let fat = Length::mm(it.male.radius_mm).twice();
            let throat = Length::mm(it.female.radius_mm).twice();
            let wanted = view.length_limit(&RULE, wanted(male, fat));
            if female.bought || own(it.male.part) && own(it.female.part) || throat >= wanted {
                return None;
            }
            let message = format!(
                "{} ({}) passes {} ({}), but {} is wanted to let it through freely",
                male.name.text,
                words::dia(fat),
                spots::words(pen, &it.female),
                words::dia(throat),
                words::dia(wanted),
            );
            let finding = RULE.at(view.joint.head, message);
            let finding = Finding {
                severity: Severity::Warning,
                ..finding
            }
            .label(spots::span(pen, &it.female), "the throat");
            Some(widened(female, &it.female, wanted, finding))
        })
        .collect()
}

/// What a part of this diameter wants to pass freely.
fn wanted(male: &Part, fat: Length) -> Length {
    match male.holds_ml.is_some() && fat >= USUAL {
        true => CONVERTER.max(fat + ROOM.half()),
        false => fat + ROOM,
    }
}

/// With the edit that widens the hole, where its size is written as a number.
fn widened(female: &Part, spot: &Spot, to: Length, finding: Finding) -> Finding {
    let to = Length::mm((to.to_mm() * 10.0).ceil() / 10.0);
    let title = format!("make the hole ⌀{}", to.mm_text(2));
    let hole = spots::feature(female, spot.origin);
    let plain = hole.filter(|hole| {
        matches!(
            &hole.cut,
            Cut::Drill {
                tool: DrillName::Diameter,
                assumed_for: None,
                ..
            } | Cut::Bore {
                tool: DrillName::Diameter,
                ..
            } | Cut::Ream {
                tool: DrillName::Diameter,
                ..
            }
        )
    });
    match plain.filter(|_| !female.bought) {
        Some(hole) => finding
            .hint(title.clone())
            .fix(title, hole.size_span, to.mm_text(2)),
        None => finding.hint(format!(
            "make the throat ⌀{}, or what goes through slimmer",
            to.mm_text(2)
        )),
    }
}

/// Whether a place of a part, and the ring of this width from it outward, is on one of its
/// threads: on its crests or the face at its end.
pub(super) fn on_thread(part: &Part, thread: usize, spot: &Spot, width_mm: f64) -> bool {
    let Some(feature) = part.features.get(thread) else {
        return false;
    };
    let (from, to) = feature.stations(part.length);
    let reach = from.to_mm() - 1e-6..=to.to_mm() + 1e-6;
    let major = feature.dia().map_or(0.0, |dia| dia.to_mm() / 2.0);
    reach.contains(&spot.station_mm) && spot.radius_mm + width_mm <= major + 1e-6
}
