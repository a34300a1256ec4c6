//! Cuts from the side, and holes beside the axis, for which the part has no room.

use super::clash::out_of_range;
use crate::{CircleHoles, NotRound, Part, Profiles, SideCut, SideCutKind, SideDepth};
use quillet_geometry::side::{Floor, SideCut as Opening};
use quillet_geometry::{Chain, Length};
use quillet_syntax::{Finding, Size, Span, text};
use std::f64::consts::PI;

/// Places along two cuts at which they are looked at for whether they meet.
const PLACES: u32 = 64;
/// What meets by less than this touches, mm.
const SAME_MM: f64 = 1e-6;

/// What is found in a part's cuts from the side, once its outline is known.
pub(super) fn without_room(part: &Part, profiles: &Profiles) -> Vec<Finding> {
    let turned = profiles.turned();
    let sides = part.sides().iter();
    let mut found: Vec<Finding> = sides.filter_map(|cut| too_large(cut, turned)).collect();
    if !found.is_empty() {
        return found;
    }
    found.extend(meeting(part, &profiles.not_round, turned));
    let circles = part.circles().iter();
    found.extend(circles.filter_map(|it| crowded(part, it, profiles)));
    found
}

/// A cut that is as large as the part itself.
fn too_large(cut: &SideCut, turned: &Chain) -> Option<Finding> {
    let (from, to) = (cut.stretch.from.to_mm(), cut.stretch.to.to_mm());
    let dia = Length::mm(2.0 * fattest(turned, from, to)?);
    // What follows the outside goes as far below it where that is thinnest.
    let thin = turned.narrowest(from, to);
    let thin = thin.map_or(dia, |(place, _)| Length::mm(2.0 * place.r).min(dia));
    let what = cut.called();
    let outside = Size::Diameter(dia);
    let wide = |size: Length| {
        let message = text!(
            "a {} {} wide is as wide as the {} outside",
            what,
            size,
            outside
        );
        (cut.size_span, message, "write a narrower one")
    };
    let below = |deep: Length, span: Span, outside: Length, hint| {
        let message = text!(
            "a {} {} deep goes past the axis of the {} outside",
            what,
            deep,
            Size::Diameter(outside)
        );
        (span, message, hint)
    };
    let (at, message, hint) = match cut.kind {
        SideCutKind::Deep(deep) | SideCutKind::Pattern { deep, .. } if deep.twice() >= thin => {
            let hint = match thin < dia {
                true => "the outside runs in: end it before, where the outside is fatter",
                false => "the depth is counted from the outside",
            };
            below(deep, cut.size_span, thin, hint)
        }
        SideCutKind::Drill { dia: size, .. } | SideCutKind::Slot { width: size, .. }
            if size >= dia =>
        {
            wide(size)
        }
        SideCutKind::Drill { depth, .. } | SideCutKind::Slot { depth, .. } => match depth {
            SideDepth::To { deep, span } if deep.twice() > dia => below(
                deep,
                span,
                dia,
                "write through where it comes out of the other side, else less",
            ),
            _ => return None,
        },
        _ => return None,
    };
    Some(out_of_range(at, message).hint(hint))
}

/// The greatest radius on a stretch, or at a place, mm.
fn fattest(outside: &Chain, from: f64, to: f64) -> Option<f64> {
    match from < to {
        true => outside.fattest(from, to).map(|(place, _)| place.r),
        false => outside.greatest_at(from),
    }
}

/// Holes and slots whose mouths run into each other, of one line or of two.
fn meeting(part: &Part, cuts: &NotRound, outside: &Chain) -> Vec<Finding> {
    let mut found = Vec::new();
    let openings = &cuts.openings;
    for (index, (id, opening)) in openings.iter().enumerate() {
        let Some(cut) = part.side(*id) else { continue };
        if meets_itself(opening, outside) {
            let message = text!(
                "this {}, {} times round the part, runs into itself",
                cut.called(),
                opening.count
            );
            let hint = "write fewer, or a narrower one";
            found.push(out_of_range(cut.size_span, message).hint(hint));
            continue;
        }
        let before = openings[..index].iter();
        let mut met = before.filter(|(_, other)| meets(opening, other, outside));
        let Some(other) = met.next().and_then(|it| part.side(it.0)) else {
            continue;
        };
        let message = text!(
            "this {} runs into the {} before it",
            cut.called(),
            other.called()
        );
        let finding = out_of_range(cut.stretch.span, message);
        let hint = "move or turn one of them (clock), or write both as one slot";
        found.push(finding.label(other.span, "cut here").hint(hint));
    }
    found
}

/// The places round the turn that an opening faces, degrees.
fn ways(cut: &Opening) -> impl Iterator<Item = f64> + '_ {
    let both = if cut.floor == Floor::Through { 2 } else { 1 };
    let apart = 360.0 / f64::from(cut.count);
    (0..both).flat_map(move |way| {
        (0..cut.count).map(move |nth| {
            (cut.clock_deg + 180.0 * f64::from(way) + apart * f64::from(nth)).rem_euclid(360.0)
        })
    })
}

/// Half the angle that an opening takes at a place of the outside, degrees.
fn half_angle(cut: &Opening, z_mm: f64, radius_mm: f64) -> f64 {
    let half = (cut.half_width_mm(z_mm) / radius_mm).clamp(0.0, 1.0);
    half.asin().to_degrees()
}

/// Whether the mouths of one line's cuts run into each other.
fn meets_itself(cut: &Opening, outside: &Chain) -> bool {
    // Those that go through come out between an odd number, and where others go in of an even one.
    let around = match cut.floor {
        Floor::Through if cut.count % 2 == 1 => 2 * cut.count,
        _ => cut.count,
    };
    let half_mm = |z_mm: f64| {
        let radius = outside.greatest_at(z_mm)?;
        let room = 180.0 / f64::from(around) - half_angle(cut, z_mm, radius);
        Some(room.to_radians() * radius)
    };
    let mut places = along(cut.from_mm, cut.to_mm).filter_map(half_mm);
    around > 1 && places.any(|it| it < -SAME_MM)
}

/// Places between two stations, mm.
fn along(from_mm: f64, to_mm: f64) -> impl Iterator<Item = f64> {
    let share = |place: u32| f64::from(place) / f64::from(PLACES);
    (1..PLACES).map(move |place| from_mm + (to_mm - from_mm) * share(place))
}

fn meets(one: &Opening, other: &Opening, outside: &Chain) -> bool {
    let (from, to) = (one.from_mm.max(other.from_mm), one.to_mm.min(other.to_mm));
    if to - from <= SAME_MM {
        return false;
    }
    let turns = ways(one).flat_map(|a| ways(other).map(move |b| (a - b).rem_euclid(360.0)));
    let apart = turns.map(|it| it.min(360.0 - it)).fold(360.0, f64::min);
    along(from, to).any(|z_mm| {
        let Some(radius) = outside.greatest_at(z_mm) else {
            return false;
        };
        let reach = half_angle(one, z_mm, radius) + half_angle(other, z_mm, radius);
        let gap_mm = (apart - reach).to_radians() * radius;
        gap_mm < -SAME_MM
    })
}

/// Holes on a pitch circle that run into each other, into the bore or out of the outside.
fn crowded(part: &Part, holes: &CircleHoles, profiles: &Profiles) -> Option<Finding> {
    let (on_mm, hole_mm) = (holes.on.to_mm(), holes.dia.to_mm());
    let ends = [holes.from, holes.to].map(|inward| part.station(holes.end, inward).to_mm());
    // A face at an end of them is what they begin in.
    let (from, to) = (
        ends[0].min(ends[1]) + SAME_MM,
        ends[0].max(ends[1]) - SAME_MM,
    );
    let count = holes.around.count;
    let apart_mm = on_mm * (PI / f64::from(count)).sin();
    let outside = profiles.root.outer.narrowest(from, to);
    let bores = profiles.root.inner.iter();
    let bore = bores.filter_map(|it| it.fattest(from, to)).map(|it| it.0.r);
    let bore_mm = 2.0 * bore.fold(0.0, f64::max);
    let sized = |mm: f64| Size::Diameter(Length::mm(mm));
    let (hole, on) = (sized(hole_mm), sized(on_mm));
    let message = match outside {
        _ if count > 1 && apart_mm <= hole_mm => text!(
            "{} holes of {} on a circle of {} run into each other",
            count,
            hole,
            on
        ),
        Some((place, _)) if on_mm + hole_mm >= 2.0 * place.r => text!(
            "holes of {} on a circle of {} come out through the outside ({})",
            hole,
            on,
            sized(2.0 * place.r)
        ),
        _ if bore_mm > 0.0 && on_mm - hole_mm <= bore_mm => text!(
            "holes of {} on a circle of {} run into the bore ({})",
            hole,
            on,
            sized(bore_mm)
        ),
        _ => return None,
    };
    Some(out_of_range(holes.on_span, message).hint("write another circle, or smaller holes"))
}
