//! What a pen measures, as reported, and what of it differs.

use super::spot;
use crate::change::{MeasureChange, MeasureKind};
use quillet_check::{CheckReport, JudgedWant, Role, spots, walls};
use quillet_model::{ClearanceKind, Configured, Part, Pen};
use quillet_syntax::{SizedText, text};
use std::collections::BTreeMap;

/// A measure of a pen: who it is, what it is of, what it comes to.
struct Measured {
    key: (MeasureKind, String),
    of: SizedText,
    way: &'static str,
    value: Option<f64>,
    /// What differs by less is the same.
    least: f64,
}

/// What differs by less is the same: mm, g, ml, turns.
const LEAST: f64 = 0.005;
/// The same of a balance that nobody wants anything of, mm.
const LEAST_BALANCE_MM: f64 = 0.05;

/// The measures that differ; of what is on one side alone none is reported, but a want.
pub(crate) fn changes(
    (old, was): (&Pen, &CheckReport),
    (new, is): (&Pen, &CheckReport),
) -> Vec<MeasureChange> {
    let other = |part: &Part, pen: &Pen| !pen.parts.iter().any(|it| same_walls(it, part));
    let mut before: BTreeMap<(MeasureKind, String), Vec<Measured>> = BTreeMap::new();
    for it in of_pen(old, was, &|part| other(part, new)) {
        before.entry(it.key.clone()).or_default().push(it);
    }
    let mut found = Vec::new();
    for it in of_pen(new, is, &|part| other(part, old)) {
        let Some(same) = before.get_mut(&it.key).filter(|it| !it.is_empty()) else {
            continue;
        };
        let was = same.remove(0);
        let differs = match (was.value, it.value) {
            (Some(old), Some(new)) => (new - old).abs() >= it.least.min(was.least) - 1e-12,
            (old, new) => old.is_some() != new.is_some(),
        };
        if differs {
            found.push(MeasureChange {
                kind: it.key.0,
                of: it.of,
                way: it.way,
                old: was.value,
                new: it.value,
            });
        }
    }
    found
}

/// Whether two parts are one in two states, with the same surfaces: then their walls are the same.
fn same_walls(old: &Part, new: &Part) -> bool {
    let (Some(was), Some(is)) = (&old.profiles, &new.profiles) else {
        return false;
    };
    old.name.text == new.name.text
        && old.shaped == new.shaped
        && was.root == is.root
        && was.crest == is.crest
        && was.not_round == is.not_round
}

/// All that is told of a pen; of its parts' walls only those `walled` says may be others.
fn of_pen(pen: &Pen, examined: &CheckReport, walled: &dyn Fn(&Part) -> bool) -> Vec<Measured> {
    let name = &pen.name.text;
    let wants: Vec<&JudgedWant> = examined.wants_of_pen(name).collect();
    let mut all = configured(pen, &wants);
    all.extend(pen.assembly.ink.iter().map(|ink| Measured {
        key: (MeasureKind::Ink, String::new()),
        of: "".into(),
        way: "",
        value: Some(ink.capacity_ml),
        least: LEAST,
    }));
    let parts = pen.parts.iter().filter(|part| walled(part));
    all.extend(parts.filter_map(|part| least_wall(part)));
    all.extend(of_joints(pen));
    all.extend(wants.into_iter().map(|it| {
        Measured {
            key: (MeasureKind::Want, format!("{:?} {}", it.part, it.asked)),
            of: match &it.part {
                Some(part) => format!("{part}: {}", it.asked).into(),
                None => it.asked.clone().into(),
            },
            way: "",
            value: it
                .measured
                .verdict
                .met()
                .map(|met| if met { 1.0 } else { 0.0 }),
            least: 0.5,
        }
    }));
    all
}

/// The pen capped, to write, and posted.
fn configured(pen: &Pen, wants: &[&JudgedWant]) -> Vec<Measured> {
    let mut all = Vec::new();
    for which in Configured::ALL {
        let Some(it) = pen.assembly.configuration(which) else {
            continue;
        };
        let word = which.word();
        let asked = format!("balance({word})");
        let wanted = wants.iter().any(|it| it.asked.contains(&asked));
        let balance = if wanted { LEAST } else { LEAST_BALANCE_MM };
        let mut put = |kind, value: Option<f64>, least| {
            all.push(Measured {
                key: (kind, word.to_owned()),
                of: word.into(),
                way: "",
                value,
                least,
            });
        };
        put(MeasureKind::Length, it.length_mm, LEAST);
        put(MeasureKind::Mass, it.filled.map(|it| it.mass_g), LEAST);
        put(
            MeasureKind::Balance,
            it.filled.map(|it| it.centre_mm),
            balance,
        );
    }
    all
}

fn least_wall(part: &Part) -> Option<Measured> {
    if part.is_bought() || !part.shaped {
        return None;
    }
    let all = walls(part).into_iter();
    // What lies further apart than to the axis is no wall.
    let real = all.filter(|it| it.role == Role::End || it.least <= it.outer_dia.half());
    let least = real.min_by_key(|it| it.least)?;
    Some(Measured {
        key: (MeasureKind::Wall, part.name.text.to_string()),
        of: part.name.text.to_string().into(),
        way: "",
        value: Some(least.least.to_mm()),
        least: LEAST,
    })
}

fn of_joints(pen: &Pen) -> Vec<Measured> {
    let mut all = Vec::new();
    if !pen.is_settled() {
        return all;
    }
    for (joint, rest) in pen.joints.iter().zip(&pen.assembly.joints) {
        let end = |it: quillet_model::JointEnd| {
            let part = &pen.parts[it.part];
            format!("{}.{}", part.name.text, part.end_name(it.end))
        };
        let (male, female) = (end(joint.male), end(joint.female));
        let name = format!("{male} in {female}");
        let threads = rest.engagements.first().filter(|it| it.travel_mm > 0.0);
        let mut put = |kind, key: String, of: SizedText, value, way| {
            all.push(Measured {
                key: (kind, key),
                of,
                way,
                value: Some(value),
                least: LEAST,
            });
        };
        if let Some(it) = threads {
            let of = || name.clone().into();
            put(MeasureKind::Travel, name.clone(), of(), it.travel_mm, "");
            put(MeasureKind::Turns, name.clone(), of(), it.turns(), "");
        }
        for it in rest.clearances.iter().filter(|it| it.drawn) {
            let key = [&it.male, &it.female].map(|spot| spot::of(pen, spot));
            let key = format!("{name} {} {}", it.kind.word(), key.join(" "));
            let [male, female] = [&it.male, &it.female].map(|spot| spots::words(pen, spot));
            let (of, way) = match it.kind {
                ClearanceKind::RadialClearance => (text!("{} in {}", male, female), "a side"),
                ClearanceKind::Ahead => (text!("{} to {}", male, female), "along"),
                ClearanceKind::Corner => (text!("{} to the corner of {}", male, female), "along"),
            };
            put(MeasureKind::Clearance, key, of, it.nominal_mm, way);
        }
    }
    all
}
