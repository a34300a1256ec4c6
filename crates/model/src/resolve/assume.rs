//! What is worked out when it is not said: tenons for dies, drills for taps.

use super::Resolver;
use super::lines::incomplete;
use crate::{Cut, DrillName, Feature, Part, ThreadDef, Units};
use quillet_geometry::{Angle, Length};
use quillet_standards::drill::Drill;
use quillet_syntax::ast;

impl<'a> Resolver<'a> {
    /// A tenon without a diameter takes the middle of the class's major limits of the
    /// thread on it.
    pub(super) fn assume_tenons(&mut self, part: &mut Part, thread_lost: bool) {
        let mut missing = Vec::new();
        for index in part.features.ids() {
            let Cut::Tenon { dia, .. } = &part.features[index].cut else {
                continue;
            };
            if dia.is_positive() {
                continue;
            }
            let tenon = &part.features[index];
            let on_it = part.features.iter().find_map(|other| match &other.cut {
                Cut::Thread {
                    thread,
                    side: ast::Side::Outside,
                } if other.end == tenon.end && other.from < tenon.to => Some(thread.clone()),
                _ => None,
            });
            match on_it {
                Some(thread) => {
                    let dia = middle_of_major_limits(&thread);
                    part.features[index].cut = Cut::Tenon {
                        dia,
                        assumed_for: Some(thread),
                    };
                }
                None => missing.push(index),
            }
        }
        for index in missing.into_iter().rev() {
            let tenon = part.features.remove(index);
            // The thread on it may be what could not be read.
            if thread_lost {
                continue;
            }
            self.emit(incomplete(
                tenon.span,
                "this tenon says no diameter, and no thread is cut on it".to_owned(),
                "write its diameter, as in: tenon 9.9 for 8",
            ));
        }
    }
}

/// The middle of the external major limits of a thread's class (ISO 965-1, ASME B1.1).
fn middle_of_major_limits(thread: &ThreadDef) -> Length {
    thread
        .thread
        .tenon()
        .map_or(thread.thread.major(), |tenon| tenon.default)
}

/// Adds the tap drill of every inside thread that no written cut opens: the drill of the file's
/// series that is kind to the material it is cut in, nearest to the standard's. Common practice is
/// to drill four pitches deeper than the full thread, for the tap's lead.
pub(super) fn assume_tap_drills(part: &mut Part, units: Units) {
    let mut assumed = Vec::new();
    for feature in &part.features {
        let Some((thread, ast::Side::Inside)) = feature.thread() else {
            continue;
        };
        let form = &thread.thread;
        let least = form.major() - form.pitch() * 2;
        let opened = part.features.iter().any(|other| {
            let (low, high) = other.stations(part.length);
            let bottom = part.station(feature.end, feature.to);
            // A countersink narrows to nothing: it opens a mouth, not a thread.
            let hole = other.is_inside() && !matches!(other.cut, Cut::Countersink { .. });
            hole && other.thread().is_none()
                && other.dia().is_some_and(|dia| dia >= least)
                && low <= bottom
                && bottom <= high
        });
        if opened {
            continue;
        }
        let material = part.thread_materials(feature).first().copied();
        let family = material.map(|material| material.kind.family());
        let (dia, tool) = match form.kind_drill(family, units.drills()) {
            Some((drill, _)) => (drill.diameter(), named(drill)),
            None => (form.tap_drill().diameter, DrillName::Diameter),
        };
        let deep = feature.to + form.pitch() * 4;
        let to = if deep < part.length {
            deep
        } else {
            part.length
        };
        assumed.push(Feature {
            from: Length::ZERO,
            to,
            through: to == part.length,
            cut: Cut::Drill {
                dia,
                tool,
                point: Angle::deg(118.0),
                assumed_for: Some(thread.clone()),
            },
            clock: None,
            face: None,
            ..feature.clone()
        });
    }
    part.features.extend(assumed);
    part.features.sort_by_key(|feature| feature.end);
}

/// How a drill of the standard series is named in a file.
fn named(drill: &Drill) -> DrillName {
    let name = drill.to_string();
    let number = name.strip_prefix('#').and_then(|it| it.parse().ok());
    let letter = name
        .strip_prefix("letter ")
        .and_then(|it| it.chars().next());
    match (number, letter) {
        (Some(number), _) => DrillName::Number(number),
        (_, Some(letter)) => DrillName::Letter(letter),
        _ => DrillName::Diameter,
    }
}
